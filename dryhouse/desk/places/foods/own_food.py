"""A food the handbook does not know, entered once and then as good as any other."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.places.foods.wording import CATEGORIES
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.draft import Entry, Kept, KeptForm, kept_entries, put_back
from dryhouse.desk.widgets.fields import ChoiceField, TextField, mark_problem
from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.desk.widgets.own_food_ask import ContainsEntry
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.foods.own_foods import ReallyPlant, add_food
from dryhouse.kitchen.records import OwnFood
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.words.messages import problem_sentence


class OwnFoodPage(QWidget):
    """Enter saves, Esc leaves."""

    saved = Signal(str)
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.name = TextField(session, label_of(OwnFood, "name"), hint="such as bean chili", name="name")
        self.others = TextField(session, label_of(OwnFood, "other_names"), hint="separated by commas")
        self.contains = ContainsEntry()
        self.again = text_label("", "problem")
        self.kind = ChoiceField(
            session, label_of(OwnFood, "category"), [("", "not said"), *CATEGORIES.items()], name="category"
        )
        self.like = FoodField(
            session, label_of(OwnFood, "like"), hint="such as winter squash", name="like", own=False
        )
        self._asked_again: tuple[str, tuple[str, ...]] | None = None
        inside = column(self, space=8)
        inside.addWidget(text_label("A food of my own", "title"))
        inside.addWidget(
            text_label(
                "Name a food it dries like: its figures and cautions are used until you enter your own.",
                "muted",
            )
        )
        inside.addLayout(Tiles(self.name, self.others, least=240, space=16))
        inside.addWidget(self.contains)
        inside.addWidget(self.again)
        inside.addLayout(Tiles(self.kind, self.like, least=240, space=16))
        self.again.hide()
        self.contains.accepted.connect(self.save)
        self.contains.changed.connect(self.again.hide)
        save = button("A&dd the food", self.save, "primary", hint="Enter")
        leave = button("Close", self.left.emit, hint="Esc")
        inside.addLayout(row(save, leave, 1))
        inside.addStretch(1)
        for field in (self.name, self.others, self.like):
            field.accepted.connect(self.save)
        inner_key(self, "Esc", self.left.emit)
        self.kept = KeptForm(session, "own food", self, self._typed, self._put_back)
        inside.insertWidget(1, self.kept.offer)
        self.kept.offer.stand_before(self.name)
        self.kept.shown()
        self.setFocusProxy(self.name)

    def _entries(self) -> tuple[Entry, ...]:
        return (self.name, self.others, self.kind, self.like)

    def _typed(self) -> Kept:
        said = list(self.contains.value())
        return {**kept_entries(self._entries()), **({"in it": said} if said else {})}

    def _put_back(self, kept: Kept) -> None:
        put_back(self._entries(), kept)
        self.contains.set_value(tuple(kept.get("in it", ())))

    def save(self) -> None:
        """Add the food."""
        if not self.name.require("An own food needs a name, such as bean chili."):
            self.name.setFocus()
            return
        others = tuple(part.strip() for part in self.others.text().split(",") if part.strip())
        like = self.like.value()
        if like is None and self.like.text():
            self.like.point_out()
            return
        asked = (self.name.text(), self.contains.value())
        sure = self._asked_again == asked
        done = self.session.act(
            add_food,
            self.name.text(),
            self.kind.value(),
            contains=self.contains.value(),
            other_names=others,
            like=like.slug if like else "",
            really_plant=sure,
        )
        if done is None:
            if isinstance(self.session.problem, ReallyPlant):
                self._asked_again = asked
                self.again.setText(
                    f"{problem_sentence(self.session.problem, self.session.style)} If so, add it once more."
                )
                self.again.show()
                self.session.told_beside(self.session.problem)
                self.contains.setFocus()
                return
            mark_problem(self.session.problem, (self.name, self.kind, self.like))
            return
        self.kept.saved()
        self.kept.rest()
        for field in (self.name, self.others, self.like):
            field.set_value(None)
        self.contains.set_value(())
        self.kind.set_value("")
        self.again.hide()
        self.kept.shown()
        self.saved.emit(done.record.slug)
