"""A swap before it is made: what would stand in, and what changes for each serving."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QLineEdit

from dryhouse.desk.cautions import came_and_went
from dryhouse.desk.places.meals.ingredient_entry import IngredientEntry
from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, empty, inner_key, row, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.draft import KeptForm
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.meals.swaps import Difference, Swap, differences, preview_swap, swap_in_copy, swap_part
from dryhouse.kitchen.records import MealPart
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence

_PAUSE_MS = 80


class SwapView(QFrame):
    """Type what should stand in; the differences answer while typing, and nothing changes until asked."""

    done = Signal()
    copied = Signal(int)
    """The number of the meal that was made of it."""
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        set_role(self, "card")
        self.session = session
        self._part: MealPart | None = None
        self.swap: Swap | None = None
        self.title = text_label("", "heading")
        self.name = IngredientEntry(session, "Swap for")
        self.amount = QLineEdit()
        self.amount.setAccessibleName("Amount of the substitute")
        self.amount.setPlaceholderText("the same dry weight")
        self.sentence = text_label("", "small")
        self.cautions, self.gone = CautionsView(session, moment="pot"), text_label("")
        """What comes with the swap in full, and what goes by name."""
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(24)
        self.make = button("Make the s&wap", self.make_swap, "primary")
        self.copy = button("Swap in a copy", self.make_in_copy, hint="This meal stays as it is")
        inside = column(self, margin=16, space=8)
        inside.addWidget(self.title)
        inside.addLayout(row(self.name, self.amount, space=16))
        for widget in (self.sentence, self.cautions, self.gone):
            inside.addWidget(widget)
        inside.addLayout(self._grid)
        inside.addLayout(Wrapping(self.make, self.copy, button("Close", self.left.emit, hint="Esc"), 1))
        inner_key(self, "Esc", self.left.emit)
        self.kept = KeptForm(session, "swap", self, self._typed, self._put_back)
        inside.insertWidget(1, self.kept.offer)
        self.kept.offer.stand_before(self.name)
        self._pause = QTimer(self, singleShot=True, interval=_PAUSE_MS)
        self._pause.timeout.connect(self.reckon)
        self.name.settled.connect(self.reckon)
        self.name.textEdited.connect(lambda _t: self._pause.start())
        self.amount.textEdited.connect(lambda _t: self._pause.start())
        self.amount.returnPressed.connect(self.make_swap)

    def begin(self, part: MealPart) -> None:
        """Ask what should stand in for a part."""
        self.kept.rest()
        self._part, self.swap = part, None
        self.title.setText(f"Swap {part.name} for")
        self.name.clear()
        self.name.choice = None
        self.amount.clear()
        self._show("Such as beans or a soy crumble for meat, or a bought kind for a home-dried one.")
        self.kept.shown(part.id)
        self.name.setFocus()

    def _typed(self) -> list[str]:
        return [self.name.text().strip(), self.amount.text().strip()]

    def _put_back(self, kept: list[str]) -> None:
        self.name.setText(kept[0])
        self.name.settle()
        self.amount.setText(kept[1])
        self.reckon()

    def reckon(self) -> None:
        """Work the swap out from what stands there."""
        typed = self.name.choice.name if self.name.choice is not None else self.name.text().strip()
        if self._part is None or not typed:
            self.swap = None
            self._show("")
            return
        try:
            self.swap = preview_swap(self.session.kitchen, self._part.id, typed, self.amount.text())
        except InputProblem as problem:
            self.swap = None
            self._show(problem_sentence(problem, self.session.style))
            return
        self._show("What changes for each serving, and the cautions that come with it.")

    def make_swap(self) -> None:
        """Make it."""
        if self._part is None or self.swap is None:
            return
        if self.session.act(swap_part, self._part.id, self.swap.into.name, self.amount.text()) is not None:
            self.kept.saved()
            self.done.emit()

    def make_in_copy(self) -> None:
        """Make it in a meal of its own."""
        if self._part is not None and self.swap is not None:
            part, into = self._part.id, self.swap.into.name
            done = self.session.act(swap_in_copy, part, into, self.amount.text())
            if done is not None:
                self.kept.saved()
                self.done.emit()
                self.copied.emit(done.record.id)

    def _show(self, sentence: str) -> None:
        self.sentence.setText(sentence)
        for made in (self.make, self.copy):
            made.setEnabled(self.swap is not None)
        before, after = ((), ()) if self.swap is None else (self.swap.before.cautions, self.swap.after.cautions)
        came, gone = came_and_went(before, after)
        self.cautions.set_cautions(came)
        self.gone.setText("No longer said: " + "; ".join(dict.fromkeys(c.brief for c in gone)) + ".")
        self.gone.setVisible(bool(gone))
        empty(self._grid)
        if self.swap is None:
            return
        for n, head in enumerate(("", self.swap.out.name, self.swap.into.name, "Change")):
            self._grid.addWidget(text_label(head, "label", wrap=False), 0, n)
        for at, difference in enumerate(differences(self.swap.before, self.swap.after), start=1):
            for n, text in enumerate(self._told(difference)):
                self._grid.addWidget(text_label(text, wrap=False), at, n)

    def _told(self, difference: Difference) -> tuple[str, str, str, str]:
        style = self.session.style
        before, after = difference.before, difference.after
        change = ""
        if difference.change is not None and after is not None:
            sign = "+" if difference.change > 0 else "−" if difference.change < 0 else "±"
            change = f"{sign} {style.figure(replace(after, value=abs(difference.change)))}"
        return (
            difference.name.capitalize(),
            "—" if before is None else style.figure(before),
            "—" if after is None else style.figure(after),
            change,
        )
