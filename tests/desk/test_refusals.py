"""A refusal is told once: beside its entry where it has one, in the bar where it has none."""

import pytest
from PySide6.QtWidgets import QApplication

from dryhouse.kitchen.records import Batch, Meal
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.science.quantities import Mass
from tests.builders import NOW, a_kitchen
from tests.desk.conftest import BOX, SHELF, a_batch
from tests.journeys.words_counted import texts

RUNNING = Batch("apple", state=DRYING, dryer=1, trays=4, started=NOW, prepared_mass=Mass(1000.0, "1000 g"), id=9)


@pytest.fixture
def kitchen():
    return a_kitchen(SHELF, BOX, a_batch(1), RUNNING, Meal("camp stew", id=1))


def scale(window):
    strip = window.go("drying").strips[9]
    QApplication.processEvents()
    strip.reading.edit.setText("3 kg")
    strip.weigh()
    return strip.entry.question.text()


def own_figure(window):
    place = window.go("handbook")
    place.show_record("food", "corn")
    own = place.page.own
    own.choose("water")
    own.value.edit.setText("140")
    own.save()
    return own.value.sentence.text()


def ingredient(window):
    card = window.go("meals").meals.card
    row = card.parts.first_empty()
    row.name.setText("carrot")
    row.name.settle()
    row.amount.setText("a few")
    card.save()
    return card.parts.problems()[0]


def nothing_to_pack(window):
    form = window.go("shelf")
    form.pack()
    form._pack.batch.set_choices([])
    form._pack.save()
    return "Choose the batch to pack."


@pytest.mark.parametrize("refused", [scale, own_figure, ingredient, nothing_to_pack], ids=lambda act: act.__name__)
def test_it_stands_beside_the_entry_and_not_in_the_bar(window, refused):
    said = refused(window)
    told = [text for text, _seen in texts(window.view(window.here)) if said in text]
    assert len(told) == 1, (said, told)
    assert not window._bar.isVisible()
