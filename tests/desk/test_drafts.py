"""What is typed into any form of the window survives: offered after a kill or a close."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from dryhouse.desk.draft_book import ENDING
from dryhouse.desk.opening import Opening
from dryhouse.desk.places.dryer.small_window import show_small
from dryhouse.desk.places.shelf.acts import ActForm
from dryhouse.desk.window import DeskWindow
from dryhouse.house import Journals, sample_file


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


SOME = {"a dryer", "a meal", "packing", "starting", "a weighing in small"}
"""One of each place: a window that is closed keeps all of them in one go."""


@pytest.mark.parametrize(
    ("names", "ends"),
    [(set(FORMS) - APART, "killed"), (APART, "killed"), (SOME, "closed")],
    ids=["most of them, killed", "the rest, killed", "some, closed"],
)
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
