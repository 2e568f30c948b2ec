"""Journals as files: new, recent, a copy."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk.file_menu import recent_journals
from dryhouse.desk.opening import Opening
from dryhouse.desk.theme import Theme
from dryhouse.desk.window import DeskWindow
from dryhouse.house import Journals, open_kitchen
from dryhouse.kitchen.batches.dryers import save_dryer
from dryhouse.kitchen.batches.log import BatchDraft, log_batch
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.science.quantities import Mass


@pytest.fixture
def opening(qtbot, theme: Theme, settings, tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    window = DeskWindow(theme, settings)
    made = Opening(window, Journals())
    window.show()
    made.open_own()
    yield made
    window.close()
    window.deleteLater()


@pytest.fixture
def answered(monkeypatch):
    """What the person answers when she is asked for a file."""

    def answer(path: Path) -> None:
        monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_asked, **_named: (str(path), ""))

    return answer


def test_a_new_journal_is_empty_and_open_and_the_old_one_is_one_of_the_recent(opening, answered, tmp_path):
    own = opening.journals.path(opening.session.kitchen)
    answered(tmp_path / "club")
    opening.files.ask_new()
    assert opening.journals.path(opening.session.kitchen) == tmp_path / "club.dryhouse"
    assert recent_journals(opening.window.settings) == [tmp_path / "club.dryhouse", own]
    opening.files.open_file(own)
    assert opening.journals.path(opening.session.kitchen) == own


def test_a_journal_that_is_there_is_never_written_over(opening, answered, tmp_path):
    (tmp_path / "club.dryhouse").write_text("hers")
    answered(tmp_path / "club.dryhouse")
    opening.files.ask_new()
    assert (tmp_path / "club.dryhouse").read_text() == "hers"
    assert "another name" in opening.session.messages.latest.text


def test_a_copy_holds_everything_and_the_journal_stays_open(opening, answered, tmp_path):
    opening.session.act(save_dryer, Dryer("galley dryer", 4))
    own = opening.journals.path(opening.session.kitchen)
    answered(tmp_path / "copy.dryhouse")
    opening.files.ask_copy()
    with open_kitchen(tmp_path / "copy.dryhouse") as copied:
        assert [d.name for d in copied.journal.where(Dryer)] == ["galley dryer"]
    assert opening.journals.path(opening.session.kitchen) == own
    assert list(opening.journals.backups(own)) == [], "a copy of hers is no backup of ours"
    opening.session.act(save_dryer, Dryer("porch dryer", 6))
    opening.files.ask_copy()
    with open_kitchen(tmp_path / "copy.dryhouse") as copied:
        assert len(copied.journal.where(Dryer)) == 2, "the one that was there gives way"
    assert [file.name for file in tmp_path.glob("copy*")] == ["copy.dryhouse"]


def test_a_journal_begun_and_left_empty_is_welcomed_again_though_it_has_a_backup(opening):
    """Until a batch was in it there is nothing a backup could bring back."""
    opening.session.act(save_dryer, Dryer("galley dryer", 4))
    opening.back_up()
    opening.open_own()
    assert opening._page.heading.text() == "Welcome to your drying journal"
    opening.session.act(log_batch, BatchDraft(Batch("corn", prepared_mass=Mass(900.0), dried_mass=Mass(240.0))))
    opening.back_up()
    opening.session.undo()
    opening.open_own()
    assert opening._page.heading.text() == "This journal is empty"


def test_a_journal_that_is_open_is_not_copied_over_and_a_folder_without_room_keeps_nothing_half(
    opening, answered, tmp_path, monkeypatch
):
    from dryhouse.journal.sqlite import file

    opening.session.act(save_dryer, Dryer("galley dryer", 4))
    (tmp_path / "club.dryhouse").write_text("hers")
    (tmp_path / "club.dryhouse-wal").write_text("and her log")
    answered(tmp_path / "club.dryhouse")
    opening.files.ask_copy()
    assert "another name" in opening.session.messages.latest.text
    assert (tmp_path / "club.dryhouse").read_text() == "hers"

    def full(_path: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(file, "_to_disk", full)
    answered(tmp_path / "other.dryhouse")
    opening.files.ask_copy()
    assert "full" in opening.session.messages.latest.text
    assert not list(tmp_path.glob("other*"))


def test_the_journal_itself_is_no_place_for_its_copy(opening, answered):
    own = opening.journals.path(opening.session.kitchen)
    answered(own)
    opening.files.ask_copy()
    assert "the journal itself" in opening.session.messages.latest.text


def test_a_journal_that_is_gone_is_not_offered(opening, answered, tmp_path):
    answered(tmp_path / "club.dryhouse")
    opening.files.ask_new()
    opening.open_own()
    (tmp_path / "club.dryhouse").unlink()
    assert [p.stem for p in recent_journals(opening.window.settings)] == ["journal"]
