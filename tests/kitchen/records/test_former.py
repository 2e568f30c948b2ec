"""How words written before there was a choice are read."""

from dryhouse.kitchen.exchange.cells import from_cells
from dryhouse.kitchen.exchange.formats import from_json
from dryhouse.kitchen.records import Batch, Lot, Meal, OwnFood
from dryhouse.kitchen.records.batches import PRECOOK_METHODS
from dryhouse.kitchen.records.former import notes_with, precook_of
from tests.rows import every_row


@every_row(
    ("words", "method"),
    [
        ("steamed", "simmered or steamed"),
        ("Steamed 12 min", "simmered or steamed"),
        ("boiled till tender", "simmered or steamed"),
        ("simmered 1 h", "simmered or steamed"),
        ("roasted", "roasted in an oven"),
        ("oven roasted at 350 F", "roasted in an oven"),
        ("roasted in the oven", "roasted in an oven"),
        ("pan roasted", "other"),
        ("roasted in the dryer", "other"),
        ("not boiled", "other"),
        ("steamed or roasted", "other"),
        ("boiled? maybe", "other"),
        ("half steamed", "other"),
        ("browned, fat rinsed off", "other"),
        ("pressure-cooked", "other"),
        ("as always", "other"),
        ("", ""),
        ("  ", ""),
        *((method, method) for method in PRECOOK_METHODS),
    ],
)
def test_words_become_a_method_only_where_they_cannot_mean_another(words, method):
    assert precook_of(words) == method


def test_no_word_is_lost_and_a_method_is_not_written_twice():
    assert notes_with("", "browned") == "Cooked first: browned."
    assert notes_with("Windy.", "browned") == "Windy. Cooked first: browned."
    assert notes_with("Windy.", "other") == "Windy."
    assert notes_with("Windy.", "") == "Windy."


def test_an_export_of_the_first_version_reads_as_its_journal_opens():
    old = {"food": "turkey", "precook_method": "steamed", "notes": "Windy."}
    batch = from_json(Batch, old, "entry 1")
    assert (batch.precook_method, batch.notes) == ("simmered or steamed", "Windy. Cooked first: steamed.")
    lot = {"food": "mango", "packed_on": "2026-06-20", "bought_keep_by": "2027-02-28"}
    assert from_json(Lot, lot, "entry 1").origin == "bought"
    assert from_json(Lot, {**lot, "batch": 3}, "entry 1").origin == "home"
    assert from_cells(Lot, {**lot, "batch": ""}, "line 2").origin == "bought"
    assert from_cells(Lot, {**lot, "batch": "3"}, "line 2").origin == "home"
    assert (
        from_json(OwnFood, {"slug": "duck", "name": "duck", "category": "poultry"}, "entry 1").contains == "poultry"
    )
    assert from_json(OwnFood, {"slug": "x", "name": "x", "category": "vegetable"}, "entry 1").contains == ""
    stew = {"name": "stew", "servings": 2.0, "cooking": "simmer"}
    assert from_json(Meal, stew, "entry 1").cooking == "short soak"


def test_what_says_its_origin_keeps_it():
    lot = {"food": "mango", "packed_on": "2026-06-20", "bought_keep_by": "2027-02-28", "origin": "home"}
    assert from_json(Lot, lot, "entry 1").origin == "home"
