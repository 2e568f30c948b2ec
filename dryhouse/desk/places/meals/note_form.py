"""How it came out: filled in from the label, so that what differed is all there is to type."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QFrame, QGridLayout

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, inner_key, row, tab_through, text_label
from dryhouse.desk.widgets.draft import Draft, Entry, keep_entries
from dryhouse.desk.widgets.fields import ChoiceField, Field, NumberField, QuantityField, TextField, mark_problem
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.calendar import read_date, today
from dryhouse.kitchen.meals.cooking import drawn_words, draws_for, note_cooking
from dryhouse.kitchen.meals.sheet import MealSheet, meal_sheet
from dryhouse.kitchen.records import CookingNote, CookingNotePart, LotDraw
from dryhouse.kitchen.records.meals import CAME_BACK
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.science.quantities import Length, Volume
from dryhouse.words.names import capital

_ENTRY_WIDE = 140
"""Pixels of an entry at least: a date stands in it whole."""
_HOW = [("", "not noted"), *((word, word) for word in CAME_BACK)]


class DayField(Field):
    """A day, as typed."""

    def read(self, text: str) -> date:
        return read_date(self.session.kitchen, text, self.name)

    def write(self, value: date) -> str:
        return value.isoformat()


class NoteForm(QFrame):
    """The form for a cooking note of one meal."""

    saved = Signal()
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        set_role(self, "card")
        self.session = session
        self._sheet: MealSheet | None = None
        self.on = DayField(session, label_of(CookingNote, "on"), name="on")
        self.servings = NumberField(session, label_of(CookingNote, "servings"), name="servings")
        self.water = QuantityField(session, label_of(CookingNote, "water"), Volume, name="water")
        self.soak = NumberField(session, label_of(CookingNote, "soak_minutes"), name="soak")
        self.cook = NumberField(session, label_of(CookingNote, "cook_minutes"), name="cook_minutes")
        self.altitude = QuantityField(
            session,
            label_of(CookingNote, "altitude"),
            Length,
            default_unit="ft" if session.style.system == "us" else "m",
            name="altitude",
        )
        self.came_back = ChoiceField(session, label_of(CookingNote, "came_back"), _HOW, name="came_back")
        self.rating = ChoiceField(
            session,
            label_of(CookingNote, "rating"),
            [(None, "not rated"), *((n, str(n)) for n in range(1, 6))],
            name="rating",
        )
        self.change = TextField(session, label_of(CookingNote, "change"), hint="less water, more onion")
        self.draw = QCheckBox("Take what was cooked off the shelf")
        self.draw.setChecked(True)
        self.taken = text_label("", "small")
        self._parts: list[tuple[ChoiceField, str, str]] = []
        self._part_grid = QGridLayout()
        self._part_grid.setSpacing(8)
        inside = column(self, margin=16, space=8)
        inside.addWidget(text_label("How it came out", "heading"))
        entries = (
            self.came_back,
            self.water,
            self.servings,
            self.on,
            self.soak,
            self.cook,
            self.altitude,
            self.rating,
        )
        inside.addLayout(Tiles(*entries, least=_ENTRY_WIDE))
        inside.addWidget(self.change)
        inside.addWidget(self.draw)
        inside.addWidget(self.taken)
        self.save_button = save = button("Save the &note", self.save, "primary", hint="Ctrl+Return")
        inside.addWidget(text_label("Single ingredients, where one came back differently", "small"))
        inside.addLayout(self._part_grid)
        inside.addLayout(row(save, button("Close", self._leave, hint="Esc; what you typed is kept"), 1))
        self.kept = keep_entries(session, "note", self, self._entries)
        inside.insertWidget(1, self.kept.offer)
        self.draft = Draft()
        inner_key(self, "Esc", self._leave)
        self._fields = (self.on, self.servings, self.water, self.soak, self.cook, self.altitude)
        for field in (*self._fields, self.change):
            field.accepted.connect(self.save)
        self.servings.changed.connect(self._rescale)

    def begin(self, sheet: MealSheet) -> None:
        """Fill the form in from what the label says."""
        self.kept.rest(sheet.meal.id)
        self._sheet = sheet
        if self.draft.stands(sheet.meal):
            self.came_back.setFocus()
            return
        self.on.set_value(today(self.session.kitchen))
        self.servings.set_value(sheet.servings)
        self._fill(sheet)
        for choice in (self.came_back, self.rating):
            choice.set_value(choice.box.itemData(0))
        self.change.set_value(None)
        self.altitude.set_value(None)
        for choice, _, _ in self._parts:
            self._part_grid.removeWidget(choice)
            choice.setParent(None)
            choice.deleteLater()
        self._parts = [
            (ChoiceField(self.session, line.part.name, _HOW), line.part.name, line.part.food)
            for line in sheet.parts
            if line.part.food or line.part.staple
        ]
        for n, (choice, _, _) in enumerate(self._parts):
            self._part_grid.addWidget(choice, n // 4, n % 4)
        tab_through(self.change, self.draw, *(choice for choice, _, _ in self._parts), self.save_button)
        self._show_taken()
        self.kept.shown(sheet.meal.id)
        self.came_back.setFocus()

    def _entries(self) -> tuple[Entry, ...]:
        """All of it; the servings first, which fill in others."""
        choices = (self.came_back, self.rating, *(choice for choice, _, _ in self._parts))
        others = (field for field in self._fields if field is not self.servings)
        return (self.servings, *others, self.change, *choices)

    def _leave(self) -> None:
        if self._sheet is not None:
            self.draft.leave(self._sheet.meal)
        self.left.emit()

    def save(self) -> None:
        """Save the note; what is wrong is marked where it stands."""
        if self._sheet is None or not all(f.problem is None for f in self._fields):
            return
        meal = self._sheet.meal
        note = CookingNote(
            meal=meal.id,
            on=self.on.value() or today(self.session.kitchen),
            servings=self.servings.value() or self._sheet.servings,
            water=self.water.value(),
            soak_minutes=self.soak.value(),
            cook_minutes=self.cook.value(),
            altitude=self.altitude.value(),
            came_back=self.came_back.value(),
            change=self.change.text(),
            rating=self.rating.value(),
            cooking=meal.cooking,
        )
        parts = [CookingNotePart(0, name, said, food) for c, name, food in self._parts if (said := c.value())]
        draws = self._draws() if self.draw.isChecked() else ()
        if self.session.act(note_cooking, note, parts, draws) is None:
            mark_problem(self.session.problem, (*self._fields, self.came_back, self.rating))
            return
        self.kept.saved()
        self.saved.emit()

    def _rescale(self) -> None:
        count = self.servings.value()
        if self._sheet is not None and count:
            sheet = self.session.attempt(meal_sheet, self.session.kitchen, self._sheet.meal, servings=count)
            if sheet is not None:
                self._fill(sheet)
                self._show_taken()

    def _draws(self) -> tuple[LotDraw, ...]:
        """What would leave the shelf, as the form stands."""
        if self._sheet is None:
            return ()
        kitchen, day = self.session.kitchen, self.on.value() or today(self.session.kitchen)
        return draws_for(kitchen, self._sheet.meal, self.servings.value() or self._sheet.servings, day)

    def _show_taken(self) -> None:
        """Say what would leave the shelf, before it does."""
        taken = drawn_words(self.session.kitchen, self._draws(), to_come=True)
        self.draw.setVisible(bool(taken))
        self.taken.setVisible(bool(taken))
        self.taken.setText(f"{capital(taken)}. Undo puts it back with the note." if taken else "")

    def _fill(self, sheet: MealSheet) -> None:
        self.water.set_value(Volume(sheet.bag.water.value) if sheet.needs_water and not sheet.unweighed else None)
        self.soak.set_value(round(sheet.minutes.soak.value))
        self.cook.set_value(round(sheet.minutes.flame.value))
