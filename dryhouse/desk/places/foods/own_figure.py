"""Entering a figure of one's own in place of the handbook's, and taking it back."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame

from dryhouse.desk.places.foods.wording import CUP, FIGURES, shown
from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.draft import Kept, keep_entries, kept_entries
from dryhouse.desk.widgets.fields import ChoiceField, Field, TextField
from dryhouse.desk.widgets.fold import reveal
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.catalog import set_figure
from dryhouse.kitchen.records import OwnFigure
from dryhouse.kitchen.records.foods import FIGURE_UNITS
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.science.quantities import Mass, Temperature, parse, parse_number, parse_percent


class FigureField(Field):
    """A figure of a food; how it is read depends on which figure is chosen."""

    figure = "water"

    def read(self, text: str) -> float:
        style = self.session.style
        unit = FIGURE_UNITS[self.figure]
        if unit == "degC":
            return parse(
                text, Temperature, default_unit=style.temperature_unit, decimal_comma=style.decimal_comma
            ).si
        if unit == CUP:
            return parse(text, Mass, default_unit=style.mass_unit, decimal_comma=style.decimal_comma).si
        reader = parse_percent if unit == "%" else parse_number
        return reader(text, decimal_comma=style.decimal_comma, what=FIGURES[self.figure].lower())


class OwnFigureEditor(QFrame):
    """One line: which figure, its value, a note. Enter saves."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.food: Food | None = None
        self._shown: Kept = {}
        set_role(self, "card")
        self.figure = ChoiceField(
            session, "Your own figure", [(n, FIGURES[n]) for n in FIGURES if n in FIGURE_UNITS]
        )
        self.value = FigureField(session, label_of(OwnFigure, "value"), name="value")
        self.note = TextField(session, label_of(OwnFigure, "note"), hint="measured…", name="note")
        self.save_button = button("&Use my figure", self.save, "primary", hint="Enter")
        self.back_button = button("Back to the handbook's", self.take_back)
        inside = column(self, margin=12, space=4)
        inside.addWidget(text_label("It is used in place of the published one.", "muted"))
        across = row(space=12)
        across.addWidget(self.figure, 3)
        across.addWidget(self.value, 2)
        across.addWidget(self.note, 3)
        inside.addLayout(across)
        inside.addLayout(row(self.save_button, self.back_button, 1))
        self.figure.changed.connect(self._show)
        for field in (self.value, self.note):
            field.accepted.connect(self.save)
        self.kept = keep_entries(session, "own figure", self, lambda: (self.value, self.note))
        inside.insertWidget(1, self.kept.offer)

    def show_food(self, food: Food) -> None:
        """Figures of this food; what is being typed for the same food stays."""
        same, self.food = self.food is not None and self.food.slug == food.slug, food
        if not same or kept_entries((self.value, self.note)) == self._shown:
            self._show()

    def choose(self, figure: str) -> None:
        """Enter this figure next."""
        if figure in FIGURE_UNITS:
            self.figure.set_value(figure)
            self._show()
            reveal(self.value)
            self.value.setFocus()

    def save(self) -> None:
        """Put the figure in the handbook's place."""
        if not self.value.require("Which value? Write it like the published one above."):
            self.value.setFocus()
            return
        if self.food is None:
            return
        done = self.session.act(
            set_figure,
            self.food.slug,
            self.figure.value(),
            self.value.value(),
            typed=self.value.text(),
            note=self.note.text(),
        )
        if done is not None:
            self.kept.saved()
            self._show()
        elif self.session.problem is not None:
            self.value.show_problem(self.session.problem)

    def take_back(self) -> None:
        """The handbook's figure stands again."""
        if self.food is None:
            return
        if self.session.act(set_figure, self.food.slug, self.figure.value(), None) is not None:
            self._show()

    def _show(self) -> None:
        self.kept.rest()
        name = self.figure.value()
        self.value.figure = name
        unit = FIGURE_UNITS[name]
        style = self.session.style
        hints = {"degC": "135 F, or 57 C", CUP: "3.1 oz, or 88 g"}
        self.value.set_hint(hints.get(unit, f"in {unit.replace('/', ' per ')}"))
        fact = self.food.fact(name) if self.food else None
        own = fact if fact is not None and fact.how == "entered" else None
        text = ""
        if own is not None:
            text = shown(own, style) if unit in ("degC", CUP) else style.number(own.value, 3)
        self.value.set_value(None)
        self.value.edit.setText(text)
        self.note.edit.setText(own.source if own is not None and own.source != "entered by you" else "")
        self.back_button.setEnabled(own is not None)
        self._shown = kept_entries((self.value, self.note))
        self.kept.shown(f"{self.food.slug if self.food else ''} {name}")
