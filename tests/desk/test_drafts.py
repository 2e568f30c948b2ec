"""What is typed survives: kept beside the journal while it is typed, offered after a kill, a close or a leave."""

from __future__ import annotations

import json
import stat
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from dryhouse.desk.draft_book import ENDING, MOST, DraftBook
from dryhouse.desk.opening import Opening
from dryhouse.desk.places.dryer.small_window import show_small
from dryhouse.desk.places.shelf.acts import ActForm
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column
from dryhouse.desk.widgets.draft import KeptForm, described, keep_entries
from dryhouse.desk.widgets.fields import TextField
from dryhouse.desk.window import DeskWindow
from dryhouse.house import Journals, sample_file


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "mine.dryhouse"


def test_a_form_that_cannot_be_read_takes_no_other_with_it_and_the_window_still_closes(
    file: Path, session: Session, qtbot: Any
) -> None:
    drafts = session.drafts
    seen: list[str] = []

    def fails() -> None:
        raise ValueError("no such entry")

    form = QWidget()
    qtbot.addWidget(form)
    drafts.watch(form, fails)
    drafts.watch(form, lambda: seen.append("other"))
    with pytest.raises(ValueError, match="no such entry"):
        drafts.close()
    assert seen == ["other"]
    drafts.keep()
    assert seen == ["other"], "it is looked at no more"


# --- the book ---------------------------------------------------------------------------------------------------


def test_a_book_is_read_again_as_it_was_written_and_only_its_owner_may_read_it(file: Path) -> None:
    book = DraftBook(file)
    odd = {"name": "½ \N{EAR OF MAIZE} \ud800", "trays": 4, "kept": None, "parts": [["corn", "2 lb"]]}
    book.put("dryer", "3", [odd, {"name": "box"}])
    book.save()
    kept = file.with_name(file.name + ENDING)
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    assert DraftBook(file).get("dryer", "3") == [odd, {"name": "box"}]
    assert DraftBook(file).get("dryer") == []


def test_a_book_without_drafts_is_no_file(file: Path) -> None:
    book = DraftBook(file)
    book.save()
    assert not list(file.parent.iterdir())
    book.put("dryer", "", ["x"])
    book.save()
    book.put("dryer", "", [])
    book.save()
    assert not list(file.parent.iterdir())


def test_only_the_last_few_of_each_are_kept(file: Path) -> None:
    book = DraftBook(file)
    book.put("dryer", "", list(range(MOST + 3)))
    assert book.get("dryer") == list(range(MOST))


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "null", '{"dryer": 3}', '{"dryer": {"": 3}}', "[" * 100_000, "\x00"]
)
def test_a_book_that_cannot_be_read_holds_none(file: Path, text: str) -> None:
    file.with_name(file.name + ENDING).write_text(text, encoding="utf-8")
    book = DraftBook(file)
    assert book.get("dryer") == []
    book.put("dryer", "", ["x"])
    book.save()
    assert DraftBook(file).get("dryer") == ["x"]


def test_a_disk_that_fails_costs_the_drafts_alone(file: Path, monkeypatch) -> None:
    def full(*_paths: object) -> None:
        raise OSError(28, "No space left on device")

    book = DraftBook(file)
    book.put("dryer", "", ["x"])
    with monkeypatch.context() as broken:
        broken.setattr("dryhouse.desk.draft_book.os.replace", full)
        book.save()
    assert not list(file.parent.iterdir())
    book.save()
    assert DraftBook(file).get("dryer") == ["x"]


def test_a_journal_in_memory_writes_nothing(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    book = DraftBook(Path("in memory"))
    book.put("dryer", "", ["x"])
    book.save()
    assert not list(tmp_path.iterdir())


# --- one form -----------------------------------------------------------------------------------------------------


class SomeForm(QWidget):
    """One text."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.text = ""
        self.kept = KeptForm(session, "some", self, lambda: self.text, self.put)
        column(self).addWidget(self.kept.offer)

    def put(self, text: str) -> None:
        self.text = text

    def open(self, of: object = "", text: str = "") -> str:
        """Fill it in; answers what is offered."""
        self.kept.rest()
        self.text = text
        self.kept.shown(of)
        return "" if self.kept.offer.isHidden() else self.kept.offer.asked.text()


@pytest.fixture
def form(qtbot, session: Session) -> SomeForm:
    made = SomeForm(session)
    qtbot.addWidget(made)
    return made


def test_what_was_typed_is_offered_for_the_same_thing_and_no_other(form: SomeForm) -> None:
    assert form.open(3, "shelf") == ""
    form.text = "shelf dryer"
    assert form.open(4, "box") == ""
    assert form.open(3, "shelf") == "Go on with shelf dryer?"
    form.kept.offer.go_on.click()
    assert form.text == "shelf dryer"
    form.kept.saved()
    assert form.open(3, "shelf dryer") == ""


def test_what_is_typed_while_another_is_offered_is_kept_beside_it(form: SomeForm) -> None:
    form.open()
    form.text = "first"
    assert form.open() == "Go on with first?"
    form.text = "second"
    form.kept.offer.go_on.click()
    assert form.text == "first"
    assert form.open() == "Go on with first?"
    form.kept.offer.forget.click()
    assert form.open() == "Go on with second?"


def test_saving_what_was_typed_next_leaves_what_is_offered(form: SomeForm) -> None:
    form.open()
    form.text = "first"
    form.open()
    form.text = "second"
    form.kept.saved()
    assert form.open() == "Go on with first?"


def test_what_was_typed_and_put_back_as_it_was_is_no_draft(form: SomeForm, session: Session) -> None:
    form.open(3, "shelf")
    form.text = "shelf dryer"
    session.drafts.keep()
    form.text = "shelf"
    session.drafts.keep()
    assert session.drafts.book.get("some", "3") == []


def test_tab_comes_to_what_is_offered_before_the_first_entry(qtbot, session: Session) -> None:
    form = QWidget()
    qtbot.addWidget(form)
    first, second = TextField(session, "Name", name="name"), TextField(session, "Note", name="note")
    session.drafts.book.put("some", "", [{"name": "shelf dryer", "note": ""}])
    kept = keep_entries(session, "some", form, lambda: (first, second))
    inside = column(form)
    for widget in (kept.offer, second, first):  # not in the order they are made in
        inside.addWidget(widget)
    kept.shown()
    form.show()
    form.activateWindow()
    kept.offer.go_on.setFocus()
    qtbot.waitUntil(kept.offer.go_on.hasFocus)
    for after in (kept.offer.forget, first.edit):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        assert after.hasFocus()


@pytest.mark.parametrize(
    ("kept", "said"),
    [
        ({"notes": "crisp", "mass": "250 g", "food": "apple"}, "apple, 250 g"),
        ([{"name": "lake circuit", "people": "4"}, [[0, "Ann"]]], "lake circuit"),
        (["", "80 g"], "80 g"),
        ({"2 ": ""}, "what you had typed"),
    ],
)
def test_a_draft_is_called_by_what_it_is_and_how_much(kept: Any, said: str) -> None:
    assert described(kept) == said


# --- every form of the window, over a real file ---------------------------------------------------------------


@pytest.fixture
def start(qtbot, theme, settings) -> Iterator[Callable[[], Opening]]:
    """Starts the window on her copy of the sample, as often as wanted."""
    windows = []

    def started() -> Opening:
        window = DeskWindow(theme, settings)
        opening = Opening(window, Journals(sample_file()))
        windows.append(window)
        window.show()
        qtbot.waitExposed(window)
        opening.open_own()
        return opening

    yield started
    for window in windows:
        window.close()
        window.deleteLater()


def view(opening: Opening, place: str) -> Any:
    return opening.window.go(place)


def dryer(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "journal")
    place.show_dryers()
    return place.dryers, place.dryers.fields["watts"].edit


def new_batch(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "journal")
    place.log()
    return place.form, place.form.entries.fields["fresh"].edit


def changed_batch(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "journal")
    place.edit(1)
    return place.form, place.form.entries.fields["dried"].edit


def start_form(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "drying")
    place.start()
    return place.form, place.form.fields["prepared_mass"].edit


def take_off(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "drying")
    place.open_beside(place.take_off, place.current)
    return place.take_off, place.take_off.energy.edit


def storage_place(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "shelf")
    place.show_places()
    return place._places, place._places.humidity.edit


def bought(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "shelf")
    place.shelve()
    return place._bought, place._bought.mass.edit


def pack(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "shelf")
    place.pack()
    return place._pack, place._pack.rows[0].mass.edit


def lot_act(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "shelf")
    form = ActForm(place.session)
    place.pages.addWidget(form)
    place.pages.setCurrentWidget(form)
    form.begin("draw", [1], "lot 1")
    return form, form.fields["note"].edit


def trip(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "meals")
    place.turn(1)
    place.new()
    return place.trips.form, place.trips.form.name.edit


def meal(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "meals")
    place.turn(0)
    place.new()
    return place.meals.card, place.meals.card.parts.rows[0].amount


def note(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "meals")
    place.show_record("meal", 1)
    place.meals.card.open_note()
    return place.meals.card.note, place.meals.card.note.change.edit


def swap(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "meals")
    place.show_record("meal", 1)
    card = place.meals.card
    card._ask_swap(card.parts.rows[0])
    return card.swap, card.swap.amount


def own_food(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "handbook")
    place.add_food()
    return place.own_food, place.own_food.name.edit


def own_figure(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "handbook")
    place.show_record("food", "corn")
    return place.page.own, place.page.own.value.edit


def weighing(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "drying")
    strip = place.strips[place.current]
    return strip, strip.reading.edit


def tare_of_a_weighing(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "drying")
    strip = place.strips[place.current]
    return strip, strip.tare.edit


def small_window(opening: Opening) -> tuple[Any, Any]:
    show_small(opening.window)
    strip = next(iter(opening.window.small.strips.values()))
    return strip, strip.entry.field.edit


def corrected_weighing(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "drying")
    place.show_weighings(place.current)
    pane = place.detail.weighings
    pane.edit()
    return pane, pane.gross.edit


def instrument(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "drying")
    place.open_beside(place.instrument, place.current)
    return place.instrument, place.instrument.name.edit


def hours(opening: Opening) -> tuple[Any, Any]:
    place = view(opening, "meals")
    place.turn(1)
    calendar = place.trips.plan_view.calendar
    calendar.change.click()
    return calendar.form, calendar.form.awake.edit


FORMS = {
    "a weighing": weighing, "the tare of a weighing": tare_of_a_weighing, "a weighing in small": small_window,
    "a weighing put right": corrected_weighing, "an instrument": instrument, "the hours": hours,
    "a dryer": dryer, "a new batch": new_batch, "a recorded batch": changed_batch, "a place": storage_place,
    "bought food": bought, "packing": pack, "taking from a lot": lot_act, "starting": start_form,
    "taking off": take_off, "a trip": trip, "a meal": meal, "a cooking note": note, "a swap": swap,
    "an own food": own_food, "an own figure": own_figure,
}  # fmt: skip


APART = {"the tare of a weighing", "a recorded batch", "a weighing in small"}
"""They share a form with another, or stand in a window of their own: typed in a sitting after the others."""


@pytest.mark.parametrize("ends", ["killed", "closed"])
@pytest.mark.parametrize("names", [set(FORMS) - APART, APART], ids=["most", "the rest"])
def test_what_stood_in_a_form_is_offered_in_the_next_sitting(start, names: set[str], ends: str) -> None:
    typed = {name: str(701 + number) for number, name in enumerate(n for n in FORMS if n in names)}
    opening = start()
    kept = sample_file().with_name(sample_file().name + ENDING)
    for name, text in typed.items():
        _, entry = FORMS[name](opening)
        entry.setText(text)
        if ends == "killed":  # whatever happens from here on, it is on the disk
            opening.session.drafts.keep()
            assert text in json.dumps(json.loads(kept.read_text(encoding="utf-8"))), name
    if ends == "closed":
        opening.window.close()
    again = start()
    for name, text in typed.items():
        shown, entry = FORMS[name](again)
        assert entry.text() != text, name
        own = {shown.kept.offer, getattr(shown, "offer", shown.kept.offer)}
        (offer,) = [offer for offer in own if not offer.isHidden()] or pytest.fail(f"nothing is offered: {name}")
        offer.go_on.click()
        if name == "packing":
            entry = shown.rows[0].mass.edit  # Its lines are made anew.
        assert entry.text() == text, name


def test_what_is_typed_is_on_the_disk_within_a_second(start, qtbot) -> None:
    _, entry = dryer(start())
    entry.setText("412")
    kept = sample_file().with_name(sample_file().name + ENDING)
    qtbot.waitUntil(lambda: kept.exists() and "412" in kept.read_text(encoding="utf-8"), timeout=3000)
