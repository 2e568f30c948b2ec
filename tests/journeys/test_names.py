"""What a screen reader is told: all that the keyboard comes to has a name, in every place, form and dialog."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

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


def test_all_that_the_keyboard_comes_to_has_a_name(person):
    window, found = person.window, []
    places = {spec.id: lambda w, _o, id=spec.id: w.go(id) for spec in window.specs}
    last = "did_not_open"
    for name, opened in (places | FORMS | DIALOGS | PAGES).items():
        made = opened(window, person.opening)
        QApplication.processEvents()
        found += [f"{name}: {what}" for what in nameless(made if name in DIALOGS else window)]
        if name in DIALOGS:
            made.close()
        assert name == last or person.opening.session is not None
    assert found == []
