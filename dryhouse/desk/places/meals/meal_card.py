"""The card of a meal: built and changed in place, its figures answering while one types."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.places.meals.cup_ask import CupAsk
from dryhouse.desk.places.meals.note_form import NoteForm
from dryhouse.desk.places.meals.notes_view import NotesView
from dryhouse.desk.places.meals.part_row import PartRow
from dryhouse.desk.places.meals.parts_table import PartsTable
from dryhouse.desk.places.meals.scale_offer import ScaleOffer
from dryhouse.desk.places.meals.sums_view import SumsView
from dryhouse.desk.places.meals.swap_view import SwapView
from dryhouse.desk.places.meals.ways_view import WaysView
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, scrolling, tab_through, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.choices import may_be_narrow
from dryhouse.desk.widgets.draft import KeptForm, kept_entries, put_back
from dryhouse.desk.widgets.fields import ChoiceField, NumberField, QuantityField, TextField, mark_problem
from dryhouse.desk.widgets.fold import Unfolding, reveal
from dryhouse.desk.widgets.record_fields import altitude_field
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.meals.ingredients import Pantry
from dryhouse.kitchen.meals.meals import check_meal, save_meal, scale_meal
from dryhouse.kitchen.meals.sheet import MealSheet, meal_parts, sheet_of
from dryhouse.kitchen.meals.shelf_keys import lot_key
from dryhouse.kitchen.records import CookingNote, Meal, MealPart
from dryhouse.kitchen.records.meals import COOKING_STYLES, LIQUID_STYLES, NO_POT
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.kitchen.shelf.shelf import shelf
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Length
from dryhouse.science.safety.unfolded import OF_A_PLANT, OF_ANIMAL_FOOD
from dryhouse.words.messages import problem_sentence

_PAUSE_MS = 60
NO_INGREDIENT = "Add an ingredient with its amount, then save."


class MealCard(QWidget):
    """`saved` gives the number of the meal once it is written."""

    saved = Signal(int)
    copy_asked = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.meal = Meal("")
        self.recorded: tuple[MealPart, ...] = ()
        self.sheet: MealSheet | None = None
        self._pantry = Pantry(session.kitchen)
        us = session.style.system == "us"
        self.name = TextField(session, label_of(Meal, "name"), hint="such as bean chili", name="name")
        self.servings = NumberField(session, label_of(Meal, "servings"), hint="1", name="servings")
        self.offer = ScaleOffer()
        self.cup = CupAsk(session)
        self.cooking = ChoiceField(
            session, label_of(Meal, "cooking"), [(c, c) for c in COOKING_STYLES], name="cooking"
        )
        self.liquid = ChoiceField(session, label_of(Meal, "liquid"), [(s, s) for s in LIQUID_STYLES], name="liquid")
        self.minutes = NumberField(session, label_of(Meal, "cook_minutes"), hint="calculated", name="cook_minutes")
        self.pot = QuantityField(
            session, label_of(Meal, "pot_diameter"), Length, name="pot_diameter", hint="6 in" if us else "15 cm"
        )
        self.altitude = altitude_field(session, CookingNote)
        self.boil_off = NumberField(
            session, label_of(Meal, "boil_off_ml_per_min"), hint="calculated", name="boil_off_ml_per_min"
        )
        self.method = TextField(session, label_of(Meal, "method"))
        self.parts = PartsTable(session)
        self.sums = SumsView(session)
        self.cautions = CautionsView(session, moment="pot")
        self.problem = text_label("", "problem")
        self.ways = WaysView(session)
        self.note, self.swap, self.notes = NoteForm(session), SwapView(session), NotesView(session)
        self._swapped = 0
        """The line whose swap is asked for."""
        self._pause = QTimer(self, singleShot=True, interval=_PAUSE_MS)
        self._pause.timeout.connect(self.reckon)
        self.kept = KeptForm(session, "meal", self, self._typed, self._put_back)
        self._build()
        self._fields = (
            *(self.name, self.servings, self.minutes, self.pot),
            *(self.boil_off, self.altitude, self.method),
        )
        for field in self._fields:
            field.changed.connect(self._pause.start)
            field.accepted.connect(self._entered)
        for choice in (self.cooking, self.liquid):
            choice.changed.connect(self._pause.start)
        self.parts.changed.connect(self._pause.start)
        self.offer.scale_asked.connect(self.scale)
        self.offer.keep_asked.connect(self._keep_amounts)
        self.parts.lot_asked.connect(self._go_to_lot)
        self.parts.swap_asked.connect(self._ask_swap)
        for piece in (self.note.saved, self.note.left):
            piece.connect(lambda: self._close_forms(self.note_button))
        self.swap.copied.connect(self.show_new)
        for piece in (self.swap.done, self.swap.left):
            piece.connect(lambda: self._close_forms(self.parts.more_of(self._swapped)))
        self._close_forms()

    def _build(self) -> None:
        for named in (self.name, self.method):
            named.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
            hold(named, least_wide=176)
        for number in (self.servings, self.minutes, self.pot, self.altitude):
            hold(number, wide=96)
        head = Wrapping(self.name, self.servings, self.cooking, self.liquid, self.minutes, space=12)
        pot = QWidget()
        pot.setLayout(Wrapping(self.pot, self.altitude, self.boil_off, self.method, space=16))
        self.more = Unfolding(self.session, "Pot, altitude, method", pot)
        for choice in (self.cooking, self.liquid):
            may_be_narrow(choice.box)
        self.save_button = button("Save the &meal", self.save, "primary", hint="Ctrl+S")
        self.note_button = button("Coo&king note", self.open_note, hint="Ctrl+K")
        page = QWidget()
        inside = column(page, space=12)
        inside.setContentsMargins(0, 0, 16, 0)
        inside.addWidget(self.kept.offer)
        inside.addWidget(self.cautions)
        inside.addLayout(head)
        inside.addWidget(self.offer)
        inside.addWidget(self.parts)
        inside.addWidget(self.cup)
        inside.addWidget(self.problem)
        inside.addWidget(self.more)
        for piece in (self.swap, self.note, self.ways, self.sums, self.notes):
            inside.addWidget(piece)
        inside.addStretch(1)
        self.area = scrolling(page)
        self.area.verticalScrollBar().valueChanged.connect(
            lambda down: self.sums.strip.say_stops(away=down > self.cautions.y() + self.cautions.height() // 3)
        )
        outer = column(self, space=8)
        outer.addWidget(self.sums.strip)
        outer.addWidget(self.area, 1)
        outer.addLayout(Wrapping(1, self.note_button, self.save_button))

    # --- showing ---------------------------------------------------------------------------------------------

    def show_meal(self, meal: Meal, *, keep_typing: bool = False) -> None:
        """Show a recorded meal, or a new one (number 0). `keep_typing` leaves what was typed and not saved, and
        what stands here already."""
        self.forget()
        recorded = meal_parts(self.session.kitchen, meal.id) if meal.id else ()
        same = meal == self.meal and recorded == self.recorded
        if keep_typing and (same or self.is_changed()):
            self.notes.show_meal(self.meal.id)
            self.reckon()
            return
        self.kept.rest()
        self.meal = meal
        self.recorded = recorded
        self.name.set_value(meal.name or None)
        self.servings.set_value(meal.servings)
        self.cooking.set_value(meal.cooking)
        self.liquid.set_value(meal.liquid)
        self.minutes.set_value(meal.cook_minutes)
        self.pot.set_value(meal.pot_diameter)
        self.boil_off.set_value(meal.boil_off_ml_per_min)
        self.method.set_value(meal.method or None)
        for field in (self.name, self.method):
            field.edit.setCursorPosition(0)
        self.parts.set_parts(self.recorded)
        tab_through(self.minutes, self.offer.scale, self.offer.keep)
        self.parts.in_order(self.offer.keep)
        last = self.parts.more_of(len(self.parts.rows) - 1)
        tab_through(last, self.more.fold, self.pot, self.altitude, self.boil_off, self.method)
        self.notes.show_meal(meal.id)
        self._close_forms()
        self.note_button.setEnabled(bool(meal.id))
        self.kept.shown(meal.id or "")
        self.reckon()

    def _typed(self) -> Any:
        """What stands here: the entries, and the lines of the ingredients."""
        entries = (*self._fields, self.cooking, self.liquid)
        return [kept_entries(entries), self.parts.typed()]

    def _put_back(self, kept: Any) -> None:
        put_back((*self._fields, self.cooking, self.liquid), kept[0])
        self.parts.put_back(kept[1])
        self.reckon()

    def forget(self) -> None:
        """Records changed: look every ingredient and lot up again when next reckoning."""
        self._pantry = Pantry(self.session.kitchen)
        self.parts.set_shelf(_shelf_of(self.session))

    def draft(self) -> Meal:
        """The meal as it stands in the entries."""
        return replace(
            self.meal,
            name=self.name.text(),
            servings=float(self.servings.value() or 1.0),
            cooking=self.cooking.value(),
            liquid=self.liquid.value(),
            cook_minutes=self.minutes.value(),
            pot_diameter=self.pot.value(),
            boil_off_ml_per_min=self.boil_off.value(),
            method=self.method.text(),
        )

    def is_changed(self) -> bool:
        """Whether anything stands here that is not saved."""
        kept = tuple(replace(p, meal=0, position=0) for p in self.recorded)
        now = tuple(replace(p, meal=0, position=0) for p in self.parts.parts())
        if not self.meal.id and not self.name.text() and not now:
            return False
        return self.draft() != self.meal or now != kept

    def reckon(self) -> None:
        """Work out what stands here now."""
        self._pause.stop()
        height = self.altitude.value()
        metres = None if height is None else height.si / 1000.0
        parts = self.parts.parts()
        said = list(self.parts.problems())
        kitchen, pantry = self.session.kitchen, self._pantry
        try:
            self.sheet = sheet_of(kitchen, self.draft(), parts, altitude_m=metres, pantry=pantry)
        except InputProblem as problem:
            self.sheet = None
            said.append(problem_sentence(problem, self.session.style))
        for of_the_pot in (self.minutes, self.pot, self.boil_off, self.liquid):
            of_the_pot.setEnabled(self.cooking.value() != NO_POT)
        self.problem.setText(" ".join(said))
        self.problem.setVisible(bool(said))
        self.parts.show_sheet(self.sheet)
        self.cup.show_for(self.sheet)
        self.sums.show_sheet(self.sheet)
        self.ways.show_later(self.sheet, metres, pantry)
        known = any(p.mass is not None or p.volume is not None for p in parts)
        self.offer.show_for(self.meal, self.servings.value(), known)
        self._show_cautions(self.sheet if parts else None)

    def _show_cautions(self, sheet: MealSheet | None) -> None:
        inside = [line.ingredient for line in sheet.parts] if sheet is not None else []
        animal = any(
            (i.food is not None and i.food.animal) or (i.staple is not None and i.staple.animal) for i in inside
        )
        cautions = sheet.cautions if sheet is not None else ()
        self.cautions.set_cautions(cautions, OF_ANIMAL_FOOD if animal else OF_A_PLANT)

    def has_problem(self) -> bool:
        """Whether an entry holds what cannot be read."""
        return any(field.problem is not None for field in self._fields)

    # --- acts ------------------------------------------------------------------------------------------------

    def save(self) -> bool:
        """Write the meal with its parts; what is wrong is marked where it stands."""
        self.reckon()
        if self.has_problem():
            reveal(next((f for f in self._fields if f.problem is not None), self.name))
            return False
        parts, missing = self.parts.parts(), self.parts.problems()
        if not parts and not missing:
            self.session.attempt(check_meal, self.session.kitchen, self.draft())
            missing = (NO_INGREDIENT,) if self.session.problem is None else ()
        if missing:
            self.problem.setText(" ".join(missing))
            self.problem.show()
            self.parts.point_out()
            self.area.ensureWidgetVisible(self.problem)
            return False
        shown: tuple[Meal | MealPart, ...] = (self.meal, *self.recorded) if self.meal.id else ()
        done = self.session.act_on(shown, save_meal, self.draft(), parts) if parts else None
        if done is None:
            mark_problem(self.session.problem, (*self._fields, self.cooking, self.liquid))
            return False
        kept = self.session.kitchen.journal.get(Meal, self.meal.id) if self.meal.id else None
        self.kept.saved()
        meal = kept or (done.record if isinstance(done.record, Meal) else self.meal)
        self.show_meal(meal)
        self.saved.emit(meal.id)
        return True

    def show_new(self, meal: int) -> None:
        """A meal that was just made of this one."""
        found = self.session.kitchen.journal.get(Meal, meal)
        if found is not None:
            self.show_meal(found)
            self.saved.emit(meal)

    def scale(self) -> None:
        """The amounts follow the servings; whatever else was changed is saved first."""
        servings = self.servings.value()
        if servings is None:
            return
        self.servings.set_value(self.meal.servings)
        if self.is_changed() and not self.save():
            self.servings.set_value(servings)
            return
        if self.session.act(scale_meal, self.meal.id, float(servings)) is not None:
            self.show_meal(self.session.kitchen.journal.get(Meal, self.meal.id) or self.meal)
            self.saved.emit(self.meal.id)
        self.servings.setFocus()

    def _keep_amounts(self) -> None:
        self.save()
        self.servings.setFocus()

    def _entered(self) -> None:
        """Enter saves; where the amounts may have to follow, the keyboard goes to that choice first, and in a meal
        without ingredients to the first of them."""
        self.reckon()
        if not self.offer.isHidden():
            self.offer.scale.setFocus()
        elif all(row.is_empty() for row in self.parts.rows):
            self.parts.first_empty().name.setFocus()
        else:
            self.save()

    def open_note(self) -> None:
        """Open the form that asks how it came out."""
        if self.sheet is not None and self.meal.id and (not self.is_changed() or self.save()):
            self._close_forms()
            self.note.show()
            self.note.begin(self.sheet)
            _bring_into_view(self.area, self.note)

    def _go_to_lot(self, lot: int) -> None:
        """The lot on the shelf; the meal stays as it is, one step back."""
        self.session.open("shelf", "lot", lot)
        self.session.say(
            f"Lot {lot}, from {self.meal.name or 'the meal you are building'}. Ctrl+5 goes back to it."
        )

    def _ask_swap(self, line: PartRow) -> None:
        if not self.is_changed() or self.save():
            part = next((p for p in self.recorded if p.id == line.number), None)
            if part is not None:
                self._close_forms()
                self._swapped = self.parts.rows.index(line)
                self.swap.show()
                self.swap.begin(part)
                _bring_into_view(self.area, self.swap)

    def _close_forms(self, then: QWidget | None = None) -> None:
        """Put them away; the keyboard goes where they were asked for."""
        self.note.hide()
        self.swap.hide()
        if then is not None:
            then.setFocus()


def _shelf_of(session: Session) -> dict[str, list[ShelfLine]]:
    lots: dict[str, list[ShelfLine]] = defaultdict(list)
    for line in shelf(session.kitchen):
        lots[lot_key(line.lot)].append(line)
    return lots


def _bring_into_view(area: QScrollArea, form: QWidget) -> None:
    """Its top at the top, once it is laid out."""
    QTimer.singleShot(0, form, lambda: area.verticalScrollBar().setValue(form.y() - 8))
