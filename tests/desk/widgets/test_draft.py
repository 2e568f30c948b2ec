"""What is typed into one form is kept, and offered for the same thing."""

from __future__ import annotations

from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column
from dryhouse.desk.widgets.draft import KeptForm, described, keep_entries
from dryhouse.desk.widgets.fields import TextField


class SomeForm(QWidget):
    """One text."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.text = ""
        self.kept = KeptForm(session, "some", self, lambda: self.text, self.put)
        column(self).addWidget(self.kept.offer)

    def put(self, text: str) -> None:
        self.text = text

    def open(self, of: object = "", text: str = "") -> str:
        """Fill it in; answers what is offered."""
        self.kept.rest()
        self.text = text
        self.kept.shown(of)
        return "" if self.kept.offer.isHidden() else self.kept.offer.asked.text()


@pytest.fixture
def form(qtbot, session: Session) -> SomeForm:
    made = SomeForm(session)
    qtbot.addWidget(made)
    return made


def test_what_was_typed_is_offered_for_the_same_thing_and_no_other(form: SomeForm) -> None:
    assert form.open(3, "shelf") == ""
    form.text = "shelf dryer"
    assert form.open(4, "box") == ""
    assert form.open(3, "shelf") == "Go on with shelf dryer?"
    form.kept.offer.go_on.click()
    assert form.text == "shelf dryer"
    form.kept.saved()
    assert form.open(3, "shelf dryer") == ""


def test_what_is_typed_while_another_is_offered_is_kept_beside_it(form: SomeForm) -> None:
    form.open()
    form.text = "first"
    assert form.open() == "Go on with first?"
    form.text = "second"
    form.kept.offer.go_on.click()
    assert form.text == "first"
    assert form.open() == "Go on with first?"
    form.kept.offer.forget.click()
    assert form.open() == "Go on with second?"


def test_saving_what_was_typed_next_leaves_what_is_offered(form: SomeForm) -> None:
    form.open()
    form.text = "first"
    form.open()
    form.text = "second"
    form.kept.saved()
    assert form.open() == "Go on with first?"


def test_what_was_typed_and_put_back_as_it_was_is_no_draft(form: SomeForm, session: Session) -> None:
    form.open(3, "shelf")
    form.text = "shelf dryer"
    session.drafts.keep()
    form.text = "shelf"
    session.drafts.keep()
    assert session.drafts.book.get("some", "3") == []


def test_tab_comes_to_what_is_offered_before_the_first_entry(qtbot, session: Session) -> None:
    form = QWidget()
    qtbot.addWidget(form)
    first, second = TextField(session, "Name", name="name"), TextField(session, "Note", name="note")
    session.drafts.book.put("some", "", [{"name": "shelf dryer", "note": ""}])
    kept = keep_entries(session, "some", form, lambda: (first, second))
    inside = column(form)
    for widget in (kept.offer, second, first):  # not in the order they are made in
        inside.addWidget(widget)
    kept.shown()
    form.show()
    form.activateWindow()
    kept.offer.go_on.setFocus()
    qtbot.waitUntil(kept.offer.go_on.hasFocus)
    for after in (kept.offer.forget, first.edit):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        assert after.hasFocus()


@pytest.mark.parametrize(
    ("kept", "said"),
    [
        ({"notes": "crisp", "mass": "250 g", "food": "apple"}, "apple, 250 g"),
        ([{"name": "lake circuit", "people": "4"}, [[0, "Ann"]]], "lake circuit"),
        (["", "80 g"], "80 g"),
        ({"2 ": ""}, "what you had typed"),
    ],
)
def test_a_draft_is_called_by_what_it_is_and_how_much(kept: Any, said: str) -> None:
    assert described(kept) == said
