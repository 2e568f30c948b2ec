"""Putting a batch on the dryer: the food, what it weighs, where it goes. The rest is remembered or can wait."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import (
    button,
    column,
    inner_key,
    row,
    scrolling,
    tab_before,
    text_label,
)
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.draft import Entry, Kept, KeptForm, kept_entries, put_back
from dryhouse.desk.widgets.fields import ChoiceField, Field, QuantityField, mark_problem
from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.desk.widgets.moment_field import MomentField
from dryhouse.desk.widgets.no_dryers import NoDryers
from dryhouse.desk.widgets.record_fields import field_for
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.batches.log import HABITS, draft_for, draft_like
from dryhouse.kitchen.cautions.cautions import batch_cautions
from dryhouse.kitchen.dryer.drying import start_batch
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.kitchen.records.shapes import shapes
from dryhouse.science.display import counted
from dryhouse.science.safety.unfolded import OF_A_PLANT, OF_ANIMAL_FOOD

MAIN = ("prepared_mass", "set_temperature", "dryer", "trays", "form", "started")
ANIMAL = ("precook_temperature", "precook_measured", "precook_method", "precook_held")
MORE = (
    "thickness", "made_from", "pretreatment", "title", "start_moisture_pct", "target_moisture_pct",
    "kitchen_temperature", "kitchen_humidity_pct", "identified",
)  # fmt: skip
FIELDS = {shape.name: shape for shape in shapes(Batch) if shape.name in (*MAIN, *ANIMAL, *MORE)}


class StartForm(QWidget):
    """Enter in the last entry or Ctrl+S starts; Esc leaves and keeps what was typed."""

    started = Signal(int)
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.planned: Batch | None = None
        self.heading = text_label("Start a batch", "title", wrap=False)
        self.food = FoodField(session)
        self.fields: dict[str, Field | ChoiceField] = {name: self._make(name) for name in FIELDS}
        self.cautions = CautionsView(session)
        self.remembered = text_label("", "small")
        self.kept = KeptForm(session, "start", self, self._typed, self._put_back)
        self.offer = self.kept.offer
        self.parts: tuple[BatchPart, ...] = ()
        """The ingredients of a mix that is made again."""
        self._build()
        loaded = self.fields["prepared_mass"]
        assert isinstance(loaded, QuantityField)
        loaded.count_pieces_of(self.food)
        self.food.chosen.connect(self._remember)
        for field in self.fields.values():
            field.changed.connect(self._caution)
        self.food.accepted.connect(lambda: self.fields["prepared_mass"].setFocus())
        self.offer.forgotten.connect(self.food.setFocus)
        for field in self.fields.values():
            if isinstance(field, Field):
                field.accepted.connect(self.start)
        for keys, act in (("Ctrl+S", self.start), ("Esc", self.left.emit)):
            inner_key(self, keys, act)

    def _make(self, name: str) -> Field | ChoiceField:
        shape = FIELDS[name]
        if name == "dryer":
            return ChoiceField(self.session, shape.about.label, self._dryers(), name=name)
        if name == "started":
            return MomentField(self.session, shape.about.label, hint="now", name=name)
        return field_for(self.session, shape)

    def _dryers(self) -> list[tuple[int | None, str]]:
        known = dryers(self.session.kitchen)
        return [(d.id, f"{d.name}, {d.trays} trays") for d in known] + [(None, "not recorded")]

    def _build(self) -> None:
        page = QWidget()
        inside = column(page, space=6)
        inside.addWidget(self.food)
        inside.addWidget(self.remembered)
        inside.addWidget(self.cautions)
        inside.addLayout(self._grid(MAIN))
        self.no_dryers = NoDryers(self.session)
        inside.addWidget(self.no_dryers, 0, Qt.AlignmentFlag.AlignLeft)
        self.animal = QWidget()
        self.animal.setLayout(self._grid(ANIMAL))
        inside.addWidget(self.animal)
        self.more_button = button("&More fields", self._toggle, "quiet")
        self.more_button.setCheckable(True)
        inside.addWidget(self.more_button, 0, Qt.AlignmentFlag.AlignLeft)
        self.more = QWidget()
        self.more.setLayout(self._grid(MORE))
        inside.addWidget(self.more)
        inside.addStretch(1)
        self.animal.hide()
        self.more.hide()
        self.start_button = button("&Start drying", self.start, "primary", hint="Enter or Ctrl+S")
        self.leave_button = button("Close", self.left.emit, hint="Esc; what you typed is kept")
        outer = column(self, space=12)
        outer.addWidget(self.heading)
        self.area = scrolling(page)
        outer.addWidget(self.offer)
        outer.addWidget(self.area, 1)
        outer.addLayout(row(self.start_button, self.leave_button, 1))
        tab_before(self.start_button, self.cautions.fold)
        self.offer.stand_before(self.food)

    def _grid(self, names: tuple[str, ...]) -> QGridLayout:
        grid = QGridLayout()
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(16)
        for place, name in enumerate(names):
            grid.addWidget(self.fields[name], place // 2, place % 2)
        return grid

    # --- filling ------------------------------------------------------------------------------------------------

    def open(self, planned: Batch | None = None, like: Batch | None = None) -> None:
        """For a new batch, for one that was planned, or for one done as another was: what was measured of that, and
        what answers a stop, is entered anew."""
        self.kept.rest()
        self.parts = ()
        dryer = self.fields["dryer"]
        assert isinstance(dryer, ChoiceField)
        dryer.set_choices(self._dryers())
        self.no_dryers.look()
        self._fill(planned or Batch(""))
        self.food.set_value(planned.food if planned else None)
        self._show_food(self.food.value())
        self.planned = planned
        self.area.verticalScrollBar().setValue(0)
        if planned is None and self.fields["dryer"].value() is None:
            self.fields["dryer"].set_value(self._last_dryer())
        self.food.setEnabled(planned is None)
        self.heading.setText("Start a planned batch" if planned else "Start a batch")
        if like is not None:
            again = draft_like(self.session.kitchen, like)
            self._fill(again.batch)
            self.food.set_value(like.food)
            self._show_food(self.food.value())
            self.parts = again.parts
            mix = f", with its {counted(len(self.parts), 'ingredient')}" if self.parts else ""
            self.remembered.setText(f"As batch {like.id} was done{mix}. Type what is loaded.")
        self.kept.shown(planned.id if planned else f"like {like.id}" if like else "")
        (self.fields["prepared_mass"] if planned or like else self.food).setFocus()

    def _entries(self) -> list[Entry]:
        return [self.food, *self.fields.values()]

    def _typed(self) -> Kept:
        """What stands here, where it is more than a habit."""
        told = ("prepared_mass", "started", "title", "precook_temperature")
        begun = self.planned is not None or kept_entries([self.food, *(self.fields[name] for name in told)])
        return kept_entries(self._entries()) if begun else {}

    def _put_back(self, kept: Kept) -> None:
        put_back(self._entries(), kept)
        self._show_food(self.food.value())
        self.food.setFocus()
        self.food.edit.selectAll()

    def _last_dryer(self) -> int | None:
        """The dryer used last, for whatever food."""
        journal = self.session.kitchen.journal
        newest = journal.batch_ids(BatchQuery())[:5]
        used = [b.dryer for i in newest if (b := journal.get(Batch, i)) is not None and b.dryer is not None]
        return used[0] if used else next((d for d, _ in self._dryers()), None)

    def _fill(self, batch: Batch) -> None:
        for name, field in self.fields.items():
            field.set_value(None if name == "started" else getattr(batch, name) or None)

    def _remember(self, food: Food | None) -> None:
        """Habits of the last batch of this food stand ready; nothing that was measured does."""
        self._show_food(food)
        if food is None or self.planned is not None:
            return
        last = draft_for(self.session.kitchen, food.slug).batch
        filled = []
        for name in (habit for habit in HABITS if habit in self.fields):
            field, value = self.fields[name], getattr(last, name)
            if value and (isinstance(field, ChoiceField) or field.is_empty()):
                field.set_value(value)
                filled.append(FIELDS[name].about.label.lower())
        if len(filled) > 1:
            self.remembered.setText("Remembered from your last batch: " + ", ".join(filled) + ".")

    def _show_food(self, food: Food | None) -> None:
        self.animal.setVisible(food is not None and food.animal)
        self.remembered.setText("")
        self._caution()

    def _caution(self) -> None:
        """What must be known of the batch as far as it is filled in; they stand above the entries."""
        food = self.food.value()
        said = batch_cautions(self.session.kitchen, self.draft(food)) if food else ()
        self.cautions.set_cautions(said, OF_ANIMAL_FOOD if food and food.animal else OF_A_PLANT)

    def _toggle(self) -> None:
        self.more.setVisible(self.more_button.isChecked())

    def draft(self, food: Food) -> Batch:
        """The batch as far as it is filled in."""
        given = {name: field.value() for name, field in self.fields.items()}
        values = {n: v or FIELDS[n].default if FIELDS[n].holds is str else v for n, v in given.items()}
        return replace(self.planned or Batch(food.slug), food=food.slug, **values)

    def start(self) -> None:
        """Start the batch; the entry that is wrong says so."""
        if not self.food.require("Which food is it? Type its name, such as sweet corn."):
            self.food.setFocus()
            return
        wrong = next((f for f in self.fields.values() if isinstance(f, Field) and f.problem is not None), None)
        if wrong is not None:
            wrong.point_out()
            return
        done = self.session.act(start_batch, self.draft(self.food.value()), self.parts)
        if done is None:
            mark_problem(self.session.problem, [self.food, *self.fields.values()])
            return
        number = done.record.id
        self.kept.saved()
        self.kept.rest()
        self.parts = ()
        self.planned = None
        self.food.set_value(None)
        self._fill(Batch(""))
        self._show_food(None)
        self.started.emit(number)
