"""The entry for an ingredient: home-dried foods and bought staples offered while typing, and its amount."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QStringListModel, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCompleter, QLineEdit

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_mark
from dryhouse.kitchen.meals.ingredients import LABEL, Choice, find_ingredients, identify_ingredient
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence


class IngredientEntry(QLineEdit):
    """A name and, behind it, the one thing it means. `settled` fires when that changes.

    What nobody here knows is taken as it is, by its own label.
    """

    settled = Signal()

    def __init__(self, session: Session, name: str) -> None:
        super().__init__()
        self.session = session
        self.choice: Choice | None = None
        self.problem = ""
        self._offered: list[Choice] = []
        self.setAccessibleName(name)
        self.setPlaceholderText("carrot")
        self._names = QStringListModel(self)
        completer = QCompleter(self._names, self)
        completer.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        if (popup := completer.popup()) is not None:
            popup.setAccessibleName("Ingredients that could be meant")
        completer.activated.connect(self._take)
        self.setCompleter(completer)
        self.textEdited.connect(self._offer)
        self.editingFinished.connect(self.settle)
        self.installEventFilter(self)

    def set_choice(self, choice: Choice) -> None:
        """Show a choice; nothing is announced."""
        self.choice, self.problem = choice, ""
        self.setText(choice.name)
        self.setCursorPosition(0)

    def settle(self) -> None:
        """Take what stands there: the one of that name. What several things could be called is asked about."""
        text = self.text().strip()
        before = self.choice
        self.choice, self.problem = (None, "") if not text else self._meant(text)
        if self.choice is not None and self.choice != before:
            self.setText(self.choice.name)
            self.setCursorPosition(0)
        set_mark(self, "wrong", "true" if self.problem else "false")
        if self.choice != before or self.problem:
            self.settled.emit()

    def _meant(self, text: str) -> tuple[Choice | None, str]:
        if self.choice is not None and self.choice.name.casefold() == text.casefold():
            return self.choice, ""
        key = text.casefold()
        label = next((c for c in self._offered if key == c.label.casefold()), None) or next(
            (c for c in self._offered if key == c.name.casefold() and c.kind != LABEL), None
        )
        if label is not None:
            return label, ""
        try:
            return identify_ingredient(self.session.kitchen, text), ""
        except InputProblem as problem:
            if any(c.kind != LABEL for c in self._offered) or not self._offered:
                return None, problem_sentence(problem, self.session.style)
            return self._offered[0], ""

    def _offer(self, text: str) -> None:
        if (popup := self.completer().popup()) is not None:
            self.session.theme.dress(popup)
        known = find_ingredients(self.session.kitchen, text) if text.strip() else []
        own = [Choice(LABEL, "", " ".join(text.split()))] if text.strip() else []
        self._offered = [*known, *own]
        self._names.setStringList([c.label for c in self._offered])

    def _take(self, label: str) -> None:
        self.setText(label)
        self.settle()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Tab:
            self.settle()
        return super().eventFilter(watched, event)
