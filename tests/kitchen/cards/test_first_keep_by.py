"""The first keep-by of a batch: the published life at the published temperatures."""

from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.cards.first_keep_by import keep_by_figures
from dryhouse.kitchen.records import Batch
from tests.builders import a_kitchen


def days(food):
    figures = keep_by_figures(a_kitchen(), BatchDraft(Batch(food)))
    return {shown.caption: round(shown.figure.value) for shown in figures}


def test_fruit_and_vegetables_at_the_published_temperatures():
    assert days("apple") == {"Keeps at 60 °F (16 °C)": 365, "Keeps at 80 °F (27 °C)": 183}
    assert days("corn") == {"Keeps at 60 °F (16 °C)": 183, "Keeps at 80 °F (27 °C)": 91}


def test_dried_poultry_keeps_fourteen_days_in_a_room():
    assert 14 in days("turkey").values()
    assert max(days("turkey").values()) == 180
