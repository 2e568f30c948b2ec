"""Opening journals, and what is shown when one does not open."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import QLocale

from dryhouse.desk import fault_log
from dryhouse.desk.opening import Opening, starts
from dryhouse.desk.safekeeping import Safekeeping
from dryhouse.desk.window import DeskWindow
from dryhouse.journal.problems import damaged as file_damaged
from dryhouse.kitchen.ports import KeptCopy
from dryhouse.kitchen.settings import style
from dryhouse.science.display import METRIC, US
from dryhouse.science.errors import WorldProblem
from dryhouse.science.messages import MessageKind, message
from tests.builders import a_kitchen
from tests.desk.conftest import SHELF, a_batch


class SomeJournals:
    """Two journals in memory, one of which may be broken."""

    def __init__(self):
        self.broken = ""
        self.kitchens = {"own": a_kitchen(SHELF, a_batch(1)), "sample": a_kitchen(SHELF, a_batch(1), a_batch(2))}
        self.opened = []
        self.tried = Path("own")
        self.found, self.copies, self.due = [], [], []
        self.restored = []

    def _open(self, name):
        self.tried = Path(name)
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

    def back_up_if_due(self, path):
        self.due.append(path)
        if "full" in path.name:
            raise WorldProblem("The disk is full.")

    def has_backups(self, path):
        return bool(self.copies)

    def backups(self, path):
        return self.copies

    def look_inside(self, backup):
        return [f"inside {backup.name}"]

    def mendable(self, found):
        return any(each.kind is MessageKind.STRANGE_PART for each in found)

    def mend(self, path):
        self.found = []
        return [message(MessageKind.TAKEN_OUT, name="spy")]

    def faults(self, path):
        return self.found

    def restore(self, backup, into):
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
    return opening._page.heading.text()


def test_her_journal_opens_with_its_name_in_the_title(opening, journals):
    assert opening.open(journals.own)
    assert "the own journal" in opening.window.windowTitle()
    assert opening.window.here == "journal"


def test_a_journal_that_does_not_open_leaves_a_window_with_a_sentence_and_choices(opening, journals):
    journals.broken = "own"
    assert not opening.open(journals.own)
    assert heading(opening) == "Could not open this journal"
    assert "locked by another window" in opening._page.sentence.text()
    assert not any(b.isEnabled() for b in opening.window.rail.buttons.values())
    assert [b.text() for b in opening._page.buttons] == [
        "Open another journal…",
        "Restore a backup…",
        "Check the journal",
        "Look at the sample journal",
    ]
    opening._page.buttons[3].click()
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
    opening._page.buttons[-1].click()
    assert opening.session.kitchen is journals.kitchens["sample"]


@pytest.mark.parametrize(
    ("locale", "first"), [("en_US", US), ("de_DE", METRIC), ("en_GB", METRIC), ("fr_CA", METRIC), ("sv_SE", METRIC)]
)
def test_the_units_of_her_system_are_offered_first(locale, first):
    assert next(units for units, _ in starts(QLocale(locale))) == first


def test_she_starts_in_the_units_she_chooses(opening, journals):
    journals.kitchens["own"] = a_kitchen()
    opening.open(journals.own)
    next(b for b in opening._page.buttons if "grams" in b.text()).click()
    assert opening.session.style.system == METRIC
    assert style(journals.kitchens["own"]).system == METRIC


def test_she_can_start_her_own_instead(opening, journals):
    journals.kitchens["own"] = a_kitchen()
    opening.open(journals.own)
    opening._page.buttons[1].click()
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


def menu_words(opening):
    menus = [a.menu() for a in opening.window.menuBar().actions()]
    return [a.text().replace("&", "") for menu in menus for a in menu.actions() if a.text()]


def test_a_window_without_a_journal_has_menus_to_open_restore_and_check(opening, journals):
    journals.broken = "own"
    opening.open(journals.own)
    words = menu_words(opening)
    assert {"Open a journal…", "Restore a backup…", "Check the journal", "Quit"} <= set(words)
    assert "Back up now" not in words
    opening.open_sample()
    assert "Back up now" in menu_words(opening)


def test_a_mistake_of_ours_while_opening_has_the_page_and_the_log(opening, journals, monkeypatch):
    written = []
    monkeypatch.setattr(fault_log, "write", written.append)

    def broken():
        raise ZeroDivisionError("in the middle")

    assert not opening.open(broken)
    assert heading(opening) == "Could not open this journal"
    assert "Something went wrong in the program" in opening._page.sentence.text()
    assert "ZeroDivisionError: in the middle" in written[0]


def test_a_journal_whose_first_reading_fails_has_the_page_too(opening, journals, monkeypatch):
    journal = journals.kitchens["own"].journal
    monkeypatch.setattr(journal, "batch_ids", damaged)
    assert not opening.open(journals.own)
    assert heading(opening) == "Could not open this journal"
    assert journal.closed
    assert opening.window.session is None


def damaged(*_asked):
    raise WorldProblem(file_damaged(Path("own")))


def test_what_failed_is_restored_and_not_another_journal(opening, journals):
    journals.broken = "sample"
    opening.open(journals.sample)
    journals.broken = ""
    opening.restore(Path("good"))
    assert journals.restored == [(Path("good"), Path("sample"))]
    assert opening.session.kitchen is journals.kitchens["sample"]


@pytest.mark.parametrize("backups", [0, 1])
def test_damage_met_while_she_works_has_a_page_and_what_she_typed_stays(
    opening, journals, tmp_path, monkeypatch, backups
):
    monkeypatch.chdir(tmp_path)
    for name in ["own-2026-11-26T185200.123456Z"][:backups]:
        Path("backups").mkdir()
        (Path("backups") / name).touch()
    opening.open(journals.own)
    view = opening.window.go("journal")
    view.log()
    view.form.entries.fields["fresh"].edit.setText("2 lb")
    assert opening.session.attempt(damaged) is None
    assert heading(opening) == "Problem with this journal's file"
    assert "is damaged" in opening._page.sentence.text()
    assert ("there is no backup" in opening._page.sentence.text()) == (not backups)
    said = [b.text() for b in opening._page.buttons]
    assert said == [
        "Open it again", "Open another journal…", "Restore a backup…", "Check the journal", "Go back",
    ]  # fmt: skip
    opening._page.buttons[-1].click()
    assert opening.window.here == "journal"
    assert view.form.entries.fields["fresh"].text() == "2 lb"
    opening.session.attempt(damaged)
    assert opening.window.here == "journal", "it is said each time, and shown once"


def test_a_check_that_finds_nothing_says_so(opening, journals, qtbot):
    opening.open(journals.own)
    opening.rescue.check()
    qtbot.waitUntil(lambda: opening.session.messages.latest.kind == "done")
    assert "No damage found" in opening.session.messages.latest.text


def test_a_check_lists_what_it_found_and_offers_the_backups(opening, journals, qtbot):
    journals.found = [
        message(MessageKind.PART_MISSING, what="table", name="weighing"),
        message(MessageKind.STRANGE_PART, name="spy"),
    ]
    journals.broken = "own"
    opening.open(journals.own)
    opening.rescue.check()
    qtbot.waitUntil(lambda: "check found" in heading(opening))
    assert heading(opening) == "The check found 2 faults"
    listed = [opening._page.list.item(n).text() for n in range(opening._page.list.count())]
    assert listed[0] == "The table weighing is missing from the file."
    assert [b.text().replace("&", "") for b in opening._page.buttons] == [
        "Repair what can be repaired",
        "Restore a backup…",
        "Open it again",
    ]
    opening._page.buttons[0].click()
    qtbot.waitUntil(lambda: heading(opening) == "What was repaired")
    assert opening._page.list.item(0).text() == "“spy” was removed from the file."
    journals.broken = ""
    opening._page.buttons[0].click()
    assert opening.window.here == "journal"


def test_the_backups_are_listed_with_a_look_inside_before_one_is_taken(opening, journals, qtbot):
    at = datetime.now(UTC)
    journals.copies = [
        KeptCopy(Path("third"), at, None, False),
        KeptCopy(Path("second"), at - timedelta(days=40), 135, True),
        KeptCopy(Path("first"), at - timedelta(days=80), 1, True),
    ]
    opening.open(journals.own)
    opening.rescue.ask_restore()
    page = opening._page
    qtbot.waitUntil(lambda: page.list.count() == 3)
    said = [page.list.item(n).text() for n in range(3)]
    assert said[0].endswith(", damaged")
    assert said[1].endswith(", 135 batches, whole")
    assert said[2].endswith(", 1 batch, whole")
    assert page.chosen == journals.copies[1], "the newest that is whole"
    qtbot.waitUntil(lambda: page.inside.count() == 1)
    assert page.inside.item(0).text() == "inside second"
    page.list.setCurrentRow(0)
    assert not page.restore_button.isEnabled()
    page.list.setCurrentRow(2)
    page.restore_button.click()
    assert journals.restored == [(Path("first"), Path("own"))]
    assert opening.window.here == "journal"


def test_two_backups_of_one_minute_are_told_apart_by_their_seconds(opening, journals, qtbot):
    at = datetime(2026, 8, 6, 12, 5, 10, tzinfo=UTC)
    copies = [(at, 4), (at - timedelta(seconds=7), 4), (at - timedelta(days=1), 3)]
    journals.copies = [KeptCopy(Path(str(n)), made, batches, True) for n, (made, batches) in enumerate(copies)]
    opening.open(journals.own)
    opening.rescue.ask_restore()
    page = opening._page
    qtbot.waitUntil(lambda: page.list.count() == 3)
    said = [page.list.item(n).text() for n in range(3)]
    assert [":05:10, " in said[0], ":05:03, " in said[1], ":05, " in said[2]] == [True] * 3


def test_a_journal_without_backups_says_so_and_offers_another_file(opening, journals, qtbot):
    opening.open(journals.own)
    opening.rescue.ask_restore()
    qtbot.waitUntil(lambda: "no backups" in opening._page.sentence.text())
    assert not opening._page.restore_button.isEnabled()
    opening._page.buttons[-1].click()
    assert opening.window.here == "journal"


def test_the_backup_of_the_day_is_asked_for_while_the_window_is_open(opening, journals, qtbot):
    opening.open(journals.own)
    keeping = opening.session.findChild(Safekeeping)
    keeping.ask()
    qtbot.waitUntil(lambda: journals.due == [Path("own")])
    assert opening.session.messages.latest is None


def test_a_backup_of_the_day_that_cannot_be_made_is_said(opening, journals, qtbot):
    opening.open(journals.own)
    keeping = Safekeeping(opening.session, journals, Path("full"))
    keeping.ask()
    qtbot.waitUntil(lambda: opening.session.messages.latest is not None)
    assert opening.session.messages.latest.text == "The disk is full."


def test_an_empty_journal_with_backups_is_no_welcome(opening, journals, qtbot):
    journals.kitchens["own"] = a_kitchen()
    journals.copies = [KeptCopy(Path("first"), datetime.now(UTC), 12, True)]
    opening.open(journals.own)
    assert heading(opening) == "This journal is empty"
    assert "there are backups of it" in opening._page.sentence.text()
    opening._page.buttons[0].click()
    qtbot.waitUntil(lambda: opening._page.list.count() == 1)
    opening._page.buttons[-1].click()
    assert opening.window.here == "journal"


def test_after_a_mistake_the_journal_is_checked_once_and_shown_only_if_it_is_the_cause(opening, journals, qtbot):
    opening.open(journals.own)
    opening.rescue.look_for_the_cause()
    qtbot.wait(200)
    assert opening.window.here == "journal"
    opening.open_sample()
    journals.found = [message(MessageKind.UNREADABLE_RECORD, what="Batch", number="3")]
    opening.rescue.look_for_the_cause()
    qtbot.waitUntil(lambda: opening._page is not None)
    assert heading(opening) == "The check found 1 fault"
    opening.rescue.opening.go_back()
    opening.rescue.look_for_the_cause()
    qtbot.wait(200)
    assert opening.window.here == "journal"
