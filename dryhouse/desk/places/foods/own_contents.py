"""What is in a food of her own, to be answered or put right on its page."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.own_food_ask import ContainsEntry
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.foods.own_foods import ReallyPlant, contents_of_food, say_contents
from dryhouse.kitchen.records import OwnFood
from dryhouse.words.messages import problem_sentence


class OwnContents(QWidget):
    """Shown for her own foods only. Ticking says nothing yet; the button does."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._slug = ""
        self._asked_again: tuple[str, ...] | None = None
        self.contains = ContainsEntry()
        self.sentence = text_label("", "small")
        self.save_button = button("Say what is in it", self.save)
        inside = column(self, space=6)
        inside.addWidget(self.contains)
        inside.addWidget(self.sentence)
        inside.addLayout(row(self.save_button, 1))
        self.contains.accepted.connect(self.save)

    def show_food(self, known: Food | None) -> None:
        """The answers recorded of this food; hidden for a food of the handbook."""
        kitchen = self.session.kitchen
        own = known is not None and bool(kitchen.journal.where(OwnFood, slug=known.slug))
        self.setVisible(own)
        if known is None or not own:
            return
        self._slug, self._asked_again = known.slug, None
        said = contents_of_food(kitchen, known.slug)
        self.contains.set_value(said)
        self.sentence.setText("" if said else "Nobody has said yet; it is treated as food from an animal.")

    def save(self) -> None:
        """Record the answers. A name that sounds like an animal's is asked about once more."""
        said = self.contains.value()
        done = self.session.act(say_contents, self._slug, said, really_plant=self._asked_again == said)
        if done is None and isinstance(self.session.problem, ReallyPlant):
            self._asked_again = said
            self.sentence.setText(
                f"{problem_sentence(self.session.problem, self.session.style)} If so, press the button once more."
            )
            self.session.told_beside(self.session.problem)
