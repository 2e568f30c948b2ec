"""The entries of the log form: what each is called, in what order they stand, and which are shown when."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QGridLayout

from dryhouse.desk.places.batches.ingredients import Ingredients
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button
from dryhouse.desk.widgets.fields import ChoiceField, Field, QuantityField, mark_problem
from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.desk.widgets.moment_field import MomentField
from dryhouse.desk.widgets.record_fields import field_for
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.batches.typed import ENTRIES, TypedBatch, typed_batch
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Duration
from dryhouse.science.safety.facts import UNKNOWN_FOOD

MAIN = (("fresh", "dried"), ("start", "hours"), ("temp", "dryer"), ("trays", "form"), ("felt", ""))
ANIMAL = (
    ("precook", "precook_measured"),
    ("precook_method", "precook_held"),
    ("cooked_out", "finish"),
    ("finish_held", ""),
)
"""Asked of food of animal origin, and of a mix as soon as one ingredient is."""
MUSHROOM = (("identified", ""),)
_USUAL = (
    ("thickness", "made_from"),
    ("purchased", "pretreatment"),
    ("fresh_volume", "dried_volume"),
    ("cooked_in", "drained_fat"),
    ("start_moisture", "start_moisture_tested"),
    ("test_sample", "test_dry"),
    ("drained_liquid", "moisture"),
    ("kitchen_temp", "humidity"),
    ("energy_kwh", "rating"),
    ("title", "notes"),
)


def _with_the_rest(*laid_out: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    """The usual order, and after it every entry of a batch that has no place of its own."""
    placed = {name for rows in laid_out for row in rows for name in row}
    rest = [*(name for name in ENTRIES if name not in placed), ""]
    return (*laid_out[-1], *zip(rest[::2], rest[1::2], strict=False))


MORE = _with_the_rest(MAIN, ANIMAL, MUSHROOM, _USUAL)
FIRST_OF_MORE = MORE[0][0]
HABITS = tuple(entry for entry, shape in ENTRIES.items() if shape.about.kept)


class Entries(QObject):
    """Every entry by its short name."""

    changed = Signal()
    accepted = Signal()
    mix_asked = Signal()
    """The ingredients were opened or folded by hand."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.food = FoodField(session)
        self.mix = Ingredients(session)
        self.mix_button = button("&Ingredients, if it is a mix", self._open_mix, "quiet", hint="Alt+I")
        self.mix.hide()
        self.fields: dict[str, Field | ChoiceField] = {}
        for name, make in self._makers().items():
            field = make()
            field.name = name
            self.fields[name] = field
            field.changed.connect(self.changed)
            if isinstance(field, Field):
                field.edit.textChanged.connect(self.changed)
                field.accepted.connect(self.accepted)
        loaded = self.fields["fresh"]
        assert isinstance(loaded, QuantityField)
        loaded.count_pieces_of(self.food)
        self.food.edit.textChanged.connect(self.changed)
        self.food.accepted.connect(lambda: self.fields["fresh"].setFocus())
        self.mix.changed.connect(self.changed)
        self.mix.accepted.connect(self.accepted)

    def _makers(self) -> dict[str, Callable[[], Field | ChoiceField]]:
        s = self.session
        made: dict[str, Callable[[], Field | ChoiceField]] = {
            entry: partial(field_for, s, shape, entry) for entry, shape in ENTRIES.items()
        }
        return made | {
            "start": lambda: MomentField(s, label_of(Batch, "started"), hint="yesterday 18:00"),
            "hours": lambda: QuantityField(s, "Drying time", Duration, hint="8h30, or 8.5"),
            "dryer": lambda: ChoiceField(s, label_of(Batch, "dryer")),
        }

    # --- where they stand ----------------------------------------------------------------------------------

    def lay_out_main(self, grid: QGridLayout) -> None:
        """The entries every batch has; those of animal foods stand below and are shown for them only."""
        grid.addWidget(self.food, 0, 0, 1, 2)
        self._lay_out(grid, (*MAIN, *ANIMAL, *MUSHROOM), 1)
        self.show_for(())

    def lay_out_more(self, grid: QGridLayout) -> None:
        """Everything else that can be written down."""
        self._lay_out(grid, MORE, 0)

    def _lay_out(self, grid: QGridLayout, rows: tuple[tuple[str, str], ...], first: int) -> None:
        for line, names in enumerate(rows, start=first):
            for across, name in enumerate(names):
                if name:
                    grid.addWidget(self.fields[name], line, across, 1, 1 if all(names) else 2)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)

    def show_for(self, foods: Sequence[Food]) -> None:
        """Ask for the cooking of animal foods and for who knows the mushrooms, of the food and each ingredient."""
        self._show(ANIMAL, any(food.animal or UNKNOWN_FOOD in food.traits for food in foods))
        self._show(MUSHROOM, any("mushroom" in {food.category, *food.traits} for food in foods))

    def _show(self, rows: tuple[tuple[str, str], ...], asked: bool) -> None:
        for name in (name for names in rows for name in names if name):
            self.fields[name].setVisible(asked or bool(self.text(name)))

    def foods(self) -> tuple[Food, ...]:
        """The food and every ingredient that is named already, whether it has a weight or not."""
        settled = self.food.value()
        return (*((settled,) if settled is not None else ()), *self.mix.foods())

    def show_mix(self) -> None:
        """The ingredients stand open for a food that is a mix, and wherever one is named."""
        food = self.food.value()
        if (food is not None and food.category == "mixed") or self.mix.parts():
            self.mix.show()
        self.mix_button.setVisible(self.mix.isHidden())

    def _open_mix(self) -> None:
        self.mix.show()
        self.mix_button.hide()
        self.mix.setFocus()
        self.mix_asked.emit()

    def show_still(self, still: bool) -> None:
        """A batch that is still drying has no dried weight and no end yet."""
        for name in ("dried", "hours", "felt"):
            self.fields[name].setEnabled(not still)

    def refresh(self) -> None:
        """Offer the dryers there are."""
        names = [d.name for d in dryers(self.session.kitchen)]
        dryer = self.fields["dryer"]
        assert isinstance(dryer, ChoiceField)
        dryer.set_choices([("", "not recorded"), *((n, n) for n in names)])

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
        self.food.show_text(typed["food"])
        self.food.set_value(self.food.value()) if self.food.value() else None
        self.mix.hide()
        for name in self.fields:
            self.set_text(name, typed[name])
        self.mix.set_parts(typed.parts)

    def typed(self, *, only_right: bool = False) -> TypedBatch:
        """Every entry as typed; `only_right` leaves out those that cannot be read yet."""
        kept = {
            name: "" if only_right and getattr(field, "problem", None) else self.text(name)
            for name, field in self.fields.items()
            if field.isEnabled()
        }
        food = self.food.value()
        parts = self.mix.parts(only_right=only_right)
        return typed_batch(parts, food=food.slug if food else self.food.text(), **kept)

    def parts(self) -> tuple[tuple[str, str], ...]:
        """The ingredients as typed."""
        return self.mix.parts()

    def habits(self, typed: TypedBatch) -> dict[str, str]:
        """The entries that are remembered from batch to batch, where they say anything."""
        return {name: typed[name] for name in HABITS if typed[name]}

    def has_more(self) -> bool:
        """Whether anything stands in the entries that are folded away."""
        usual = TypedBatch()
        folded = (name for names in MORE for name in names if name)
        return any(self.text(n) != usual[n] for n in folded)

    def first_wrong(self) -> Field | ChoiceField | None:
        """The first entry that cannot be read."""
        return next((f for f in self._all() if f.problem is not None), None)

    def mark(self, problem: InputProblem) -> bool:
        """Show a problem at the entry it names."""
        return mark_problem(problem, self._all())

    def _all(self) -> Iterator[Field | ChoiceField]:
        """Every entry that can be typed into, as they stand on the page."""
        yield self.food
        laid_out = (name for rows in (MAIN, ANIMAL, MUSHROOM, MORE) for across in rows for name in across if name)
        yield from (self.fields[name] for name in laid_out if self.fields[name].isEnabled())
