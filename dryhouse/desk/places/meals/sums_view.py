"""What a meal comes to: a strip that stays in view while one types, and below it the rest and the plain notes."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from dryhouse.desk.cautions import stops_in_brief
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, empty, show_all, text_label
from dryhouse.desk.widgets.fields import ChoiceField
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.desk.widgets.fold import Unfolding
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.meals.sheet import MealSheet, Sums
from dryhouse.kitchen.records.meals import REST as BOIL_AND_REST
from dryhouse.science.display import counted
from dryhouse.science.values import Figure
from dryhouse.words.cooking_ways import NO_FUEL
from dryhouse.words.sums import at_least_title

SERVING, BAG = "serving", "bag"
REST = (
    ("dry_mass", "Dry weight"),
    ("energy_per_gram", "Energy per gram"),
    ("protein", "Protein"),
    ("fat", "Fat"),
    ("carbohydrate", "Carbohydrate"),
    ("fibre", "Fiber"),
    ("sodium", "Sodium"),
)
_REST = dict(REST)
_TILE = 140
"""Pixels that a figure takes at least."""
_WHY = "add an ingredient with its amount"
NO_POT = "no pot"


def _weigh(sheet: MealSheet | None) -> str:
    """What to weigh before any sum is known; empty where all is."""
    return "" if sheet is None else sheet.weigh


def _title(name: str, title: str, sums: Sums | None, figure: Figure | None) -> str:
    """`Energy, at least` where the sum leaves something out."""
    return title if sums is None or figure is None else at_least_title(title, sums.without(name))


class AnswerStrip(QWidget):
    """Water, minutes and energy, each with its workings one key away."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.water = FigureView(session, "Water", brief=True)
        self.soak = FigureView(session, "Soak", brief=True)
        self.cook = FigureView(session, "Cook", brief=True)
        self.energy = FigureView(session, "Energy", brief=True)
        across = Tiles(self.water, self.soak, self.cook, self.energy, least=_TILE)
        self.stops = text_label("", "problem")
        inside = column(self, space=4)
        inside.addLayout(across)
        inside.addWidget(self.stops)

    def show_sums(self, sheet: MealSheet | None, sums: Sums | None, of: str) -> None:
        """Show the figures of a serving or a bag, or that there is nothing to reckon yet."""
        lacking = _weigh(sheet)
        rests = sheet is not None and sheet.meal.cooking == BOIL_AND_REST
        self.cook.title = "Rest" if rests else "Cook"
        minutes = sheet.minutes if sheet is not None and sheet.needs_pot else None
        unpotted = sheet is not None and not sheet.needs_pot
        energy = None if sums is None or lacking else sums.energy
        self.energy.title = _title("energy", "Energy", sums, energy)
        for view, figure in (
            (self.energy, energy),
            (self.soak, None if minutes is None else minutes.soak),
            (self.cook, None if minutes is None else minutes.cook),
        ):
            why = "" if sheet is None else _WHY if sums is None else lacking or "not known for any ingredient"
            view.set_figure(figure, NO_POT if unpotted and view in (self.soak, self.cook) else why)
        self.soak.setVisible(
            sheet is not None if minutes is None else minutes.soak is None or minutes.soak.value > 0
        )
        forbidden = "" if sheet is None else sheet.forbidden
        wet = sheet is not None and sheet.needs_water
        water = sums.water if sums is not None and wet and not forbidden and not lacking else None
        why = forbidden or lacking or (NO_POT if unpotted else _WHY)
        named = "Water, about" if sheet is not None and sheet.to_dry else "Water"
        self.water.set_figure(water, why, title=f"{named}, {of}")
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
        self.flame = FigureView(session, "Stove time", brief=True)
        self.fuel = FigureView(session, "Fuel", brief=True)
        self.figures = {name: FigureView(session, title, brief=True) for name, title in REST}
        self.taught = text_label("", "muted")
        totals, published, remarks = QWidget(), QWidget(), QWidget()
        totals.setLayout(Tiles(*self.figures.values(), self.flame, self.fuel, self.share, least=_TILE))
        self._remarks, self._published = column(remarks, space=4), column(published, space=4)
        self.rest = Unfolding(session, "Totals and published figures", totals, self.taught, published)
        inside = column(self, space=8)
        inside.addWidget(remarks)
        inside.addWidget(self.rest)
        self.share.changed.connect(self._show)

    def show_sheet(self, sheet: MealSheet | None) -> None:
        """Show a sheet, or that there is nothing to reckon yet."""
        self._sheet = sheet if sheet is not None and sheet.parts else None
        self._show()

    def _show(self) -> None:
        sheet, bag = self._sheet, self.share.value() == BAG
        empty(self._remarks)
        empty(self._published)
        n = 0 if sheet is None else sheet.notes_used
        taught = f"Water corrected by {counted(n, 'cooking note')} of this meal."
        self.taught.setText(taught if n else "")
        self.taught.setVisible(bool(n))
        sums = None if sheet is None else sheet.bag if bag else sheet.serving
        count = self.session.style.number(1.0 if sheet is None else sheet.servings)
        self.strip.show_sums(sheet, sums, f"bag of {count}" if bag else "one serving")
        self._show_fuel()
        for name, view in self.figures.items():
            figure = None if sums is None or _weigh(sheet) else getattr(sums, name)
            view.set_figure(figure, _weigh(sheet) or _WHY, title=_title(name, _REST[name], sums, figure))
        if sheet is None:
            return
        for remark in sheet.remarks:
            self._remarks.addWidget(text_label(remark))
        if sheet.published:
            self._published.addWidget(text_label("Published figures", "label"))
            for published in sheet.published:
                self._published.addWidget(
                    text_label(f"{published.name}: {published.sentence}  [{published.source}]", "small")
                )
        show_all(self._remarks)
        show_all(self._published)

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
