"""Her own foods and figures: none takes the place, the name or the kind of another food."""

from dataclasses import replace

from dryhouse.kitchen.records import Dryer, OwnFigure, OwnFood
from dryhouse.science.quantities import Temperature
from tests.kitchen.records.judging import fields, said
from tests.rows import every_row

STEW = OwnFood("stew", "paddlers' stew", "mixed", contains="plant", id=1)


@every_row(
    ("change", "wrong"),
    [
        ({}, []),
        ({"contains": ""}, []),
        ({"contains": "plant;meat"}, []),
        ({"contains": "unknown"}, []),
        ({"slug": "turkey", "name": "Turkey", "category": "vegetable", "contains": ""}, ["name"]),
        ({"slug": "a b"}, ["slug"]),
        ({"name": " "}, ["name"]),
        ({"category": "plant"}, ["category"]),
        ({"category": "MEAT"}, ["category"]),
        ({"category": "Vegetable"}, ["category"]),
        ({"category": ""}, ["category"]),
        ({"contains": "tofurkey"}, ["contains"]),
        ({"like": "moon rock"}, ["like"]),
        ({"name": "ground beef", "category": "vegetable"}, ["contains"]),
        ({"other_names": "the pot;turkey breast"}, ["contains"]),
        ({"category": "poultry"}, ["contains"]),
        ({"like": "turkey"}, ["contains"]),
        ({"name": "ground beef", "contains": "meat"}, []),
        ({"name": "ground beef", "category": "vegetable", "contains": ""}, []),
    ],
)
def test_an_own_food_is_what_it_says_and_no_other(change, wrong):
    assert fields(replace(STEW, **change)) == wrong


def test_a_food_of_the_handbook_keeps_its_place():
    ((_, sentence),) = said(OwnFood("turkey", "Turkey", "vegetable", id=1))
    assert "take the place of a food of the handbook" in sentence


@every_row(
    ("figure", "wrong"),
    [
        (OwnFigure("corn", "water", 76.0, "%"), []),
        (OwnFigure("stew", "water", 76.0, "%"), []),
        (OwnFigure("moon rock", "water", 76.0, "%"), ["food"]),
        (OwnFigure("corn", "luck", 76.0, "%"), ["name"]),
        (OwnFigure("corn", "water", 76.0, "g"), ["unit"]),
        (OwnFigure("corn", "water", 140.0, "%"), ["value"]),
        (OwnFigure("corn", "water", 100.0, "%"), ["value"]),
        (OwnFigure("corn", "energy", -1.0, "kcal/100 g"), ["value"]),
    ],
)
def test_a_figure_is_one_a_food_has_and_can_be(figure, wrong):
    assert fields(figure, STEW) == wrong


def test_a_dryer_is_not_hotter_at_its_lowest():
    assert fields(Dryer("box", 6, temperature_low=Temperature(70.0), temperature_high=Temperature(40.0))) == [
        "temperature_low"
    ]
