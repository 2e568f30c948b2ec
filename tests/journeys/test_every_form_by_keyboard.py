"""Every form is reached, walked, named and left by keyboard alone, and the keyboard ends where it can go on."""

from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QLineEdit,
    QScrollArea,
    QTextEdit,
    QWidget,
)

from tests.journeys.conftest import CTRL

TAB, ESC, ENTER = Qt.Key.Key_Tab, Qt.Key.Key_Escape, Qt.Key.Key_Return
INTERACTIVE = (QAbstractButton, QComboBox, QLineEdit, QAbstractItemView, QTextEdit)
MOST_STOPS = 60


def journal(person):
    person.press(Qt.Key.Key_1, CTRL)
    return person.window.views["journal"]


def log_form(person):
    view = journal(person)
    person.press(Qt.Key.Key_N, CTRL)
    return view.form


def changing_a_batch(person):
    view = journal(person)
    person.press(ENTER)
    return view.form


def dryers_page(person):
    view = journal(person)
    person.press(Qt.Key.Key_D, CTRL)
    return view.dryers


def drying(person):
    person.press(Qt.Key.Key_2, CTRL)
    return person.window.views["drying"]


def start_form(person):
    view = drying(person)
    person.press(Qt.Key.Key_N, CTRL)
    return view.form


def take_off_form(person):
    view = drying(person)
    person.press(Qt.Key.Key_T, CTRL)
    return view.take_off


def correcting_a_weighing(person):
    view = drying(person)
    person.press(Qt.Key.Key_L, CTRL)
    person.press(ENTER)
    return view.detail.weighings.editor


def shelf(person):
    person.press(Qt.Key.Key_4, CTRL)
    return person.window.views["shelf"]


def pack_form(person):
    view = shelf(person)
    person.press(Qt.Key.Key_N, CTRL)
    return view._pack


def bought_form(person):
    view = shelf(person)
    view.shelve()
    return view._bought


def places_page(person):
    view = shelf(person)
    view.show_places()
    return view._places


def labels_page(person):
    view = shelf(person)
    person.press(Qt.Key.Key_L, CTRL)
    return view._labels


def lot_act(key):
    def opened(person):
        view = shelf(person)
        person.press(key)
        return view.form

    return opened


def meals(person):
    person.press(Qt.Key.Key_5, CTRL)
    return person.window.views["meals"]


def cooking_note(person):
    view = meals(person)
    person.press(Qt.Key.Key_K, CTRL)
    return view.meals.card.note


def swap(person):
    view = meals(person)
    card = view.meals.card
    card.parts.rows[1].swap.trigger()
    return card.swap


def trip_form(person):
    view = meals(person)
    person.press(Qt.Key.Key_PageDown, CTRL)
    person.press(Qt.Key.Key_N, CTRL)
    return view.trips.form


def own_food_form(person):
    person.press(Qt.Key.Key_6, CTRL)
    person.press(Qt.Key.Key_N, CTRL)
    return person.window.views["handbook"].own_food


FORMS = {
    "log a batch": log_form,
    "change a batch": changing_a_batch,
    "dryers": dryers_page,
    "start a batch": start_form,
    "take off": take_off_form,
    "correct a weighing": correcting_a_weighing,
    "pack": pack_form,
    "bought food": bought_form,
    "places": places_page,
    "labels": labels_page,
    "move": lot_act(Qt.Key.Key_M),
    "take": lot_act(Qt.Key.Key_T),
    "check": lot_act(Qt.Key.Key_C),
    "open": lot_act(Qt.Key.Key_O),
    "dry again": lot_act(Qt.Key.Key_G),
    "condition": lot_act(Qt.Key.Key_D),
    "against insects": lot_act(Qt.Key.Key_I),
    "wrong move": lot_act(Qt.Key.Key_W),
    "cooking note": cooking_note,
    "swap": swap,
    "trip": trip_form,
    "own food": own_food_form,
}


def holds_focus(form: QWidget) -> bool:
    here = QApplication.focusWidget()
    return here is not None and (here is form or form.isAncestorOf(here))


def belongs_to_another(widget: QWidget) -> bool:
    above = widget.parentWidget()
    while above is not None:
        if isinstance(above, (QComboBox, QLineEdit, QAbstractItemView)):
            return True
        above = above.parentWidget()
    return False


def controls(form: QWidget) -> list[QWidget]:
    """What a person can use in a form as it stands."""
    return [
        widget
        for kind in INTERACTIVE
        for widget in form.findChildren(kind)
        if widget.isVisible()
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not belongs_to_another(widget)
    ]


def nameless(form: QWidget) -> list[str]:
    """What has no name for who does not see it."""
    return [
        type(widget).__name__
        for kind in INTERACTIVE
        for widget in form.findChildren(kind)
        if widget.focusPolicy() != Qt.FocusPolicy.NoFocus
        and not (isinstance(widget, QAbstractButton) and widget.text())
        and not widget.accessibleName()
        and not belongs_to_another(widget)
    ]


def walked(person, form: QWidget) -> list[QWidget]:
    """What Tab comes to, one after the other, until it comes round or leaves the form."""
    stops = [QApplication.focusWidget()]
    for _ in range(MOST_STOPS):
        person.press(TAB)
        here = QApplication.focusWidget()
        if not holds_focus(form) or here in stops:
            break
        stops.append(here)
    return stops


def not_come_to(form: QWidget, stops: list[QWidget]) -> list[str]:
    """What a person can use in a form, below its first stop, and Tab does not come to."""
    first = stops[0].mapTo(form, QPoint(0, 0)).y()
    return [
        c.accessibleName() or c.text()
        for c in controls(form)
        if c not in stops and c.mapTo(form, QPoint(0, 0)).y() >= first
    ]


def scrolled_in(widget: QWidget, form: QWidget) -> QScrollArea | None:
    """What a widget of a form is scrolled in."""
    above = widget.parentWidget()
    while above is not None and above is not form and not isinstance(above, QScrollArea):
        above = above.parentWidget()
    return above if isinstance(above, QScrollArea) and above is not form else None


def height(widget: QWidget, form: QWidget, beside: QWidget) -> int:
    """How far down a widget is, seen beside another: no deeper than the end of what it alone is scrolled in."""
    deep, area = widget.mapTo(form, widget.rect().center()).y(), scrolled_in(widget, form)
    if area is None or area is scrolled_in(beside, form):
        return deep
    return min(deep, area.mapTo(form, area.rect().bottomLeft()).y())


def upwards(form: QWidget, stops: list[QWidget]) -> list[tuple[str, str]]:
    """Where Tab goes up, save to the head of the next column."""
    return [
        (a.accessibleName(), b.accessibleName())
        for a, b in pairwise(stops)
        if height(b, form, a) < height(a, form, b) - a.height()
        and b.mapTo(form, b.rect().center()).x() <= a.mapTo(form, a.rect().center()).x()
    ]


def in_focus(person) -> bool:
    return person.window.isActiveWindow() and QApplication.focusWidget() is not None


@pytest.mark.parametrize("name", FORMS, ids=lambda name: name.replace(" ", "_"))
def test_a_form_is_reached_named_walked_and_left(one_person, qtbot, name):
    """It opens with the keyboard in it; everything in it has a name; Tab comes to everything there is, line by
    line; Esc leaves it, and the keyboard is where one can go on."""
    person = one_person
    qtbot.waitUntil(lambda: in_focus(person))
    form = FORMS[name](person)
    QApplication.processEvents()
    assert form.isVisible()
    assert holds_focus(form)
    assert nameless(form) == []
    stops = walked(person, form)
    assert not_come_to(form, stops) == []
    assert upwards(form, stops) == []
    if not holds_focus(form):
        person.press(TAB, Qt.KeyboardModifier.ShiftModifier)
    person.press(ESC)
    assert not form.isVisible()
    here = QApplication.focusWidget()
    assert here is not None
    assert here.isVisible()
    assert person.window.views[person.window.here].isAncestorOf(here), type(here).__name__


def test_tab_goes_from_the_food_to_its_weight_past_what_is_cautioned(person, qtbot):
    qtbot.waitUntil(lambda: in_focus(person))
    form = start_form(person)
    person.type("zucchini")
    person.press(TAB)
    assert QApplication.focusWidget() is form.fields["prepared_mass"].edit
    assert form.cautions.rows[0].isVisible()


def test_tab_goes_from_the_minutes_of_a_meal_along_its_ingredients(person, qtbot):
    qtbot.waitUntil(lambda: in_focus(person))
    card = meals(person).meals.card
    card.minutes.setFocus()
    for row in card.parts.rows:
        for cell in (row.name, row.amount, row.lot, row.more):
            if cell.isEnabled():
                person.press(TAB)
                assert QApplication.focusWidget() is cell, cell.accessibleName()
