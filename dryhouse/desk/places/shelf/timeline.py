"""Timeline of the shelf, in place of the list: every lot, as tall as it takes; it scrolls."""

from __future__ import annotations

from datetime import date

from PySide6.QtWidgets import QWidget

from dryhouse.desk.places.shelf.listing import lot_name
from dryhouse.desk.places.shelf.state import ShelfState
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, scrolling, text_label
from dryhouse.desk.widgets.plot_pane import PlotPane
from dryhouse.kitchen.calendar import today
from dryhouse.kitchen.records import Trip
from dryhouse.kitchen.shelf.remaining import amount_words
from dryhouse.science.statuses import Status


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
        from dryhouse.plots.shelf import ShelfBar, ShelfPicture, draw_shelf, say, size_of, table

        style = self.session.style
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
            for line in self.state.lines().values()
            if line.standing not in gone
        )
        now = today(self.session.kitchen)
        picture = ShelfPicture(bars, now, self.state.day, self._trips())
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
        self.pane.show_plot(draw_shelf, picture, table=table, said=f"{say(picture)}. {self.said.text()}")

    def _trips(self) -> tuple[tuple[str, date, date], ...]:
        """The trips that are not over."""
        now = today(self.session.kitchen)
        known = self.session.kitchen.journal.where(Trip)
        return tuple((t.name, t.starts_on, t.ends_on) for t in known if t.ends_on >= now)
