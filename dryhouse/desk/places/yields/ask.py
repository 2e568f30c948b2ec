"""The line one types into, which way it goes, and which batches count: form and pretreatment."""

from __future__ import annotations

import re
from functools import partial

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QButtonGroup, QLineEdit, QPushButton, QSizePolicy, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, empty, fill, row, text_label
from dryhouse.desk.widgets.fields import ChoiceField
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.yields.typed_line import YieldLine
from dryhouse.kitchen.yields.yields import DRIED, FRESH, Direction

ANY = "any"
_WORDS = {
    FRESH: re.compile(r"\b(dried|dry)\b", re.IGNORECASE),
    DRIED: re.compile(r"\b(fresh|raw)\b", re.IGNORECASE),
}
_MOST_OTHERS = 4


class AskBar(QWidget):
    """`changed` fires at every letter and every choice; `entered` when Enter is pressed in the line."""

    changed = Signal()
    entered = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._chosen: Direction = FRESH
        """The way chosen by hand; a word in the line goes before it as long as it stands there."""
        self.line = QLineEdit()
        self.line.setAccessibleName("Food and amount")
        self.line.setPlaceholderText("corn 1 cup")
        self.line.setClearButtonEnabled(True)
        label = text_label("Food and amount", "label", wrap=False)
        label.setBuddy(self.line)
        self.understood = text_label("", "small")
        self.understood.setMinimumHeight(self.understood.fontMetrics().height() + 2)
        self.ways = QButtonGroup(self)
        self.to_dried = self._way("Fresh → dried", "I have so much fresh food; how much dried does it give?")
        self.to_fresh = self._way("Dried wanted → fresh", "I want so much dried food; how much fresh does it take?")
        self.to_dried.setChecked(True)
        self.form = ChoiceField(session, "Form", [("", ANY)])
        self.pretreatment = ChoiceField(session, label_of(Batch, "pretreatment"), [("", ANY)])
        self._others = Wrapping()
        self._shown_others: tuple[str, ...] = ()
        asked, which = QWidget(), QWidget()
        asked.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        hold(asked, least_wide=300)
        fill(column(asked, space=3), label, self.line, self.understood)
        fill(
            column(which, space=3),
            text_label("Which way", "label", wrap=False),
            row(self.to_dried, self.to_fresh, space=4),
            1,
        )
        self._choices = QWidget()
        self._choices.setLayout(row(self.form, self.pretreatment, space=16))
        across = Wrapping(asked, which, self._choices, space=16)
        inside = column(self, space=0)
        inside.addLayout(across)
        inside.addLayout(self._others)
        self.set_choices((), ())
        self.setFocusProxy(self.line)
        self.line.textChanged.connect(lambda _text: self.changed.emit())
        self.line.returnPressed.connect(self.entered)
        self.ways.buttonClicked.connect(lambda _button: self._chose_way())
        for choice in (self.form, self.pretreatment):
            hold(choice.box, least_wide=120)
            choice.sentence.hide()
            choice.changed.connect(self.changed)

    @property
    def direction(self) -> Direction:
        """Which way is asked for."""
        return FRESH if self.to_dried.isChecked() else DRIED

    def turn_round(self) -> None:
        """Ask the other way."""
        (self.to_fresh if self.direction == FRESH else self.to_dried).setChecked(True)
        self._chose_way()

    def follow(self, line: YieldLine) -> None:
        """Let the line choose the way where it names one, and say how it was understood."""
        wanted = line.direction or self._chosen
        if wanted != self.direction:
            (self.to_dried if wanted == FRESH else self.to_fresh).setChecked(True)
        style = self.session.style
        parts = []
        if line.food is not None and line.food.name.casefold() != line.words.casefold():
            parts.append(line.food.name)
        if line.amount is not None:
            state = "fresh, prepared" if self.direction == FRESH else "dried"
            parts.append(f"{style.show(line.amount)} {state}")
        said = line.hint or ("= " + ", ".join(parts) if parts else "")
        if line.hint and parts:
            said = f"= {', '.join(parts)}.  {line.hint}"
        self.understood.setText(said)
        self.line.setAccessibleDescription(said)
        self._offer(line)

    def clear_choices(self) -> None:
        """Any form and any pretreatment; nothing is announced."""
        for choice in (self.form, self.pretreatment):
            with QSignalBlocker(choice):
                choice.set_value("")

    def set_choices(self, forms: tuple[str, ...], pretreatments: tuple[str, ...]) -> None:
        """The forms and pretreatments known of the food; nothing is announced."""
        for choice, known in ((self.form, forms), (self.pretreatment, pretreatments)):
            with QSignalBlocker(choice):
                choice.set_choices([("", ANY), *((k, k) for k in known)])
            choice.setVisible(bool(known))
        self._choices.setVisible(bool(forms or pretreatments))

    def _way(self, text: str, hint: str) -> QPushButton:
        made = button(text, lambda: None, hint=f"{hint}  (Ctrl+R swaps)")
        made.setCheckable(True)
        self.ways.addButton(made)
        return made

    def _chose_way(self) -> None:
        """A way chosen by hand wins over the word in the line: the word is changed with it."""
        self._chosen = self.direction
        word = "dried" if self.direction == DRIED else "fresh"
        text = _WORDS[self.direction].sub(word, self.line.text())
        if text != self.line.text():
            self.line.setText(text)
        else:
            self.changed.emit()

    def _offer(self, line: YieldLine) -> None:
        others = tuple(f.name for f in line.others[:_MOST_OTHERS])
        exact = line.food is not None and line.words.casefold() in (
            line.food.name.casefold(),
            line.food.slug,
            *(n.casefold() for n in line.food.other_names),
        )
        others = () if exact else others
        asked = "Which food?" if line.food is None else "Or did you mean"
        if (asked, *others) == self._shown_others:
            return
        self._shown_others = (asked, *others)
        empty(self._others)
        if others:
            self._others.addWidget(text_label(asked, "muted", wrap=False))
            for name in others:
                chosen = button(name, partial(self._take, name), "quiet", name=f"Take {name} instead")
                self._others.addWidget(chosen)

    def _take(self, name: str) -> None:
        """Put another food into the line, the amount kept."""
        from dryhouse.kitchen.yields.typed_line import read_line

        typed = self.line.text()
        said = read_line(self.session.kitchen, typed, decimal_comma=self.session.style.decimal_comma)
        kept = [w for w in typed.split() if w.strip(",;:").casefold() not in said.words.casefold().split()]
        self.line.setText(" ".join([name, *kept]))
        self.line.setFocus()
