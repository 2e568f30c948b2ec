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


TAKES = (
    "would take the place of a food of the handbook (turkey); give it another name, or enter figures for that food."
)
PLANTS_ONLY = "“paddlers' stew” is said to be of plants only, but its kind says otherwise; choose one."
IS_ONE = "say what is in it, or rename it."


@every_row(
    ("change", "told"),
    [
        ({"slug": "a b"}, ["“a b” cannot be the short name of a food."]),
        ({"slug": "turkey"}, [f"“paddlers' stew” {TAKES}"]),
        (
            {"category": "stone"},
            [
                "“stone” is no kind of food here; choose one of "
                "vegetable, fruit, herb, mushroom, legume, grain, meat, poultry, fish, egg, dairy, mixed, other."
            ],
        ),
        ({"like": "moon rock"}, ["“moon rock” is not a food of the handbook."]),
        ({"like": "corn"}, []),
        (
            {"contains": "plant;tofu;sand"},
            [
                "“tofu” is nothing a food contains here; it is one of plant, meat, poultry, fish, egg, milk, "
                "unknown."
            ],
        ),
        ({"category": "poultry"}, [PLANTS_ONLY]),
        ({"like": "turkey"}, [PLANTS_ONLY]),
        ({"like": "turkey", "contains": "plant; meat"}, []),
        (
            {"other_names": "the pot; turkey breast ;duck"},
            [f"“turkey breast” is an animal food here (turkey breast, cooked); {IS_ONE}"],
        ),
    ],
)
def test_an_own_food_is_refused_in_one_sentence(change, told):
    assert [sentence for _, sentence in said(replace(STEW, **change))] == told


@every_row(
    ("figure", "told"),
    [
        (OwnFigure("stew", "water", 99.9, "%"), []),
        (
            OwnFigure("stew", "water", 100.0, "%"),
            ["A food that is all water cannot be dried; moisture is below 100 %."],
        ),
        (
            OwnFigure("stew", "target_moisture", 100.0, "%"),
            ["A food that is all water cannot be dried; moisture is below 100 %."],
        ),
        (OwnFigure("stew", "refuse", 100.0, "%"), []),
        (OwnFigure("stew", "refuse", 100.5, "%"), ["Refuse of 100.5 cannot be right."]),
        (OwnFigure("stew", "target_moisture", 140.0, "%"), ["Target moisture of 140 cannot be right."]),
        (OwnFigure("stew", "energy", 400.0, "kcal/100 g"), []),
        (OwnFigure("stew", "drying_hours", 9.0, "min"), ["Drying hours is kept in h, not in “min”."]),
        (
            OwnFigure("stew", "luck", 9.0, "h"),
            [
                "“luck” is no figure of a food; it is one of water, energy, protein, fat, carbohydrate, fibre, "
                "sodium, refuse, target_moisture, drying_temperature, drying_hours, tray_load, dried_cup."
            ],
        ),
        (
            OwnFigure("moon rock", "water", 9.0, "%"),
            ["No food called “moon rock” is known: check the spelling, or add it as a food of your own."],
        ),
    ],
)
def test_an_own_figure_is_refused_in_one_sentence(figure, told):
    assert [sentence for _, sentence in said(figure, STEW)] == told
