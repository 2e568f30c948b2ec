"""Places and their temperatures."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.records import Place, PlaceTemperature
from dryhouse.kitchen.shelf.places import (
    add_place,
    edit_temperature,
    places,
    remove_place,
    remove_temperature,
    rename_place,
    set_temperature,
    temperatures,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Temperature
from tests.kitchen.shelf_room import CELLAR, FREEZER, NOW, PANTRY, a_batch, a_shelf, packed
from tests.rows import every_row


def numbered(kitchen):
    return {place.name: place.id for place in places(kitchen)}


def test_a_place_is_added_with_its_temperature():
    kitchen = a_shelf()
    done = add_place(kitchen, " boathouse  loft ", Temperature(25.0), humidity_pct=70)
    assert done.record.name == "boathouse loft"
    assert numbered(kitchen)["boathouse loft"] == done.record.id
    assert [t.temperature.si for t in temperatures(kitchen, done.record.id)] == [25.0]
    assert [p.name for p in places(kitchen)] == ["boathouse loft", "cellar", "freezer", "pantry"]


@every_row(
    ("call", "sentence"),
    [
        (lambda k: add_place(k, "Pantry"), "already a place"),
        (lambda k: add_place(k, "  "), "needs a name"),
        (lambda k: add_place(k, "oven", Temperature(90.0, "90 C")), "90 C is no temperature"),
        (lambda k: add_place(k, "loft", Temperature(20.0), humidity_pct=140), "Humidity"),
        (lambda k: add_place(k, "loft", Temperature(20.0), since=NOW + timedelta(days=9)), "from the future"),
        (lambda k: rename_place(k, 99, "x"), "no longer here"),
        (lambda k: set_temperature(k, 99, Temperature(20.0)), "no longer here"),
        (lambda k: remove_temperature(k, 99), "no longer here"),
        (lambda k: edit_temperature(k, PlaceTemperature(1, NOW, Temperature(20.0), id=99)), "no longer here"),
    ],
)
def test_what_cannot_be_right_is_refused(call, sentence):
    kitchen = a_shelf()
    with pytest.raises(InputProblem, match=sentence):
        call(kitchen)
    assert len(kitchen.journal.where(Place)) == 3


def test_a_place_lots_stood_in_stays():
    kitchen = a_shelf(a_batch())
    packed(kitchen, place=CELLAR)
    with pytest.raises(InputProblem, match="keep-by needs it"):
        remove_place(kitchen, CELLAR)
    done = remove_place(kitchen, FREEZER)
    assert temperatures(kitchen, FREEZER) == ()
    kitchen.journal.write(done.undone().changes)
    assert numbered(kitchen)["freezer"] == FREEZER
    assert temperatures(kitchen, FREEZER)


def test_a_temperature_of_the_same_moment_is_put_right_not_doubled():
    kitchen = a_shelf()
    set_temperature(kitchen, PANTRY, Temperature(24.0), since=NOW)
    set_temperature(kitchen, PANTRY, Temperature(25.0), since=NOW)
    assert [t.temperature.si for t in temperatures(kitchen, PANTRY)][1:] == [25.0]
    row = temperatures(kitchen, PANTRY)[-1]
    edit_temperature(kitchen, replace(row, temperature=Temperature(22.0)))
    remove_temperature(kitchen, row.id)
    assert len(temperatures(kitchen, PANTRY)) == 1


def test_a_place_may_keep_its_own_name_and_the_last_reading_of_several_counts():
    kitchen = a_shelf()
    assert rename_place(kitchen, PANTRY, " PANTRY ").record.name == "PANTRY"
    set_temperature(kitchen, PANTRY, Temperature(24.0), since=NOW - timedelta(days=2), humidity_pct=60)
    assert temperatures(kitchen, PANTRY)[-1].humidity_pct == 60
    assert add_place(kitchen, "attic").record.name == "attic"
    assert temperatures(kitchen, numbered(kitchen)["attic"]) == ()
    since = NOW - timedelta(days=5)
    loft = add_place(kitchen, "loft", Temperature(25.0), since=since).record.id
    assert temperatures(kitchen, loft)[0].since == since


def test_a_place_is_renamed():
    kitchen = a_shelf()
    rename_place(kitchen, PANTRY, "larder")
    assert numbered(kitchen)["larder"] == PANTRY
