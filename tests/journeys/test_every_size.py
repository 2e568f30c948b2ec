"""Every place and every form at small windows and with large letters: nothing is cut."""

import pytest
from PySide6.QtWidgets import QApplication

from tests.journeys.nothing_cut import cut

SIZES = ((900, 600, 100), (1093, 614, 100), (1280, 800, 100), (1280, 800, 200), (900, 600, 200), (640, 480, 100))

SCROLLED = ((900, 600, 200), (640, 480, 100))
"""Here a place may be wider than its room, and is scrolled sideways."""


def settle() -> None:
    for _ in range(6):
        QApplication.processEvents()


def running(window) -> int:
    """The first batch in the dryer."""
    return next(iter(window.view("drying").strips))


FORMS = {
    "log": lambda w: w.go("journal").log(),
    "log_more": lambda w: (w.go("journal").log(), w.view("journal").form.more_button.click()),
    "edit": lambda w: w.go("journal").edit(w.view("journal").listing.table.rows.ids[4]),
    "dryers": lambda w: w.go("journal").show_dryers(),
    "start": lambda w: w.go("drying").start(),
    "take_off": lambda w: w.go("drying").open_beside(
        w.view("drying").take_off, next(iter(w.view("drying").strips))
    ),
    "weighings": lambda w: w.go("drying").show_weighings(next(iter(w.go("drying").strips))),
    "pack": lambda w: w.go("shelf").pack(),
    "shelve": lambda w: w.go("shelf").shelve(),
    "places": lambda w: w.go("shelf").show_places(),
    "labels": lambda w: w.go("shelf").ask("labels"),
    "move": lambda w: w.go("shelf").ask("move"),
    "check": lambda w: w.go("shelf").ask("check"),
    "own_food": lambda w: w.go("handbook").add_food(),
    "sources": lambda w: w.go("handbook").show_sources(),
    "yields": lambda w: w.go("yields").type("corn 1 cup"),
    "meal": lambda w: w.go("meals").new(),
    "trips": lambda w: w.go("meals").turn(1),
    "trip": lambda w: w.view("meals").trips.new(),
}


def test_nothing_is_cut_at_any_size(person):
    window, found = person.window, []
    for wide, high, zoom in SIZES:
        window.resize(wide, high)
        while window.theme.zoom != zoom:
            window.theme.enlarge(1 if window.theme.zoom < zoom else -1)
        for spec in window.specs:
            window.go(spec.id)
            settle()
            sideways = window.room.area.horizontalScrollBar().maximum() > 0
            assert not sideways or (wide, high, zoom) in SCROLLED
            found += [
                f"{spec.id} {wide}x{high} {zoom} %: {what}" for what in cut(window.view(spec.id), sideways=sideways)
            ]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(("wide", "high", "zoom"), [(900, 600, 100), (1280, 800, 200)])
def test_no_form_is_cut(person, wide, high, zoom):
    window, found = person.window, []
    window.resize(wide, high)
    while window.theme.zoom != zoom:
        window.theme.enlarge(1)
    for name, open_form in FORMS.items():
        open_form(window)
        settle()
        found += [f"{name}: {what}" for what in cut(window.view(window.here))]
    assert not found, "\n".join(found)
