"""The entry for a food: what could be meant is offered while typing, and nothing typed is replaced by a guess.

A name is taken as it is listed, or one clear letter away. Any other stays as typed and is asked about: the list
offers what is near, and at its end to log it as a food of her own.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QModelIndex, QObject, QSignalBlocker, QStringListModel, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QCompleter

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button
from dryhouse.desk.widgets.fields import Field
from dryhouse.desk.widgets.own_food_ask import OwnFoodAsk
from dryhouse.handbook.finder import WhichFood
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.catalog import find_foods, food
from dryhouse.science.errors import InputProblem

_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_TABS = (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)


class FoodField(Field):
    """Answers a `Food`, handbook's or own. `chosen` fires once a food is settled on, not at every letter."""

    chosen = Signal(object)

    def __init__(
        self,
        session: Session,
        label: str = "Food",
        *,
        hint: str = "such as sweet corn",
        name: str = "food",
        own: bool = True,
    ) -> None:
        """`own` is whether a name that is not known may be added as a food of her own from here."""
        self._offered: list[Food] = []
        self._settled = ""
        self._own = own
        self.own_category = ""
        """The kind an own food gets that is added from here, where it is plain; a mix, say."""
        super().__init__(session, label, hint=hint, name=name)
        self._names = QStringListModel(self)
        self.offers_list = QCompleter(self._names, self)
        self.offers_list.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
        self.offers_list.setWidget(self.edit)
        self.edit.removeEventFilter(self)
        self.edit.installEventFilter(self)  # before the list's own, which keeps from the entry that it is left
        popup = self._popup()
        popup.setAccessibleName("Foods that could be meant")
        popup.installEventFilter(self)
        popup.clicked.connect(self._pick)
        self.add_own = button("Log it as my own food", self.ask_own, "quiet")
        self.ask: OwnFoodAsk | None = None
        self._inside.insertWidget(self._inside.count() - 1, self.add_own, 0, Qt.AlignmentFlag.AlignLeft)
        self.add_own.hide()
        self.edit.textEdited.connect(self._offer)
        self.edit.textChanged.connect(lambda _text: self._show_own())
        self.edit.editingFinished.connect(self._settle)

    def read(self, text: str) -> Food:
        for known in self._offered:
            if known.name.casefold() == text.casefold():
                return food(self.session.kitchen, known.slug)
        try:
            return food(self.session.kitchen, text)
        except WhichFood as asked:
            raise InputProblem(f"Which food is “{asked.typed}”? {self._how_to_answer()}", self.name) from None
        except InputProblem as problem:
            raise InputProblem(problem.said, self.name) from None

    def _how_to_answer(self) -> str:
        pick = "Pick one with the down arrow" if self._offered else "Check the spelling"
        return f"{pick}, or add it as your own." if self._own else f"{pick}."

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
        self._show_own()

    def show_text(self, text: str) -> None:
        """Put words into the entry as if typed and left; nothing is announced."""
        self._offered = find_foods(self.session.kitchen, text) if text.strip() else []
        with QSignalBlocker(self):
            self.edit.setText(text)
            self._left = bool(text)
            self._judge()
        settled = self.value()
        self._settled = settled.slug if settled else ""

    def offers(self) -> bool:
        """Whether any food could be meant by what was typed."""
        return bool(self._offered)

    def require(self, sentence: str) -> bool:
        """Whether there is a food; if not, the entry asks which, with the offers open."""
        there = super().require(sentence)
        if not there and self.text():
            self._open_offers()
        return there

    # --- offering ---------------------------------------------------------------------------------------

    def _offer(self, text: str) -> None:
        self._offered = find_foods(self.session.kitchen, text) if text.strip() else []
        self._judge()
        self._open_offers()

    def _open_offers(self) -> None:
        self.session.theme.dress(self._popup())
        text = self.text()
        listed = [known.name for known in self._offered]
        if self._may_be_own():
            listed.append(self._own_line(text))
        self._names.setStringList(listed)
        if listed and self.edit.isVisible():
            self.offers_list.complete()
            self._popup().setCurrentIndex(QModelIndex())
        else:
            self._popup().hide()

    def _popup(self) -> QAbstractItemView:
        """The list of offers, which the completer makes for the entry."""
        popup = self.offers_list.popup()
        assert popup is not None
        return popup

    def _own_line(self, text: str) -> str:
        return f"Log it as “{text}”, my own food…"

    def _may_be_own(self) -> bool:
        return self._own and self.value() is None and len(self.text()) > 1

    def _pick(self, index: QModelIndex) -> None:
        """Take the line of the list that was chosen, and nothing more."""
        line = index.row()
        self._popup().hide()
        if line < len(self._offered):
            self.edit.setText(self._offered[line].name)
            self._settle()
            self.edit.setFocus()
        else:
            self.ask_own()

    # --- settling ---------------------------------------------------------------------------------------

    def _settle(self) -> None:
        """Announce what stands there, where it is another food than before. What is not known stays as typed."""
        settled = self.value()
        slug = settled.slug if settled else ""
        self._show_own()
        if slug != self._settled:
            self._settled = slug
            self.chosen.emit(settled)

    def _show_own(self) -> None:
        offered = self._may_be_own() and self._left
        self.add_own.setVisible(offered)
        self.add_own.setText(f"Log it as “{self.text()}”, my own food")
        if self.ask is not None and self.ask.isVisible() and self.ask.name != " ".join(self.text().split()):
            self.ask.hide()

    def ask_own(self) -> None:
        """Ask what is in it, to add it as a food of her own."""
        if self.ask is None:
            self.ask = OwnFoodAsk(self.session)
            self._inside.insertWidget(self._inside.count() - 1, self.ask)
            self.ask.added.connect(self._take_own)
            self.ask.left.connect(self._leave_own)
        self.ask.ask(self.text(), self.own_category)

    def _take_own(self, slug: str) -> None:
        self.set_value(slug)
        self._settled = ""
        self.edit.setFocus()
        self._settle()

    def _leave_own(self) -> None:
        if self.ask is not None:
            self.ask.hide()
        self.edit.setFocus()

    # --- keys ---------------------------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if watched is self.edit and event.key() in _TABS:
                self._settle()
            if watched is self.edit and event.key() in _ENTER and self.text() and self.value() is None:
                self._ask_which()
                return True
            if watched is self._popup() and event.key() in (*_ENTER, *_TABS):
                return self._popup_key(event)
        leaving = watched is self.edit and event.type() == QEvent.Type.FocusOut
        if leaving and isinstance(event, QFocusEvent) and event.reason() != Qt.FocusReason.PopupFocusReason:
            self._popup().hide()
        found = super().eventFilter(watched, event)
        if leaving:
            self._show_own()
        return found

    def _popup_key(self, event: QKeyEvent) -> bool:
        """Enter or Tab on a line takes it; with no line chosen they mean what they mean in the entry."""
        popup = self._popup()
        chosen = popup.currentIndex()
        if chosen.isValid():
            self._pick(chosen)
        else:
            popup.hide()
        if event.key() in _TABS and self.edit.hasFocus():
            self._settle()
            self.edit.event(event)
        elif event.key() in _ENTER and not chosen.isValid():
            self._ask_which() if self.text() and self.value() is None else self.edit.event(event)
        return True

    def _ask_which(self) -> None:
        """Enter on a name that is not known: the question is asked, and the keyboard stays here."""
        self._left = True
        self._show()
        self._show_own()
        self._open_offers()
