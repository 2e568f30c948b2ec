"""The window: the rail of places at the left, one place in view, the side sheet, and the bar of messages."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QSize, QTimer, Signal
from PySide6.QtWidgets import QMainWindow, QWidget

if TYPE_CHECKING:
    from PySide6.QtCore import QSettings
    from PySide6.QtGui import QCloseEvent, QPaintEvent, QResizeEvent

    from dryhouse.desk.journal_access import Doorway
    from dryhouse.desk.place import DeskPlace, PlaceSpec
    from dryhouse.desk.session import Session
    from dryhouse.desk.theme import Theme
    from dryhouse.desk.widgets.sheet import WorkingsSheet
    from dryhouse.science.values import Figure

_SMALLEST = QSize(640, 480)
"""Everything can still be reached; 900 by 600 is the least that is comfortable."""
_USUAL = QSize(1280, 800)
_FRAME = QSize(8, 40)
"""About what the window system draws around a window."""
_FOLLOW_MS = 300
"""How long after a journal is shown its instruments are followed."""
_WORDS_IN_RAIL = 1100
"""A narrower window shows its places as pictures alone."""


class DeskWindow(QMainWindow):
    """One window for one journal at a time. It is shown empty first; `attach` puts a session in it."""

    painted = Signal()
    """Once, after the first paint."""
    closing = Signal()

    def __init__(self, theme: Theme, settings: QSettings) -> None:
        super().__init__()
        self.theme, self.settings = theme, settings
        self.specs: list[PlaceSpec] = []
        self.session: Session | None = None
        self.doors: Doorway | None = None
        """Who opens, backs up and restores journals; None in a window that only shows one."""
        self.views: dict[str, DeskPlace] = {}
        self.menus: object | None = None
        """The actions of the menu bar, filled by whoever opens journals."""
        self._waiting_for_paint = True
        self._furnished = False
        self.setWindowTitle("Dryhouse")
        theme.dress(self)
        self._restore_geometry()

    def furnish(self) -> None:
        """Put the rail and the room for a place in: after the first paint, which does not wait for them."""
        if self._furnished:
            return
        from dryhouse.desk.place import places
        from dryhouse.desk.place_area import Room, RoomFirst
        from dryhouse.desk.rail import Rail
        from dryhouse.desk.widgets.basics import column, row

        self._furnished = True
        self.installEventFilter(RoomFirst(self))
        self.theme.finish()
        self.specs = places()
        self.rail = Rail(self.theme, self.specs)
        self.rail.chosen.connect(self.go)
        self.rail.set_usable(False)
        self.room = Room()
        self.stack = self.room.stack
        middle = QWidget()
        self._middle = column(middle, space=0)
        self._middle.addWidget(self.room, 1)
        central = QWidget()
        across = row(self.rail, space=0)
        across.addWidget(middle, 1)
        central.setLayout(across)
        self.setCentralWidget(central)
        self.theme.changed.connect(self.fit_rail)
        self.fit_rail()

    # --- the session --------------------------------------------------------------------------------------

    def attach(self, session: Session, title: str = "") -> None:
        """Show this session's places; another session that was here is put away first."""
        from dryhouse.desk.elsewhere import Elsewhere
        from dryhouse.desk.reminders import Reminders
        from dryhouse.desk.widgets.message_bar import MessageBar

        self.furnish()
        self.detach()
        self.session = session
        self.setWindowTitle(f"{title} – Dryhouse" if title else "Dryhouse")
        self.rail.set_journal(title)
        self.rail.set_usable(True)
        self._bar = MessageBar(session)
        self._middle.addWidget(self._bar)
        self._sheet: WorkingsSheet | None = None
        session.open_asked.connect(self._open)
        session.workings_asked.connect(self._show_workings)
        session.caution_asked.connect(lambda caution: self.sheet().show_caution(caution))
        self.reminders = Reminders(session, session)
        self.reminders.start()
        self.elsewhere = Elsewhere(session)

        def follow() -> None:
            if self.session is session:
                session.start_instruments(self.settings)

        QTimer.singleShot(_FOLLOW_MS, session, follow)
        self.small: QWidget | None = None

    def detach(self) -> None:
        """Put the present session's places away."""
        if self.session is None:
            return
        if self.small is not None:
            self.small.close()
            self.small.deleteLater()
        self.reminders.stop()
        self.elsewhere.stop()
        if self.session.instruments is not None:
            self.session.instruments.stop()
        for act in (*(view.leave for view in self.views.values()), self.session.drafts.close):
            _all_the_same(act)
        for view in self.views.values():
            for timer in view.findChildren(QTimer):
                timer.stop()
            self.stack.removeWidget(view)
            view.deleteLater()
        self.views.clear()
        self.room.take_sheet(None)
        self._bar.setParent(None)
        self._bar.deleteLater()
        self.menuBar().clear()
        self.rail.set_journal("")
        self.rail.set_usable(False)
        self.session.deleteLater()
        self.session = None

    def show_plain(self, widget: QWidget) -> None:
        """Show one widget in place of the places: the welcome, or why the journal did not open."""
        self.furnish()
        self.stack.addWidget(widget)
        self.stack.setCurrentWidget(widget)
        self.rail.mark("")

    # --- going about ---------------------------------------------------------------------------------------

    @property
    def here(self) -> str:
        """The id of the place in view; empty where none is."""
        current = self.stack.currentWidget()
        return next((id for id, view in self.views.items() if view is current), "")

    def go(self, place: str) -> DeskPlace | None:
        """Bring a place into view; its module is imported the first time."""
        if self.session is None:
            return None
        view = self.view(place)
        if view is not None:
            if self._sheet is not None and view is not self.stack.currentWidget():
                self._sheet.hide()
            if view is not self.stack.currentWidget():
                self._bar.forget_refusal()
            self.stack.setCurrentWidget(view)
            self.rail.mark(place)
            self.settings.setValue("window/place", place)
            view.arrive()
        return view

    def view(self, place: str) -> DeskPlace | None:
        """The view of a place, made now if it is its first time."""
        if place not in self.views:
            spec = next((s for s in self.specs if s.id == place), None)
            if spec is None or self.session is None:
                return None
            made = spec.load()(self.session)
            made.setAccessibleName(spec.title)
            self.views[place] = made
            self.stack.addWidget(made)
        return self.views[place]

    def go_last(self) -> None:
        """The place that was in view when the window last closed, else the first."""
        last = str(self.settings.value("window/place", ""))
        ids = [s.id for s in self.specs]
        if ids:
            self.go(last if last in ids else ids[0])

    def _open(self, place: str, kind: str, id: int | str) -> None:
        view = self.go(place)
        if view is not None and kind:
            view.show_record(kind, id)

    # --- the sheet -------------------------------------------------------------------------------------------

    def sheet(self) -> WorkingsSheet:
        """The side sheet, made when first wanted."""
        from dryhouse.desk.widgets.sheet import WorkingsSheet

        if self._sheet is None:
            assert self.session is not None, "a sheet belongs to a session"
            self._sheet = WorkingsSheet(self.session)
            self.room.take_sheet(self._sheet)
        return self._sheet

    def _show_workings(self, title: str, figure: Figure) -> None:
        self.sheet().show_workings(title, figure)

    # --- what the menus ask for ---------------------------------------------------------------------------

    def print_place(self) -> None:
        """Preview and print the page of the place in view."""
        view = self.views.get(self.here)
        page = view.printout() if view is not None else None
        if page is None and self.session is not None:
            self.session.say("There is nothing on this page to print yet.")
        if page is None:
            return
        from dryhouse.desk.widgets.printing import preview_print

        preview_print(self, page)

    def show_reason(self) -> None:
        """Why the caution in focus (or the gravest in view) is said, and its source."""
        from dryhouse.desk.widgets.cautions_view import open_reason_in

        shown = self.stack.currentWidget()
        if self.session is not None and (shown is None or not open_reason_in(shown)):
            self.session.say("There is no caution in view.")

    def come_to_front(self) -> None:
        """Be seen: out of the task bar, above the others, with the keyboard."""
        from PySide6.QtCore import Qt

        self.setWindowState((self.windowState() & ~Qt.WindowState.WindowMinimized) | Qt.WindowState.WindowActive)
        self.show()
        self.raise_()
        self.activateWindow()

    # --- the frame --------------------------------------------------------------------------------------------

    def _restore_geometry(self) -> None:
        kept = self.settings.value("window/geometry")
        if not (isinstance(kept, QByteArray) and self.restoreGeometry(kept)):
            self.resize(_USUAL)
        room = self.screen().availableSize() - _FRAME
        self.setMinimumSize(_SMALLEST.boundedTo(room))
        self.resize(self.size().boundedTo(room))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit_rail()

    def fit_rail(self) -> None:
        """The words of the rail, where there is room for them beside a place."""
        if self._furnished:
            from dryhouse.desk.measures import scaled

            self.rail.be_narrow(self.width() < scaled(_WORDS_IN_RAIL))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self._waiting_for_paint:
            self._waiting_for_paint = False
            QTimer.singleShot(0, self.painted.emit)

    def closeEvent(self, event: QCloseEvent) -> None:
        self.settings.setValue("window/geometry", self.saveGeometry())
        self.detach()
        self.closing.emit()
        super().closeEvent(event)


def _all_the_same(act: Callable[[], object]) -> None:
    """Do it; where it fails the log has it, and the journal is closed as it should be all the same."""
    try:
        act()
    except Exception as problem:
        from dryhouse.desk import fault_log

        fault_log.write(fault_log.details(type(problem), problem, problem.__traceback__))
