"""Two programs on one journal, met in a real window: what the other saved is seen, and what is typed here stays."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit

from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.science.quantities import Mass
from tests.journeys.test_every_form_by_keyboard import FORMS, drying, journal, meals


@pytest.fixture
def other(person):
    """The same journal, open to write in another program."""
    opened = open_journal(person.session.kitchen.journal.path, write=True)
    yield opened
    opened.close()


def log_elsewhere(other):
    """A batch from another program, and a weighing of each that is drying."""
    batch = Batch("corn", notes="from the command line", id=other.next_id(Batch))
    weighed = [
        Weighing(batch.id, datetime.now(UTC), Mass(400.0), id=other.next_id(Weighing))
        for batch in other.where(Batch, state="drying")
    ]
    other.write([Change(None, record) for record in (batch, *weighed)])
    return batch


def meal_card(person):
    meals(person).show_record("meal", 1)
    return person.window.views["meals"].meals.card


def own_figure(person):
    person.window.go("handbook")
    page = person.window.views["handbook"].page
    page.own_fold.open()
    return page.own


TO_CHOOSE_FROM = {"wrong move"}
"""Forms without a line to type in."""
EVERY_FORM = {**FORMS, "reading": drying, "meal": meal_card, "own figure": own_figure}


def entries(form):
    return [e for e in form.findChildren(QLineEdit) if e.isVisible() and e.isEnabled() and not e.isReadOnly()]


def test_what_another_program_saves_is_listed_here_within_moments(person, other, qtbot):
    listing = journal(person).listing
    before = listing.table.model().rowCount()
    log_elsewhere(other)
    qtbot.waitUntil(lambda: listing.table.model().rowCount() == before + 1, timeout=10_000)


def test_nothing_typed_into_any_form_is_lost_when_another_program_saves(person, other, qtbot):
    lost = []
    for name in [name for name in EVERY_FORM if name not in TO_CHOOSE_FROM]:
        for _ in range(2):
            person.press(Qt.Key.Key_Escape)
        form = EVERY_FORM[name](person)
        QApplication.processEvents()
        fields = entries(form)
        assert fields, name
        for number, field in enumerate(fields):
            field.setText(f"{number + 1} typed")
        log_elsewhere(other)
        person.session.look_elsewhere()
        qtbot.wait(150)
        said = [(field.isVisible(), field.text()) for field in fields]
        if said != [(True, f"{number + 1} typed") for number in range(len(fields))]:
            lost.append((name, said))
    assert not lost


def test_a_batch_changed_elsewhere_while_it_is_edited_here_is_told_and_the_entries_stay(person, other):
    form = FORMS["change a batch"](person)
    shown = form.editing
    changed = replace(shown, notes="crisp")
    other.write([Change(shown, changed)])
    form.entries.fields["fresh"].edit.setText("3 lb 4 oz")
    form.save()
    assert f"Batch {shown.id} has changed since you opened it here" in person.session.messages.latest.text
    assert person.session.kitchen.journal.get(Batch, shown.id) == changed
    assert form.isVisible()
    assert form.entries.fields["fresh"].text() == "3 lb 4 oz"
    form.save()
    saved = person.session.kitchen.journal.get(Batch, shown.id)
    assert saved.prepared_mass.typed == "3 lb 4 oz"
    assert other.get(Batch, shown.id) == saved
