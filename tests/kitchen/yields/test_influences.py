"""What moves the yield of a food, told by groups of her own batches."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dryhouse.kitchen.records import Dryer
from dryhouse.kitchen.yields.influences import what_moves
from dryhouse.kitchen.yields.knowledge import learn
from dryhouse.science.quantities import Temperature
from tests.builders import CORN, a_kitchen
from tests.kitchen.yields.test_yields import SHELF, batch

LIGHT, HEAVY = (230.0, 231.0, 232.0, 233.0), (290.0, 291.0, 292.0, 293.0)


def moved(first: dict[str, object], second: dict[str, object]) -> dict[str, dict[str, float]]:
    """What is told of four light batches done the first way and four heavy ones done the second."""
    made = [
        replace(batch(n + 1, 1000.0, dried), **(first if n < 4 else second))
        for n, dried in enumerate((*LIGHT, *HEAVY))
    ]
    kitchen = a_kitchen(SHELF, Dryer("box dryer", 6, id=2), *made)
    return {move.what: {g.name: g.ratio for g in move.groups} for move in what_moves(learn(kitchen, CORN))}


LIGHT_MIDDLE, HEAVY_MIDDLE = (230 * 231 * 232 * 233) ** 0.25 / 1000, (290 * 291 * 292 * 293) ** 0.25 / 1000


@pytest.mark.parametrize(
    ("what", "first", "second", "names"),
    [
        ("cut", {"form": "Kernels"}, {"form": "creamed"}, ("kernels", "creamed")),
        ("pretreatment", {"pretreatment": "Blanched"}, {"pretreatment": "none"}, ("blanched", "none")),
        ("dryer", {"dryer": 1}, {"dryer": 2}, ("shelf dryer", "box dryer")),
        (
            "temperature",
            {"set_temperature": Temperature(63.0)},
            {"set_temperature": Temperature(52.0)},
            ("63.0", "52.0"),
        ),
    ],
)
def test_each_way_of_doing_it_is_told_with_the_middle_of_its_batches(what, first, second, names) -> None:
    found = moved(first, second)
    assert found == {
        what: {names[0]: pytest.approx(LIGHT_MIDDLE), names[1]: pytest.approx(HEAVY_MIDDLE)},
    }


def test_dials_set_within_five_degrees_fahrenheit_are_one_setting_called_by_its_mean() -> None:
    light = [
        replace(batch(n + 1, 1000.0, dried), set_temperature=Temperature(62.0 + n % 2))
        for n, dried in enumerate(LIGHT)
    ]
    heavy = [
        replace(batch(n + 5, 1000.0, dried), set_temperature=Temperature(52.0 + n % 2))
        for n, dried in enumerate(HEAVY)
    ]
    unknown = batch(9, 1000.0, 250.0)
    (move,) = what_moves(learn(a_kitchen(*light, *heavy, unknown), CORN))
    assert [(g.name, g.n) for g in move.groups] == [("52.5", 4), ("62.5", 4)]


def test_a_dial_a_mark_further_is_another_setting() -> None:
    found = moved({"set_temperature": Temperature(55.0)}, {"set_temperature": Temperature(57.5)})
    assert found == {"temperature": {"55.0": pytest.approx(LIGHT_MIDDLE), "57.5": pytest.approx(HEAVY_MIDDLE)}}
