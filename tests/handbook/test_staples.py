"""The staples' table: sound, findable, and honest about what it does not hold."""

from __future__ import annotations

import pytest

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.handbook.pot import pot, pot_figures
from dryhouse.handbook.staples import COMPOSITION, find_staples, staple, staple_foods, staples
from dryhouse.science.errors import InputProblem
from tests.rows import every_row

ALL = tuple(staples().values())


@every_row("one", ALL, ids=lambda s: s.slug)
def test_each_staple_has_its_composition_with_a_source(one) -> None:
    assert set(COMPOSITION) - {"fibre"} <= set(one.facts)
    assert all(fact.source and fact.value >= 0 for fact in one.facts.values())
    grams = sum(one.facts[name].value for name in ("water", "protein", "fat", "carbohydrate"))
    assert grams <= 101.5


@every_row("one", [s for s in ALL if s.uptake is not None], ids=lambda s: s.slug)
def test_each_uptake_is_told_where_it_comes_from(one) -> None:
    assert 1.0 < one.uptake.value < 7.0
    assert one.uptake.how in ("computed", "recalled", "common practice")


@every_row("one", [s for s in ALL if s.cup is not None], ids=lambda s: s.slug)
def test_each_cup_weighs_what_a_cup_can(one) -> None:
    assert 30 <= one.cup.value <= 300


def test_a_starter_set_is_there() -> None:
    wanted = (
        "pasta rice couscous potato oats lentils crumbs cheese oil nuts milk bouillon noodles soy sugar raisins"
    )
    assert all(find_staples(word) for word in wanted.split())


def test_what_is_not_published_is_missing_and_not_nothing() -> None:
    assert staple("honey").cup is None
    assert staple("olive-oil").uptake is None


def test_animal_foods_are_known_as_such() -> None:
    assert {s.animal for s in ALL if s.animal} == {"dairy", "egg", "meat"}
    assert staple("egg-noodles").animal == "egg"


def test_each_kind_of_staple_is_judged_as_what_it_is() -> None:
    """Oil and salt have no published life; nuts turn rancid; what is of an animal has an animal's rules."""
    foods = {food.slug: (food.category, set(food.traits)) for food in staple_foods()}
    told = {
        "couscous": ("grain", {"staple"}),
        "lentils": ("legume", {"staple"}),
        "raisins": ("fruit", {"staple"}),
        "olive-oil": ("other", {"staple", "no published life"}),
        "salt": ("other", {"staple", "no published life"}),
        "walnuts": ("other", {"staple", "fatty"}),
        "peanuts": ("other", {"staple", "fatty"}),
        "hard-cheese": ("dairy", {"staple", "dairy", "animal"}),
        "egg-noodles": ("egg", {"staple", "egg", "animal", "cooked_starch"}),
        "tomato-powder": ("vegetable", {"staple"}),
    }
    assert {slug: foods[slug] for slug in told} == told


def test_the_name_shown_comes_before_another_name_and_a_list_ends_where_it_is_asked_to() -> None:
    found = [s.slug for s in find_staples("rice")]
    assert [slug.startswith("rice") for slug in found] == sorted(
        (s.startswith("rice") for s in found), reverse=True
    )
    assert find_staples("rice", limit=2) == find_staples("rice")[:2]
    assert len(find_staples("s", limit=99)) > len(find_staples("s")) == 8
    assert [s.slug for s in find_staples("milk, dry")] == [s.slug for s in find_staples("dry milk")]


def test_names_are_found_by_their_beginnings_and_nothing_else() -> None:
    assert [s.slug for s in find_staples("pot fl")] == ["potato-flakes"]
    assert find_staples("zzz") == []
    with pytest.raises(InputProblem):
        staple("zzz")


def test_every_assumption_of_the_pot_says_that_it_is_one() -> None:
    for fact in pot_figures().values():
        assert fact.source
        assert fact.how in ("read", "recalled", "common practice", "computed")
    assert "assumption" in pot("stew_liquid").source
    assert pot("sodium_day").value == 2300


def test_boiling_points_fall_with_height_in_every_table() -> None:
    for table in boiling_tables():
        temperatures = [celsius for _, celsius in table.points]
        assert temperatures == sorted(temperatures, reverse=True)
