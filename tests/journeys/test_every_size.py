"""Every place and every form at small windows and with large letters: nothing is cut."""

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from PySide6.QtWidgets import QApplication, QLabel

from dryhouse.desk.theme import ZOOMS
from dryhouse.desk.widgets.basics import Scrolling
from dryhouse.desk.widgets.beside import SideBySide
from tests.journeys.nothing_cut import cut, too_small
from tests.surfaces import FORMS

SIZES = ((900, 600, 100), (1093, 614, 100), (1280, 800, 100), (640, 480, 100), (1280, 800, 200), (900, 600, 200))

Vertical = Qt.Orientation.Vertical

SCROLLED = ((900, 600, 200), (640, 480, 100))
"""Here a place may be wider than its room, and is scrolled sideways."""


def at_size(window, wide: int, high: int, zoom: int) -> None:
    """The window at this size with letters of this size; they take long to change, so in one step."""
    window.resize(wide, high)
    if steps := ZOOMS.index(zoom) - ZOOMS.index(window.theme.zoom):
        window.theme.enlarge(steps)
    assert window.theme.zoom == zoom


def scrolled_twice(window) -> list[str]:
    """What scrolls by itself on a page that does: where two things stand one above the other, only the page may."""
    shown = (s for s in window.findChildren(SideBySide) if all(s.widget(n).isVisible() for n in range(2)))
    stacked = [s for s in shown if s.orientation() == Vertical]
    areas = (area for both in stacked for area in both.findChildren(Scrolling) if area.isVisible())
    return [f"{area.widget().height()} px in {area.height()}" for area in areas if scrolls(area)]


def scrolls(area: Scrolling) -> bool:
    return not area.keeps and area.verticalScrollBar().maximum() > 0


def settle() -> None:
    for _ in range(6):
        QApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


def test_nothing_is_cut_at_any_size(person):
    window, found = person.window, []
    for wide, high, zoom in SIZES:
        at_size(window, wide, high, zoom)
        for spec in window.specs:
            window.go(spec.id)
            settle()
            sideways = window.room.area.horizontalScrollBar().maximum() > 0
            assert not sideways or (wide, high, zoom) in SCROLLED
            found += [
                f"{spec.id} {wide}x{high} {zoom} %: {what}" for what in cut(window.view(spec.id), sideways=sideways)
            ]
    assert not found, "\n".join(found)


def test_no_form_is_cut_with_letters_twice_as_large(person):
    """With usual ones in a small window: `test_all_surfaces`."""
    window, found = person.window, []
    at_size(window, 1280, 800, 200)
    for name, open_form in FORMS.items():
        open_form(window, person.opening)
        settle()
        found += [f"{name}: {what}" for what in (*cut(window.view(window.here)), *scrolled_twice(window))]
    assert not found, "\n".join(found)


class Painted(QObject):
    """Notes every text that is painted in less room than it needs, be it only for a moment."""

    def __init__(self) -> None:
        super().__init__()
        self.squeezed: list[str] = []

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        text = watched.text() if event.type() == QEvent.Type.Paint and isinstance(watched, QLabel) else ""
        if text and watched.isVisible() and too_small(watched):
            self.squeezed.append(text)
        return False


def test_nothing_is_painted_squeezed_when_it_is_first_shown(person, qapp):
    window, painted = person.window, Painted()
    window.resize(1280, 800)
    qapp.installEventFilter(painted)
    for name in ("journal", "drying", "handbook"):
        window.go(name)
        settle()
    for name in ("trip_days", "take_off", "past_batch"):
        FORMS[name](window, person.opening)
        settle()
    qapp.removeEventFilter(painted)
    assert painted.squeezed == []
