"""Entries of a lot that are never answered beforehand: where it goes, and whether it is in oil."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QFrame

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, row, text_label
from dryhouse.desk.widgets.fields import ChoiceField
from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.records.lots import PACKAGES
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.shelf.places import places
from dryhouse.science.errors import InputProblem


class PlaceField(ChoiceField):
    """Where something goes. The place decides how long it keeps, so nobody but the person chooses it."""

    def __init__(self, session: Session, title: str = "Place") -> None:
        super().__init__(session, title, name="place")
        self.offer()

    def offer(self) -> None:
        """Offer the places there are, with none of them chosen."""
        known = [(p.id, p.name[:1].upper() + p.name[1:]) for p in places(self.session.kitchen)]
        self.set_choices([(None, "Choose a place" if known else "No place yet"), *known])
        self.set_value(None)

    def require(self) -> bool:
        """Whether a place is chosen, where there is one to choose; if not, the entry asks."""
        if self.value() is not None or self.box.count() == 1:
            return True
        self.show_problem(
            InputProblem("Where does it go? Choose a place: how long it keeps depends on it.", "place")
        )
        return False


class NoPlaces(QFrame):
    """Says, while there is no place yet, why one is needed, and has the button that adds it."""

    def __init__(self, session: Session, add: Callable[[], Any]) -> None:
        super().__init__()
        self.session = session
        set_role(self, "card")
        said = text_label("There is no place yet: how long food keeps depends on where it stands.", "label")
        self.button = button("Add a p&lace", add)
        across = row(space=8)
        across.addWidget(said, 1)
        across.addWidget(self.button)
        across.setContentsMargins(12, 8, 12, 8)
        self.setLayout(across)

    def look(self) -> None:
        """Show it only while there is none."""
        self.setVisible(not places(self.session.kitchen))


class KindField(ChoiceField):
    """What it is packed in. Nothing is chosen beforehand: a stop may rest on it."""

    def __init__(self, session: Session, title: str = "Package") -> None:
        kinds = [(None, "Choose a package"), *((p, p.capitalize()) for p in PACKAGES)]
        super().__init__(session, title, kinds, name="package")

    def require(self) -> bool:
        """Whether one is chosen; if not, the entry asks."""
        if self.value() is not None:
            return True
        self.show_problem(InputProblem("What is it packed in? Choose a package.", "package"))
        return False


def in_oil_field(session: Session) -> ChoiceField:
    """Whether it is packed in oil; nothing is said beforehand."""
    answers = ((None, "Not recorded"), (False, "No"), (True, "Yes"))
    return ChoiceField(session, label_of(Lot, "in_oil"), answers, name="in_oil")
