"""What a meal comes to: a strip that stays in view while one types, and below it the rest and the plain notes."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from dryhouse.desk.cautions import stops_in_brief
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, empty, show_all, text_label
from dryhouse.desk.widgets.fields import ChoiceField
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.meals.sheet import MealSheet, Sums

SERVING, BAG = "serving", "bag"
REST = (
    ("dry_mass", "Dry mass"),
    ("energy_per_gram", "Energy per gram"),
    ("protein", "Protein"),
    ("fat", "Fat"),
    ("carbohydrate", "Carbohydrate"),
    ("fibre", "Fibre"),
)
_ROOM = 24
"""Letters of a source that the narrow cards of the strip say."""
_TILE = 140
"""Pixels that a figure takes at least."""
_WHY = "add an ingredient with its amount"


class AnswerStrip(QWidget):
    """Water, minutes, energy and sodium, each with its workings one key away."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.water = FigureView(session, "Water", compact=True)
        self.soak = FigureView(session, "Soak", compact=True, room=_ROOM)
        self.cook = FigureView(session, "Cook", compact=True, room=_ROOM)
        self.energy = FigureView(session, "Energy", compact=True, room=_ROOM)
        self.sodium = FigureView(session, "Sodium", compact=True, room=_ROOM)
        across = Tiles(self.water, self.soak, self.cook, self.energy, self.sodium, least=_TILE)
        self.taught, self.stops = text_label("", "muted"), text_label("", "problem")
        inside = column(self, space=4)
        inside.addLayout(across)
        inside.addWidget(self.stops)
        inside.addWidget(self.taught)

    def show_sums(self, sheet: MealSheet | None, sums: Sums | None, of: str) -> None:
        """Show the figures of a serving or a bag, or that there is nothing to reckon yet."""
        minutes = None if sheet is None else sheet.minutes
        for view, figure in (
            (self.energy, None if sums is None else sums.energy),
            (self.sodium, None if sums is None else sums.sodium),
            (self.soak, None if minutes is None else minutes.soak),
            (self.cook, None if minutes is None else minutes.cook),
        ):
            view.set_figure(figure, _WHY if sums is None else "not known for any ingredient")
        forbidden = "" if sheet is None else sheet.forbidden
        water = None if sums is None or forbidden else sums.water
        self.water.set_figure(water, forbidden or _WHY, title=f"Water, {of}")
        n = 0 if sheet is None else sheet.notes_used
        taught = f"Water corrected by {n} cooking {'note' if n == 1 else 'notes'} of this meal (n={n})."
        self.taught.setText(taught if n else "")
        self.taught.setVisible(bool(n))
        self.stops.setText(stops_in_brief(() if sheet is None else sheet.cautions))
        self.say_stops(away=self.stops.isVisible())

    def say_stops(self, *, away: bool) -> None:
        """Say every stop in brief while the full words are scrolled away."""
        self.stops.setVisible(away and bool(self.stops.text()))


class SumsView(QWidget):
    """The rest of what a meal comes to, for each serving or for the bag."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.strip = AnswerStrip(session)
        self._sheet: MealSheet | None = None
        self.share = ChoiceField(session, "Figures for", [(SERVING, "each serving"), (BAG, "the whole bag")])
        self.flame = FigureView(session, "Stove time", compact=True)
        self.figures = {name: FigureView(session, title, compact=True) for name, title in REST}
        grid = Tiles(*self.figures.values(), self.flame, self.share, least=_TILE)
        self._said = column(space=4)
        inside = column(self, space=8)
        inside.addWidget(text_label("Totals", "heading"))
        inside.addLayout(grid)
        inside.addLayout(self._said)
        self.share.changed.connect(self._show)

    def show_sheet(self, sheet: MealSheet | None) -> None:
        """Show a sheet, or that there is nothing to reckon yet."""
        self._sheet = sheet if sheet is not None and sheet.parts else None
        self._show()

    def _show(self) -> None:
        sheet, bag = self._sheet, self.share.value() == BAG
        empty(self._said)
        sums = None if sheet is None else sheet.bag if bag else sheet.serving
        count = self.session.style.number(1.0 if sheet is None else sheet.servings)
        self.strip.show_sums(sheet, sums, f"bag of {count}" if bag else "one serving")
        self.flame.set_figure(None if sheet is None else sheet.minutes.flame, _WHY)
        for name, view in self.figures.items():
            figure = None if sums is None else getattr(sums, name)
            view.set_figure(figure, _WHY)
        if sheet is None:
            return
        for remark in sheet.remarks:
            self._said.addWidget(text_label(remark))
        if sheet.published:
            self._said.addWidget(text_label("Published figures", "label"))
            for published in sheet.published:
                self._said.addWidget(
                    text_label(f"{published.name}: {published.sentence}  [{published.source}]", "small")
                )
        show_all(self._said)
