"""Every place, form, page and dialog is opened once and looked at: nothing is cut in a small window, all that the
keyboard comes to has a name for a screen reader, and no letter with Alt means two things."""

import re
from collections import defaultdict

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton, QApplication, QScrollArea, QWidget

from dryhouse.desk.widgets.draft import DraftOffer
from tests.journeys.nothing_cut import cut
from tests.journeys.test_every_size import at_size, settle
from tests.surfaces import DIALOGS, FORMS, PAGES


def nameless(window: QWidget) -> list[str]:
    """What can have the keyboard and is called nothing by Qt's accessibility interface."""
    found = []
    for widget in window.findChildren(QWidget):
        inner = isinstance(widget.parentWidget(), QScrollArea) or widget.objectName().startswith("qt_")
        if not widget.isVisible() or inner or not widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            continue
        told = QAccessible.queryAccessibleInterface(widget)
        if not told.text(QAccessible.Text.Name).strip():
            found.append(f"{type(widget).__name__} in {type(widget.parentWidget()).__name__}")
    return found


def letters(window: QWidget) -> dict[str, list[str]]:
    """What each letter with Alt presses or opens, as the window stands."""
    found = defaultdict(list)
    shown = [b.text() for b in window.findChildren(QAbstractButton) if b.isVisible() and b.isEnabled()]
    for text in (*shown, *(action.text() for action in window.menuBar().actions())):
        for letter in re.findall(r"&(\w)", text.replace("&&", "")):
            found[letter.upper()].append(text)
    return found


def letters_twice(window, view) -> list[str]:
    """Letters that mean two things, what may be offered counted in: a form makes one offer at a time."""
    offers = {offer.parentWidget(): offer for offer in view.findChildren(DraftOffer)}
    for form, offer in offers.items():
        offer.setVisible(form.isVisible())
    QApplication.processEvents()
    return [f"Alt+{letter} is {texts}" for letter, texts in letters(window).items() if len(texts) > 1]


def test_every_place_and_form_is_whole_named_and_has_each_letter_once(person):
    window, found = person.window, []
    at_size(window, 900, 600, 100)
    places = {spec.id: lambda w, _o, id=spec.id: w.go(id) for spec in window.specs}
    for name, opened in (places | FORMS).items():
        opened(window, person.opening)
        settle()
        view = window.view(window.here)
        told = [*(cut(view) if name in FORMS else ()), *nameless(window), *letters_twice(window, view)]
        found += [f"{name}: {what}" for what in told]
    for name, opened in DIALOGS.items():
        made = opened(window, person.opening)
        QApplication.processEvents()
        found += [f"{name}: {what}" for what in nameless(made)]
        made.close()
    for name, opened in PAGES.items():
        assert person.opening.session is not None, "only the last of them leaves no journal open"
        opened(window, person.opening)
        QApplication.processEvents()
        found += [f"{name}: {what}" for what in nameless(window)]
    assert not found, "\n".join(found)
