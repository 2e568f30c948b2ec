"""Timeline of the shelf, in place of the list: every lot, as tall as it takes; it scrolls."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, islice
from time import monotonic
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QWidget

from dryhouse.desk.drawing_library import loaded
from dryhouse.desk.pauses import Keys
from dryhouse.desk.places.shelf.listing import lot_name
from dryhouse.desk.places.shelf.state import ShelfState
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, scrolling, text_label
from dryhouse.desk.widgets.plot_pane import DOTS_PER_INCH, PlotPane
from dryhouse.kitchen.calendar import today
from dryhouse.kitchen.records import Trip
from dryhouse.kitchen.shelf.remaining import amount_words
from dryhouse.plots.shelf_picture import ShelfBar, ShelfPicture, say, size_of, table
from dryhouse.plots.tokens import Tokens
from dryhouse.science.statuses import Status

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_STEP_MS, _AT_ONCE_S, _AFTER_A_KEY_S = 20, 0.006, 0.3
_MOST = 400
"""So many words are set ahead: more lots than a screen holds."""
_DONE = object()


class Timeline(QWidget):
    """The picture, and what it says in words."""

    def __init__(self, session: Session, state: ShelfState) -> None:
        super().__init__()
        self.session, self.state = session, state
        self.said = text_label("", select=True)
        self.pane = PlotPane(session, "Timeline of the shelf")
        inside = column(self, space=8)
        inside.addWidget(text_label("Timeline", "heading"))
        inside.addWidget(self.said)
        self.area = scrolling(self.pane)
        inside.addWidget(self.area, 1)

    def show_state(self) -> None:
        """Draw the day looked at."""
        picture = picture_of(self.session, self.state)
        now = picture.today
        passing = sorted(picture.passing(), key=lambda bar: (bar.keep_by or now, bar.name))
        names = "; ".join(bar.name for bar in passing[:6]) + (
            f" and {len(passing) - 6} more" if passing[6:] else ""
        )
        later = self.state.day > now
        none = (
            "Nothing more will be past its keep-by then."
            if later
            else "Pick a later day above to see what will be past its keep-by."
        )
        self.said.setText(f"Past their keep-by by then: {names}." if passing else none)
        self.pane.tall(size_of(picture))
        self.pane.show_plot(draw_lots, picture, table=table, said=f"{say(picture)}. {self.said.text()}")


def draw_lots(figure: Figure, picture: ShelfPicture, tokens: Tokens) -> None:
    """The timeline; matplotlib is imported here, when it is first drawn."""
    from dryhouse.plots.shelf import draw_shelf

    draw_shelf(figure, picture, tokens)


def picture_of(session: Session, state: ShelfState) -> ShelfPicture:
    """What is on the shelf on the day looked at, and the trips that are not over."""
    style, now = session.style, today(session.kitchen)
    gone = (Status.THROWN_OUT, Status.USED_UP)
    bars = tuple(
        ShelfBar(
            lot_name(line),
            line.lot.packed_on,
            line.keep_by,
            line.standing,
            amount_words(line.mass_left_g, line.volume_left_ml, style),
            line.keeps_until,
        )
        for line in state.lines().values()
        if line.standing not in gone
    )
    known = session.kitchen.journal.where(Trip)
    trips = tuple((t.name, t.starts_on, t.ends_on) for t in known if t.ends_on >= now)
    return ShelfPicture(bars, now, state.day, trips)


class TimelineAhead(QObject):
    """Sets the words of the timeline while nobody types, so that it is there at once when it is asked for.

    Only where charts can be drawn already: whoever never looks at one pays for none.
    """

    def __init__(self, session: Session, state: ShelfState, parent: QWidget) -> None:
        super().__init__(parent)
        self.session, self.state, self._place = session, state, parent
        self._left: Iterator[None] = iter(())
        self._keys = Keys(self)
        self._timer = QTimer(self, interval=_STEP_MS)
        self._timer.timeout.connect(self._step)

    def begin(self) -> None:
        """Begin, for the shelf as it is now."""
        if loaded() and not self._timer.isActive():
            self._left = _words_set(self.session, self.state, self._place.devicePixelRatioF())
            self._keys.listen()
            self._timer.start()

    def _step(self) -> None:
        until = monotonic() + _AT_ONCE_S
        while self._keys.rest_for(_AFTER_A_KEY_S) and monotonic() < until:
            if next(self._left, _DONE) is _DONE:
                self._timer.stop()
                self._keys.end()
                return


def _words_set(session: Session, state: ShelfState, ratio: float) -> Iterator[None]:
    """The words of each lot, one after the other."""
    from dryhouse.plots.rows_of_words import font
    from dryhouse.plots.shelf import said_of
    from dryhouse.plots.words_canvas import set_ahead

    tokens = session.theme.tokens
    names, fates = said_of(picture_of(session, state), tokens)
    for said in islice(chain.from_iterable(zip(names, fates, strict=True)), _MOST):
        set_ahead(said.text, font(tokens.small, said.bold), DOTS_PER_INCH * ratio, said.colour)
        yield
