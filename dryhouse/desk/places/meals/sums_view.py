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
from dryhouse.kitchen.records.meals import REST as BOIL_AND_REST
from dryhouse.words.cooking_ways import NO_FUEL

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
NO_POT = "no pot"


def _weigh(sheet: MealSheet | None) -> str:
    """What to weigh before any sum is known; empty where all is."""
    return "" if sheet is None else sheet.weigh


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
        lacking = _weigh(sheet)
        rests = sheet is not None and sheet.meal.cooking == BOIL_AND_REST
        self.cook.title = "Rest" if rests else "Cook"
        minutes = sheet.minutes if sheet is not None and sheet.needs_pot else None
        unpotted = sheet is not None and not sheet.needs_pot
        for view, figure in (
            (self.energy, None if sums is None or lacking else sums.energy),
            (self.sodium, None if sums is None or lacking else sums.sodium),
            (self.soak, None if minutes is None else minutes.soak),
            (self.cook, None if minutes is None else minutes.cook),
        ):
            why = _WHY if sums is None else lacking or "not known for any ingredient"
            view.set_figure(figure, NO_POT if unpotted and view in (self.soak, self.cook) else why)
        forbidden = "" if sheet is None else sheet.forbidden
        wet = sheet is not None and sheet.needs_water
        water = sums.water if sums is not None and wet and not forbidden and not lacking else None
        why = forbidden or lacking or (NO_POT if unpotted else _WHY)
        named = "Water, about" if sheet is not None and sheet.to_dry else "Water"
        self.water.set_figure(water, why, title=f"{named}, {of}")
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
        self.fuel = FigureView(session, "Fuel", compact=True)
        self.figures = {name: FigureView(session, title, compact=True) for name, title in REST}
        grid = Tiles(*self.figures.values(), self.flame, self.fuel, self.share, least=_TILE)
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
        self._show_fuel()
        for name, view in self.figures.items():
            figure = None if sums is None or _weigh(sheet) else getattr(sums, name)
            view.set_figure(figure, _weigh(sheet) or _WHY)
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

    def _show_fuel(self) -> None:
        """Minutes of flame, and her own fuel for the whole pot or the heat it takes."""
        sheet = self._sheet
        heat = None if sheet is None else sheet.heat
        if _weigh(sheet):
            self.flame.set_figure(None if sheet is None else sheet.minutes.flame, _WHY)
            self.fuel.set_figure(None, _weigh(sheet))
            return
        why = _WHY if sheet is None else NO_FUEL if sheet.needs_pot else NO_POT
        self.flame.set_figure(None if heat is None or sheet is None else sheet.minutes.flame, why)
        title = "Heat, whole pot" if heat is None or heat.grams is None else "Fuel, whole pot"
        self.fuel.set_figure(None if heat is None else heat.grams or heat.heat, why, title=title)
