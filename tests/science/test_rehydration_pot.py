"""The water of a pot, reckoned by hand, and what notes do to it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.rehydration import correction, taught_by
from dryhouse.science.rehydration_pot import Pot, Thirst, boil_off, pot_water
from dryhouse.science.values import Basis, Fact, Figure
from tests.workings import read, rests_on

STILL = Figure(0.0, "ml/min")
DRY_POT = Pot("dry", None, STILL, 0.0)


def takes(name: str, grams: float, ml: float, low: float | None = None, high: float | None = None) -> Thirst:
    return Thirst(name, grams, Figure(ml, "ml", low, high, basis=(Basis("handbook", "a table"),)))


def test_a_pot_by_hand() -> None:
    """100 + 60 ml taken up by 80 g; a stew of 0.1 ml a gram; ten minutes of 3 ml: 160 + 24 + 30."""
    stew = Pot("stew", Fact(0.1, "ml per g", "an assumption"), Figure(3.0, "ml/min"), 10.0)
    water = pot_water([takes("corn", 30.0, 100.0), takes("rice", 50.0, 60.0)], stew)
    assert water.value == pytest.approx(160 + 0.1 * (80 + 160) + 30)
    assert water.measure is not None
    assert water.measure.value == pytest.approx(water.value / 236.5882365)


def test_what_is_not_published_takes_no_water_and_the_workings_say_so() -> None:
    water = pot_water([Thirst("cheese", 20.0, None), takes("rice", 50.0, 60.0)], DRY_POT)
    assert water.value == 60.0
    assert "cheese: 20 g, no water of its own counted" in read(water.workings)


def test_ranges_add_together() -> None:
    water = pot_water([takes("a", 10, 50, 40, 70), takes("b", 10, 20)], DRY_POT)
    assert (water.low, water.value, water.high) == (60.0, 70.0, 90.0)


def test_boil_off_from_the_pots_surface() -> None:
    figure = boil_off(200.0, Fact(0.02, "ml per min and cm²", "an assumption"))
    assert figure.value == pytest.approx(math.pi * 100 * 0.02)


def test_soupy_takes_water_off_and_says_how_many_notes() -> None:
    note = taught_by("soupy", 400.0, 400.0, 15.0)
    assert note is not None
    found = correction([note], 1.0)
    assert found is not None
    water = pot_water([takes("corn", 30.0, 400.0)], DRY_POT, found)
    assert water.value == pytest.approx(400 * math.sqrt(0.85))
    assert "1 cooking note on this meal: × 0.922 (the calculated figure counts as 1 more)" in read(water.workings)
    assert "your record (cooking notes on this meal)" in rests_on(water.basis)


def test_right_with_more_water_than_reckoned_moves_towards_what_was_used() -> None:
    note = taught_by("right", 500.0, 400.0, 15.0)
    assert note is not None
    found = correction([note, note, note], 1.0)
    assert found is not None
    assert found.factor == pytest.approx(1.25**0.75)


def test_a_note_without_a_word_on_how_it_came_back_teaches_nothing() -> None:
    assert taught_by("", 500.0, 400.0, 15.0) is None
    assert correction([], 1.0) is None


@given(st.integers(1, 40), st.floats(0.5, 2.0))
def test_more_notes_come_closer_but_never_overshoot(n: int, right: float) -> None:
    note = taught_by("right", 300.0 * right, 300.0, 15.0)
    assert note is not None
    found, more = correction([note] * n, 1.0), correction([note] * (n + 1), 1.0)
    assert found is not None
    assert more is not None
    assert abs(math.log(more.factor / right)) <= abs(math.log(found.factor / right)) + 1e-12
    assert min(1.0, right) - 1e-9 <= found.factor <= max(1.0, right) + 1e-9


@given(
    st.lists(st.tuples(st.floats(1, 500), st.floats(0, 2000)), min_size=1, max_size=6),
    st.floats(1, 10),
    st.floats(0, 1),
)
def test_twice_the_food_takes_twice_the_water_but_for_the_steam(
    parts: list[tuple[float, float]], times: float, style: float
) -> None:
    pot = Pot("stew", Fact(style, "ml per g", "an assumption"), STILL, 0.0)
    one = [takes(str(n), g, ml) for n, (g, ml) in enumerate(parts)]
    many = [replace(p, grams=p.grams * times, water=Figure(p.water.value * times, "ml")) for p in one if p.water]
    assert pot_water(many, pot).value == pytest.approx(times * pot_water(one, pot).value)


def test_the_whole_arithmetic_of_a_pot_can_be_followed() -> None:
    """30 g of corn take up 90 to 120 ml; of 30 + 100 g as it comes back a tenth stays loose; 3 ml a minute boil
    off for ten minutes; a note says a tenth more."""
    liquid = Fact(0.1, "ml per g", "an assumption")
    stew = Pot(
        "stew", liquid, boil_off(200.0, Fact(0.01, "ml per min and cm²", "a rate"), "nobody measured it"), 10.0
    )
    note = taught_by("right", 1.21 * (100 + 13 + math.pi * 10), 100 + 13 + math.pi * 10, 15.0)
    assert note is not None
    water = pot_water([takes("corn", 30.0, 100.0, 90.0, 120.0)], stew, correction([note], 1.0))
    added = 13 + math.pi * 10
    assert (water.low, water.value, water.high) == pytest.approx(
        (1.1 * (90 + added), 1.1 * (100 + added), 1.1 * (120 + added))
    )
    assert read(water.workings).split("\n") == [
        "Taken up together: 100 ml",
        "Loose liquid of a stew: 130 g as it comes back × 0.1 ml/g = 13 ml   [an assumption]",
        "Pot 20 cm across (assumed: nobody measured it): 314.2 cm² × 0.01 ml/min/cm² = 3.142 ml/min   [a rate]",
        "Boil-off: 10 min × 3.142 ml/min = 31.42 ml",
        "Calculated: 144.4 ml",
        "Corrected by 1 cooking note on this meal: × 1.1 (the calculated figure counts as 1 more) = 158.9 ml",
        "Water for the pot: 158.9 ml",
    ]
    assert rests_on(water.basis) == [
        rests_on(water.basis)[0],
        "handbook: a table",
        "assumption: stew: an assumption",
        "handbook: a rate",
    ]


def test_a_pot_that_is_not_boiled_loses_nothing_and_names_no_rate() -> None:
    cold = Pot("dry", None, boil_off(200.0, Fact(0.01, "ml per min and cm²", "a rate")), 0.0)
    water = pot_water([takes("corn", 30.0, 100.0)], cold)
    assert (water.value, water.low, water.high) == (100.0, None, None)
    assert read(water.workings) == "Taken up together: 100 ml\nWater for the pot: 100 ml"
    assert rests_on(water.basis) == ["handbook: a table"]


def test_half_a_minute_over_the_flame_boils_off_its_share_and_names_its_rate() -> None:
    brief = Pot("dry", None, boil_off(200.0, Fact(0.01, "ml per min and cm²", "a rate")), 0.5)
    water = pot_water([takes("corn", 30.0, 100.0)], brief)
    assert water.value == pytest.approx(100 + math.pi / 2)
    assert "Boil-off: 0.5 min × 3.142 ml/min = 1.571 ml" in read(water.workings)
    assert rests_on(water.basis) == ["handbook: a table", "handbook: a rate"]


def test_what_has_no_water_of_its_own_still_holds_loose_liquid() -> None:
    stew = Pot("stew", Fact(0.1, "ml per g", "an assumption"), STILL, 0.0)
    assert pot_water([Thirst("cheese", 20.0, None), takes("rice", 50.0, 60.0)], stew).value == pytest.approx(
        60 + 13
    )


def test_what_a_note_teaches_by_how_it_came_back() -> None:
    taught = {how: taught_by(how, 500.0, 400.0, 15.0) for how in ("right", "soupy", "hard")}
    assert taught == pytest.approx(
        {"right": math.log(1.25), "soupy": math.log(1.25 * 0.85), "hard": math.log(1.25 * 1.15)}
    )
    assert taught_by("hard", None, 400.0, 15.0) == pytest.approx(math.log(1.15))
    assert [taught_by("hard", used, reckoned, 15.0) for used, reckoned in ((0.0, 400.0), (400.0, 0.0))] == [
        None,
        None,
    ]
    assert taught_by("right", 0.5, 0.5, 15.0) == 0.0
