"""The entry for a food: a list of what could be meant opens while typing; Enter or Tab takes the best."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QSignalBlocker, QStringListModel, Qt, Signal
from PySide6.QtWidgets import QCompleter

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.fields import Field
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.catalog import find_foods, food
from dryhouse.science.errors import InputProblem


class FoodField(Field):
    """Answers a `Food`, handbook's or own. `chosen` fires once a food is settled on, not at every letter."""

    chosen = Signal(object)

    def __init__(
        self, session: Session, label: str = "Food", *, hint: str = "such as sweet corn", name: str = "food"
    ) -> None:
        self._offered: list[Food] = []
        self._settled = ""
        super().__init__(session, label, hint=hint, name=name)
        self._names = QStringListModel(self)
        completer = QCompleter(self._names, self)
        completer.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.popup().setAccessibleName("Foods that could be meant")
        completer.activated.connect(self._take)
        self.edit.setCompleter(completer)
        self.edit.textEdited.connect(self._offer)
        self.edit.editingFinished.connect(self._settle)

    def read(self, text: str) -> Food:
        for known in self._offered:
            if known.name.casefold() == text.casefold():
                return food(self.session.kitchen, known.slug)
        try:
            return food(self.session.kitchen, text)
        except InputProblem as problem:
            raise InputProblem(problem.sentence, self.name) from None

    def write(self, value: Food | str) -> str:
        return value.name if isinstance(value, Food) else food(self.session.kitchen, value).name

    def echo(self, value: Food, text: str) -> str:
        return "" if value.name.casefold() == text.casefold() else f"= {value.name}"

    def set_value(self, value: Food | str | None) -> None:
        """A food, its slug, or None; nothing is announced."""
        with QSignalBlocker(self):
            super().set_value(value)
        settled = self.value()
        self._settled = settled.slug if settled else ""

    def offers(self) -> bool:
        """Whether any food could be meant by what was typed."""
        return bool(self._offered)

    def _offer(self, text: str) -> None:
        self._offered = find_foods(self.session.kitchen, text) if text.strip() else []
        self._names.setStringList([f.name for f in self._offered])

    def _take(self, name: str) -> None:
        self.edit.setText(name)
        self._settle()

    def _settle(self) -> None:
        """Take what stands there; where it is not yet a food, the best that could be meant."""
        if self.value() is None and self._offered and self.text():
            self.edit.setText(self._offered[0].name)
        settled = self.value()
        slug = settled.slug if settled else ""
        if slug != self._settled:
            self._settled = slug
            self.chosen.emit(settled)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.edit and event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Tab:
            self._settle()
        return super().eventFilter(watched, event)
