"""The Handbook: published figures of every food with their sources, and one's own laid over them."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut, QTextDocument
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from dryhouse.desk.place import DeskPlace
from dryhouse.desk.places.foods.food_page import FoodPage
from dryhouse.desk.places.foods.own_food import OwnFoodPage
from dryhouse.desk.places.foods.sources_page import SourcesPage
from dryhouse.desk.places.foods.wording import CATEGORIES
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages, button, column, text_label
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.desk.widgets.fields import ChoiceField
from dryhouse.desk.widgets.filter_bar import FilterBar
from dryhouse.desk.widgets.printing import document
from dryhouse.desk.widgets.wrapping import headed
from dryhouse.handbook.tables import Food, Saying
from dryhouse.kitchen.foods.catalog import bears, find_foods, food
from dryhouse.kitchen.records import OwnFigure, OwnFood
from dryhouse.science.display import counted
from dryhouse.science.errors import InputProblem
from dryhouse.words.names import capital

_MANY = 400


class HandbookPlace(DeskPlace):
    """Foods at the left, the chosen one at the right."""

    watches = frozenset({OwnFood, OwnFigure})
    shortcuts = (("Ctrl+F", "find a food"), ("Ctrl+N", "a food of your own"))

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.filter = FilterBar("Find a food", "Find a food")
        self.kind = ChoiceField(session, "", [("", "Any kind"), *CATEGORIES.items()])
        self.kind.label.hide()
        self.kind.sentence.hide()
        self.kind.box.setAccessibleName("Kind of food")
        self.list = QListWidget()
        self.list.setAccessibleName("Foods")
        self.list.setUniformItemSizes(True)
        self.count = text_label("", "small")
        self.page = FoodPage(session)
        self.own_food = OwnFoodPage(session)
        self.sources = SourcesPage(session)
        self._build()
        self.filter.changed.connect(lambda _t: self._list())
        self.filter.down.connect(self.list.setFocus)
        self.kind.changed.connect(self._list)
        self.list.currentItemChanged.connect(lambda item, _before: self._show(item))
        self.own_food.saved.connect(lambda slug: self.show_record("food", slug))
        self.own_food.left.connect(self._back)
        self.sources.left.connect(self._back)
        QShortcut(QKeySequence("Ctrl+N"), self, self.add_food)

    def _build(self) -> None:
        left = QWidget()
        beside = column(left, space=8)
        for widget in (self.filter, self.kind, self.list, self.count):
            beside.addWidget(widget, 1 if widget is self.list else 0)
        self.right = Pages()
        for page in (self.page, self.own_food, self.sources):
            self.right.addWidget(page)
        across = side_by_side(left, self.right, sizes=(260, 800), least=(220, 530), gap=24)
        across.setStretchFactor(1, 1)
        head = headed(
            "Handbook",
            1,
            button("&Sources", self.show_sources, hint="Every source, and whether it was read"),
            button("&Add a food of my own", self.add_food, hint="Ctrl+N"),
        )
        inside = column(self, margin=20, space=12)
        inside.addLayout(head)
        inside.addWidget(across, 1)

    def refresh(self) -> None:
        self._list()

    def arrive(self) -> None:
        self.filter.setFocus()

    def show_record(self, kind: str, id: int | str) -> None:
        if kind != "food":
            return
        self.filter.edit.clear()
        self.kind.set_value("")
        self.filter.tell()
        self._list()
        for line in range(self.list.count()):
            if self.list.item(line).data(Qt.ItemDataRole.UserRole) == id:
                self.list.setCurrentRow(line)
        self._back()

    def printout(self) -> QTextDocument | None:
        food = self.page.food
        if food is None:
            return None
        rows = "".join(
            "<tr>" + "".join(f"<td>{escape(t)}</td>" for t in line) + "</tr>" for line in self.page.printable()
        )
        said = "".join(
            f"<p>{escape(s.text)} <span class='small'>{escape(s.source)}</span></p>" for s in _said(food)
        )
        return document(food.name, f"<h1>{escape(food.name)}</h1><table>{rows}</table>{said}")

    def add_food(self) -> None:
        """Enter a food the handbook does not know."""
        self.right.setCurrentWidget(self.own_food)
        self.own_food.setFocus()

    def show_sources(self) -> None:
        """Every source the figures name."""
        self.right.setCurrentWidget(self.sources)
        self.sources.setFocus()

    def _back(self) -> None:
        self.right.setCurrentWidget(self.page)
        self.list.setFocus()

    def look_for(self) -> None:
        self.filter.setFocus()
        self.filter.edit.selectAll()

    def _list(self) -> None:
        kept = self.page.food.slug if self.page.food else ""
        foods = self._foods()
        self.list.blockSignals(True)
        self.list.clear()
        for each in foods:
            item = QListWidgetItem(capital(each.name))
            item.setData(Qt.ItemDataRole.UserRole, each.slug)
            self.list.addItem(item)
        meant = self._meant(foods, kept)
        self.list.setCurrentRow(-1 if meant is None else foods.index(meant))
        self.list.blockSignals(False)
        near = " with a name near it" if foods and meant is None else ""
        self.count.setText(counted(len(foods), "food") + near)
        if meant is not None:
            self.page.show_food(meant.slug)
        elif self.filter.text():
            self.page.ask(self._question(self.filter.text(), foods))

    def _meant(self, foods: list[Food], kept: str) -> Food | None:
        """The food to show: the one shown before, or what was typed; None where that names none of these."""
        text = self.filter.text()
        if not text:
            return next((f for f in foods if f.slug == kept), foods[0] if foods else None)
        if foods and bears(foods[0], text):
            return foods[0]
        try:
            slug = food(self.session.kitchen, text).slug
        except InputProblem:
            return None
        return next((f for f in foods if f.slug == slug), None)

    def _question(self, text: str, foods: list[Food]) -> str:
        kind = CATEGORIES.get(self.kind.value() or "", "")
        among = f"None of the {kind.lower()} is called “{text}”." if kind else f"No food called “{text}” is known."
        way_on = "Choose one of those near it, or" if foods else "Check the spelling, or"
        return f"{among} {way_on} add it as a food of your own."

    def _foods(self) -> list[Food]:
        kitchen = self.session.kitchen
        text, kind = self.filter.text(), self.kind.value()
        if text:
            found = find_foods(kitchen, text, _MANY)
        else:
            own = find_foods(kitchen, "", _MANY)
            every = {food.slug: food for food in (*own, *kitchen.handbook.foods.values())}
            found = sorted(every.values(), key=lambda f: f.name.casefold())
        return [f for f in found if not kind or f.category == kind]

    def _show(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.page.show_food(item.data(Qt.ItemDataRole.UserRole))


def _said(food: Food) -> list[Saying]:
    return list(food.sayings.values())
