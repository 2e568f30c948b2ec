"""The entries of the log form: what each is called, in what order they stand, and which are shown when."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QGridLayout

from dryhouse.desk.places.batches.ingredients import Ingredients
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.fields import ChoiceField, Field, NumberField, QuantityField, TextField, mark_problem
from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.desk.widgets.moment_field import MomentField
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.batches.typed import NOT_MEASURED, THERMOMETER, TypedBatch
from dryhouse.kitchen.records.batches import FOOD_STATES, PRECOOK_METHODS
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Duration, Length, Mass, Temperature, Volume

MAIN = (("fresh", "dried"), ("start", "hours"), ("temp", "dryer"), ("trays", "form"))
ANIMAL = (("precook", "precook_measured"), ("precook_method", "cooked_out"))
MORE = (
    ("thickness", "made_from"),
    ("purchased", "pretreatment"),
    ("fresh_volume", "dried_volume"),
    ("cooked_in", "drained_fat"),
    ("drained_liquid", "start_moisture"),
    ("moisture", "energy_kwh"),
    ("kitchen_temp", "humidity"),
    ("title", "rating"),
    ("notes", ""),
)
HABITS = ("form", "thickness", "pretreatment", "dryer", "trays", "temp", "moisture")


class Entries(QObject):
    """Every entry by the name `TypedBatch` gives it."""

    changed = Signal()
    accepted = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.food = FoodField(session)
        self.mix = Ingredients(session)
        self.fields: dict[str, Field | ChoiceField] = {}
        for name, make in self._makers().items():
            field = make()
            field.name = name
            self.fields[name] = field
            field.changed.connect(self.changed)
            if isinstance(field, Field):
                field.edit.textChanged.connect(self.changed)
                field.accepted.connect(self.accepted)
        self.food.edit.textChanged.connect(self.changed)
        self.food.accepted.connect(lambda: self.fields["fresh"].setFocus())
        self.mix.changed.connect(self.changed)
        self.mix.accepted.connect(self.accepted)

    def _makers(self) -> dict[str, Callable[[], Field | ChoiceField]]:
        s = self.session
        known = [("", "not recorded"), (THERMOMETER, "by thermometer"), (NOT_MEASURED, "not measured")]
        methods = [("", "not recorded"), *((m, m) for m in PRECOOK_METHODS)]
        return {
            "fresh": lambda: QuantityField(s, "Loaded on the trays", Mass, hint="such as 2 lb 3 oz"),
            "dried": lambda: QuantityField(s, "Dried weight", Mass, hint="such as 4.2 oz"),
            "start": lambda: MomentField(s, "Started", hint="yesterday 18:00, or 8:30"),
            "hours": lambda: QuantityField(s, "Took", Duration, hint="8h30, or 8.5"),
            "temp": lambda: QuantityField(s, "Dryer set to", Temperature, hint="135 F, or 57 C"),
            "dryer": lambda: ChoiceField(s, "Dryer"),
            "trays": lambda: NumberField(s, "Trays", hint="such as 4", whole=True, what="number of trays"),
            "form": lambda: TextField(s, "Cut", hint="slices, dice, kernels…"),
            "precook": lambda: QuantityField(s, "Cooked first to", Temperature, hint="165 F inside"),
            "precook_measured": lambda: ChoiceField(s, "How that was known", known),
            "precook_method": lambda: ChoiceField(s, "How it was cooked", methods),
            "cooked_out": lambda: QuantityField(s, "Weight after cooking", Mass),
            "thickness": lambda: QuantityField(s, "Thickness", Length, hint="1/4 in, or 6 mm"),
            "made_from": lambda: ChoiceField(s, "Made from", [(f, f) for f in FOOD_STATES]),
            "purchased": lambda: QuantityField(s, "Bought weight", Mass, hint="before peeling and coring"),
            "pretreatment": lambda: TextField(s, "Before drying", hint="steam-blanched 3 min, lemon dip…"),
            "fresh_volume": lambda: QuantityField(s, "Loaded, by measure", Volume, hint="6 cups"),
            "dried_volume": lambda: QuantityField(s, "Dried, by measure", Volume, hint="1 1/2 cups"),
            "cooked_in": lambda: QuantityField(s, "Weight before cooking", Mass),
            "drained_fat": lambda: QuantityField(s, "Fat poured off", Mass),
            "drained_liquid": lambda: QuantityField(s, "Liquid poured off", Mass),
            "start_moisture": lambda: NumberField(s, "Moisture when loaded, %", percent=True, what="moisture"),
            "moisture": lambda: NumberField(s, "Moisture to dry to, %", percent=True, what="moisture"),
            "energy_kwh": lambda: NumberField(s, "Power used, kWh", what="number of kilowatt-hours"),
            "kitchen_temp": lambda: QuantityField(s, "Kitchen temperature", Temperature, hint="70 F"),
            "humidity": lambda: NumberField(s, "Kitchen humidity, %", percent=True, what="humidity"),
            "title": lambda: TextField(s, "Name of this batch", hint="where the food's name says too little"),
            "rating": lambda: NumberField(s, "Rating, 1 to 5", whole=True, what="rating"),
            "notes": lambda: TextField(s, "Notes"),
        }

    # --- where they stand ----------------------------------------------------------------------------------

    def lay_out_main(self, grid: QGridLayout) -> None:
        """The entries every batch has; those of animal foods stand below and are shown for them only."""
        grid.addWidget(self.food, 0, 0, 1, 2)
        self._lay_out(grid, (*MAIN, *ANIMAL), 1)
        self.show_animal(False)

    def lay_out_more(self, grid: QGridLayout) -> None:
        """Everything else that can be written down, and the ingredients of a mix."""
        self._lay_out(grid, MORE, 0)
        grid.addWidget(self.mix, len(MORE), 0, 1, 2)

    def _lay_out(self, grid: QGridLayout, rows: tuple[tuple[str, str], ...], first: int) -> None:
        for line, names in enumerate(rows, start=first):
            for across, name in enumerate(names):
                if name:
                    grid.addWidget(self.fields[name], line, across, 1, 1 if all(names) else 2)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)

    def show_animal(self, animal: bool) -> None:
        """Ask for the cooking of animal foods."""
        for names in ANIMAL:
            for name in names:
                self.fields[name].setVisible(animal or bool(self.text(name)))

    def show_still(self, still: bool) -> None:
        """A batch that is still drying has no dried weight and no end yet."""
        for name in ("dried", "hours"):
            self.fields[name].setEnabled(not still)

    def refresh(self) -> None:
        """Offer the dryers there are."""
        names = [d.name for d in dryers(self.session.kitchen)]
        self.fields["dryer"].set_choices([("", "not recorded"), *((n, n) for n in names)])

    # --- what stands in them ---------------------------------------------------------------------------------

    def text(self, name: str) -> str:
        """One entry as typed."""
        field = self.fields[name]
        return str(field.value() or "") if isinstance(field, ChoiceField) else field.text()

    def set_text(self, name: str, text: str) -> None:
        """Write one entry."""
        field = self.fields[name]
        if isinstance(field, ChoiceField):
            field.set_value(text)
        else:
            field.edit.setText(text)

    def show(self, typed: TypedBatch) -> None:
        """Write every entry."""
        self.food.set_value(None)
        self.food.edit.setText(typed.food)
        self.food.set_value(self.food.value()) if self.food.value() else None
        for name in self.fields:
            self.set_text(name, getattr(typed, name))
        self.mix.set_parts(typed.parts)

    def typed(self, *, only_right: bool = False) -> TypedBatch:
        """Every entry as typed; `only_right` leaves out those that cannot be read yet."""
        kept = {
            name: "" if only_right and getattr(field, "problem", None) else self.text(name)
            for name, field in self.fields.items()
            if field.isEnabled()
        }
        food = self.food.value()
        return TypedBatch(
            food=food.slug if food else self.food.text(), parts=self.mix.parts(only_right=only_right), **kept
        )

    def parts(self) -> tuple[tuple[str, str], ...]:
        """The ingredients as typed."""
        return self.mix.parts()

    def habits(self, typed: TypedBatch) -> dict[str, str]:
        """The entries that are remembered from batch to batch, where they say anything."""
        return {name: getattr(typed, name) for name in HABITS if getattr(typed, name)}

    def has_more(self) -> bool:
        """Whether anything stands in the entries that are folded away."""
        usual = TypedBatch()
        folded = (name for names in MORE for name in names if name)
        return bool(self.parts()) or any(self.text(n) != getattr(usual, n) for n in folded)

    def first_wrong(self) -> Field | None:
        """The first entry that cannot be read."""
        return next((f for f in self._all() if getattr(f, "problem", None) is not None), None)

    def mark(self, problem: InputProblem) -> bool:
        """Show a problem at the entry it names."""
        return mark_problem(problem, self._all())

    def _all(self) -> Iterator[Field | ChoiceField]:
        yield self.food
        yield from (f for f in self.fields.values() if f.isEnabled())
