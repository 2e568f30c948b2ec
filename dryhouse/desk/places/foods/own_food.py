"""A food the handbook does not know, entered once and then as good as any other."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.places.foods.wording import CATEGORIES
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, words
from dryhouse.desk.widgets.fields import ChoiceField, TextField, mark_problem
from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.kitchen.foods.own_foods import add_food


class OwnFoodPage(QWidget):
    """Enter saves, Esc leaves."""

    saved = Signal(str)
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.name = TextField(session, "Name", hint="such as bean chili", name="name")
        self.others = TextField(session, "Other names", hint="separated by commas")
        self.kind = ChoiceField(session, "Kind", CATEGORIES.items(), name="category")
        self.like = FoodField(session, "Dries like", hint="a food of the handbook, if one is near", name="like")
        inside = column(self, space=6)
        inside.addWidget(words("A food of my own", "title"))
        inside.addWidget(
            words(
                "Name a food it dries like: its figures and cautions stand in until you enter your own.",
                "muted",
            )
        )
        for field in (self.name, self.others, self.kind, self.like):
            field.setMaximumWidth(460)
            inside.addWidget(field)
        save = button("&Add the food", self.save, "primary", hint="Enter")
        leave = button("&Leave", self.left.emit, hint="Esc")
        inside.addLayout(row(save, leave, 1))
        inside.addStretch(1)
        for field in (self.name, self.others, self.like):
            field.accepted.connect(self.save)
        inner_key(self, "Esc", self.left.emit)
        self.setFocusProxy(self.name)

    def save(self) -> None:
        """Add the food."""
        if not self.name.require("An own food needs a name, such as bean chili."):
            self.name.setFocus()
            return
        others = tuple(part.strip() for part in self.others.text().split(",") if part.strip())
        like = self.like.value()
        if like is None and self.like.text():
            self.like.show_problem(self.like.problem)
            self.like.setFocus()
            return
        done = self.session.act(
            add_food, self.name.text(), self.kind.value(), other_names=others, like=like.slug if like else ""
        )
        if done is None:
            mark_problem(self.session.problem, (self.name, self.kind, self.like))
            return
        for field in (self.name, self.others, self.like):
            field.set_value(None)
        self.saved.emit(done.record.slug)
