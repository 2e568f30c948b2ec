"""Opening journals, and what is shown when one does not open."""

from pathlib import Path

import pytest

from dryhouse.desk.opening import Opening
from dryhouse.desk.window import DeskWindow
from dryhouse.science.errors import WorldProblem
from tests.builders import a_kitchen
from tests.desk.conftest import SHELF, a_batch


class SomeJournals:
    """Two journals in memory, one of which may be broken."""

    def __init__(self):
        self.broken = ""
        self.kitchens = {"own": a_kitchen(SHELF, a_batch(1)), "sample": a_kitchen(SHELF, a_batch(1), a_batch(2))}
        self.opened = []
        self.restored = []

    def _open(self, name):
        if self.broken == name:
            raise WorldProblem(f"The journal {name} is locked by another window.")
        self.opened.append(name)
        return self.kitchens[name]

    def own(self):
        return self._open("own")

    def sample(self):
        return self._open("sample")

    def file(self, path):
        return self._open(Path(path).name)

    def path(self, kitchen):
        return Path(next(name for name, k in self.kitchens.items() if k is kitchen))

    def name(self, kitchen):
        return f"the {self.path(kitchen)} journal"

    def back_up(self, kitchen):
        return Path("backups") / self.path(kitchen)

    def restore(self, backup, into=None):
        if "bad" in backup.name:
            raise WorldProblem(f"{backup.name} is not whole. Nothing was changed.")
        self.restored.append((backup, into))
        return Path("kept")


@pytest.fixture
def journals():
    return SomeJournals()


@pytest.fixture
def opening(qtbot, theme, settings, journals):
    window = DeskWindow(theme, settings)
    made = Opening(window, journals)
    window.show()
    yield made
    window.close()
    window.deleteLater()


def heading(opening):
    return opening._plain.heading.text()


def test_her_journal_opens_with_its_name_in_the_title(opening, journals):
    assert opening.open(journals.own)
    assert "the own journal" in opening.window.windowTitle()
    assert opening.window.here == "journal"


def test_a_journal_that_does_not_open_leaves_a_window_with_a_sentence_and_choices(opening, journals):
    journals.broken = "own"
    assert not opening.open(journals.own)
    assert heading(opening) == "This journal did not open"
    assert "locked by another window" in opening._plain.sentence.text()
    assert not any(b.isEnabled() for b in opening.window.rail.buttons.values())
    assert [b.text() for b in opening._plain.buttons] == [
        "Open another journal…",
        "Restore a backup…",
        "Look at the sample journal",
    ]
    opening._plain.buttons[2].click()
    assert opening.window.here == "journal"


def test_another_journal_that_does_not_open_leaves_the_first_one_open(opening, journals):
    opening.open(journals.own)
    journals.broken = "sample"
    opening.open_sample()
    assert opening.session.kitchen is journals.kitchens["own"]
    assert opening.session.messages.latest.kind == "world"
    assert opening.window.here == "journal"


def test_an_empty_journal_is_welcomed_with_the_sample_one_click_away(opening, journals):
    journals.kitchens["own"] = a_kitchen()
    opening.open(journals.own)
    assert "Welcome" in heading(opening)
    opening._plain.buttons[0].click()
    assert opening.session.kitchen is journals.kitchens["sample"]


def test_she_can_start_her_own_instead(opening, journals):
    journals.kitchens["own"] = a_kitchen()
    opening.open(journals.own)
    opening._plain.buttons[1].click()
    assert opening.window.here == "journal"


def test_the_other_journal_is_closed(opening, journals):
    opening.open(journals.own)
    opening.open_sample()
    assert journals.kitchens["own"].journal.closed
    opening.window.close()
    assert journals.kitchens["sample"].journal.closed


def test_a_backup_says_where_it_is(opening, journals):
    opening.open(journals.own)
    opening.back_up()
    assert "backups" in opening.session.messages.latest.text


def test_a_restored_journal_is_opened_and_the_former_one_named(opening, journals):
    opening.open(journals.own)
    opening.restore(Path("good"))
    assert journals.restored == [(Path("good"), Path("own"))]
    assert "kept as kept" in opening.session.messages.latest.text


def test_a_backup_that_is_not_whole_leaves_the_journal_open(opening, journals):
    opening.open(journals.own)
    opening.restore(Path("bad"))
    assert opening.session.kitchen is journals.kitchens["own"]
    assert "not whole" in opening.session.messages.latest.text
