"""Meals: the list at the left, the card of the chosen one at the right."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QTextDocument
from PySide6.QtWidgets import QFileDialog, QMenu, QWidget

from dryhouse.desk.places.meals.copying import copy_of_card
from dryhouse.desk.places.meals.meal_card import MealCard
from dryhouse.desk.places.meals.meal_list import MealList
from dryhouse.desk.places.meals.wording import meal_page
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import Pages, button, column, row
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.desk.widgets.empty_state import EmptyState
from dryhouse.desk.widgets.printing import document, preview_print
from dryhouse.kitchen.exchange.meal_files import ENDING, read_meal, write_meal
from dryhouse.kitchen.meals.meals import remove_meal
from dryhouse.kitchen.records import Meal


class MealsPage(QWidget):
    """Lists, builds, notes, prints and sends meals."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.list = MealList(session)
        self.card = MealCard(session)
        self.empty_state = EmptyState(
            session.theme,
            "meals",
            "No meals yet",
            "Put one together from what is on the shelf: its water, minutes and energy answer while you type.",
            ("Build a meal", self.new),
            ("Import a meal…", self.bring),
        )
        left = QWidget()
        inside = column(left, space=8)
        inside.addWidget(self.list, 1)
        self.more_button = button("More", lambda: None, name="More for meals")
        menu = QMenu(self)
        self.save_as_new = menu.addAction("Save as &new\tCtrl+Shift+M", self.card.copy_asked.emit)
        menu.addAction("&Export the meal…", self.send)
        menu.addAction("&Import a meal…", self.bring)
        menu.addAction("&Remove the meal", self.remove)
        self.more_button.setMenu(menu)
        meals = self.list.list
        meals.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        meals.customContextMenuRequested.connect(lambda where: menu.popup(meals.mapToGlobal(where)))
        inside.addLayout(row(self.more_button, 1))
        self.both = side_by_side(left, self.card, sizes=(224, 820), least=(200, 490), gap=16)
        self.both.setStretchFactor(1, 1)
        self.pages = Pages()
        self.pages.addWidget(self.both)
        self.pages.addWidget(self.empty_state)
        column(self).addWidget(self.pages)
        self.list.chosen.connect(self.show_meal)
        self.list.opened.connect(lambda _m: self.card.name.setFocus())
        self.card.saved.connect(self._saved)
        self.card.copy_asked.connect(lambda: copy_of_card(self.card))

    def refresh(self) -> None:
        """Read everything again; what is typed and not saved stays."""
        number = self.list.refresh()
        self.card.forget()
        meal = self.session.kitchen.journal.get(Meal, self.card.meal.id) if self.card.meal.id else None
        if meal is not None:
            self.list.choose(meal.id)
            self.card.show_meal(meal, keep_typing=True)
        elif not self.card.is_changed():
            self.show_first()
        typing = self.card.is_changed() or self._new
        self.both.give_way(self._new)
        self.pages.setCurrentWidget(self.both if number or typing else self.empty_state)

    _new = False

    def show_first(self) -> None:
        """The meal under the cursor, else the first."""
        if not self.list.current() and self.list.list.count():
            self.list.list.setCurrentRow(0)
        if self.list.current():
            self.show_meal(self.list.current())
        else:
            self.card.show_meal(Meal(""))

    def show_meal(self, meal: int) -> None:
        """Show a recorded meal; what was typed in another is saved first where it can be."""
        found = self.session.kitchen.journal.get(Meal, meal)
        if found is None or found.id == self.card.meal.id:
            return
        if self.card.is_changed() and self.card.meal.id and not self.card.save():
            return
        self._new = False
        self.both.give_way(False)
        self.pages.setCurrentWidget(self.both)
        self.card.show_meal(found)
        self.list.choose(meal)

    def new(self) -> None:
        """An empty card."""
        if self.card.is_changed() and self.card.meal.id and not self.card.save():
            return
        self._new = True
        self.both.give_way(True)
        self.list.list.setCurrentRow(-1)
        self.card.show_meal(Meal(""))
        self.pages.setCurrentWidget(self.both)
        self.card.name.setFocus()

    def remove(self) -> None:
        """Remove the chosen meal; the message offers to take it back."""
        meal = self.card.meal.id
        if meal:
            self.card.show_meal(Meal(""))
            self.session.act(remove_meal, meal)

    def send(self) -> None:
        """Export the chosen meal to a file for another kitchen."""
        meal = self.card.meal
        if not meal.id:
            self.session.say("Save the meal first, then export it.", "input")
            return
        name, _ = QFileDialog.getSaveFileName(self, "Export the meal", meal.name + ENDING, f"Meals (*{ENDING})")
        if name and self.session.attempt(write_meal, self.session.kitchen, meal.id, Path(name)) is not None:
            self.session.say(f"{meal.name} is exported to {Path(name).name}.")

    def bring(self) -> None:
        """Bring in a meal another kitchen wrote."""
        name, _ = QFileDialog.getOpenFileName(self, "Import a meal", "", f"Meals (*{ENDING});;All files (*)")
        if name:
            self.read(Path(name))

    def read(self, path: Path) -> None:
        """Bring in the meal of a file."""
        done = self.session.act(read_meal, path)
        if done is not None:
            self.show_meal(done.record.id)

    def printout(self) -> QTextDocument | None:
        """The card on paper."""
        sheet = self.card.sheet
        return (
            document(sheet.meal.name, meal_page(sheet, self.session.style)) if sheet and sheet.meal.name else None
        )

    def print_card(self) -> None:
        """Show the card as it will be printed."""
        page = self.printout()
        if page is not None:
            preview_print(self, page)

    def _saved(self, meal: int) -> None:
        self._new = False
        self.both.give_way(False)
        self.list.refresh()
        self.list.choose(meal)
        self.pages.setCurrentWidget(self.both)
