"""Covering a trip from the shelf: by hand, and whatever the trip."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.provisioning import Need, Recipe, Span, Supply, cover, to_dry

FIRST = date(2026, 8, 20)


def day(n: int) -> date:
    return FIRST + timedelta(days=n)


def test_a_small_trip_by_hand() -> None:
    """Two people, three days. Stew (30 g squash each) on days 1 and 3, chili (20 g beans each) on day 2.

    Squash lot 1 holds 70 g but passes its keep-by on day 2; lot 2 holds 20 g and keeps. Day 1 eats 60 g of
    lot 1, which then may not serve day 3: that day gets the 20 g of lot 2 and is 40 g short. Of the beans
    40 g are eaten, lot 3 is short with 25 g, so 15 g are missing.
    """
    needs = [
        Need(day(0), "squash", 60.0, "stew"),
        Need(day(1), "bean", 40.0, "chili"),
        Need(day(2), "squash", 60.0, "stew"),
    ]
    shelf = [
        Supply(1, "squash", 70.0, day(1)),
        Supply(2, "squash", 20.0, day(60)),
        Supply(3, "bean", 25.0, day(60)),
    ]
    found = cover(needs, shelf)
    assert [(d.lot, d.need.day, d.grams) for d in found.draws] == [
        (1, day(0), 60.0),
        (3, day(1), 25.0),
        (2, day(2), 20.0),
    ]
    assert found.short_of("squash") == pytest.approx(40.0)
    assert found.short_of("bean") == pytest.approx(15.0)


def test_the_margin_is_not_counted_on_and_is_dried_on_top() -> None:
    found = cover([Need(day(0), "corn", 100.0)], [Supply(1, "corn", 50.0, day(9))], margin=0.2)
    assert found.short_of("corn") == pytest.approx(60.0)
    batch = to_dry(60.0, Recipe("corn", Span(4.0, 3.0, 5.0), refuse=0.5), margin=0.2)
    assert batch.dried == pytest.approx(75.0)
    assert batch.prepared == Span(300.0, 225.0, 375.0)
    assert batch.purchased == Span(600.0, 450.0, 750.0)


def test_what_is_not_known_of_a_recipe_stays_unknown() -> None:
    assert to_dry(60.0, Recipe("corn", None)).prepared is None
    assert to_dry(60.0, Recipe("corn", Span(4.0, 4.0, 4.0))).purchased is None


def test_the_lot_a_meal_names_serves_that_meal_first() -> None:
    needs = [Need(day(0), "corn", 40.0, "soup"), Need(day(1), "corn", 40.0, "chili", lot=7)]
    shelf = [Supply(7, "corn", 40.0, day(5)), Supply(8, "corn", 40.0, day(9))]
    assert [(d.lot, d.need.meal) for d in cover(needs, shelf).draws] == [(7, "chili"), (8, "soup")]


def test_a_share_that_is_lost_altogether_is_no_margin() -> None:
    assert cover([Need(day(0), "corn", 10.0)], [Supply(1, "corn", 10.0, day(0))]).short == ()
    for margin in (-0.1, 1.0):
        with pytest.raises(ValueError, match="margin"):
            cover([], [], margin)


def test_the_lot_that_goes_off_first_serves_first_and_the_lower_number_of_two() -> None:
    shelf = [Supply(3, "corn", 10.0, day(5)), Supply(2, "corn", 10.0, day(5)), Supply(1, "corn", 10.0, day(9)),
             Supply(4, "corn", 10.0, day(0)), Supply(5, "corn", 10.0, None)]  # fmt: skip
    found = cover([Need(day(1), "corn", 25.0)], shelf)
    assert [(d.lot, d.grams) for d in found.draws] == [(2, 10.0), (3, 10.0), (1, 5.0)]
    assert cover([Need(day(0), "corn", 10.0)], shelf).draws[0].lot == 4


def test_foods_are_listed_in_the_order_they_are_first_missed() -> None:
    needs = [Need(day(1), "apple", 5.0), Need(day(0), "corn", 5.0), Need(day(2), "corn", 7.0)]
    found = cover(needs, [])
    assert found.short_foods == ("corn", "apple")
    assert [(need.food, need.grams) for need in found.short] == [("corn", 5.0), ("apple", 5.0), ("corn", 7.0)]


NEEDS = st.lists(
    st.builds(
        Need,
        st.integers(0, 9).map(day),
        st.sampled_from(["corn", "squash"]),
        st.floats(1, 300),
        st.sampled_from(["stew", "chili"]),
        st.one_of(st.none(), st.integers(0, 5)),
    ),
    max_size=8,
)


@st.composite
def shelves(draw: st.DrawFn) -> list[Supply]:
    size = draw(st.integers(0, 6))
    last = st.one_of(st.none(), st.integers(-3, 12).map(day))
    return [
        Supply(n, draw(st.sampled_from(["corn", "squash"])), draw(st.floats(0, 400)), draw(last))
        for n in range(size)
    ]


@given(NEEDS, shelves(), st.floats(0, 0.9))
def test_what_is_drawn_and_what_is_short_is_what_is_eaten(
    needs: list[Need], shelf: list[Supply], margin: float
) -> None:
    found = cover(needs, shelf, margin)
    eaten, covered = defaultdict(float), defaultdict(float)
    for need in needs:
        eaten[need.food] += need.grams
    for drawn in found.draws:
        covered[drawn.need.food] += drawn.grams
    for food, grams in eaten.items():
        assert covered[food] + found.short_of(food) == pytest.approx(grams)
        batch = to_dry(found.short_of(food), Recipe(food, None), margin)
        assert batch.dried * (1 - margin) + covered[food] == pytest.approx(grams)


@given(NEEDS, shelves(), st.floats(0, 0.9))
def test_no_lot_serves_after_its_day_nor_gives_more_than_it_holds(
    needs: list[Need], shelf: list[Supply], margin: float
) -> None:
    lots = {s.lot: s for s in shelf}
    given_by: dict[int, float] = defaultdict(float)
    for drawn in cover(needs, shelf, margin).draws:
        lot = lots[drawn.lot]
        assert lot.food == drawn.need.food
        assert lot.last_day is not None
        assert drawn.need.day <= lot.last_day
        given_by[drawn.lot] += drawn.grams
    for number, grams in given_by.items():
        assert grams <= lots[number].grams * (1 - margin) + 1e-6


@given(NEEDS)
def test_a_full_shelf_plans_nothing(needs: list[Need]) -> None:
    shelf = [Supply(n, food, 1e6, day(30)) for n, food in enumerate(["corn", "squash"])]
    assert cover(needs, shelf).short == ()


@given(NEEDS, st.integers(1, 12))
def test_scaling_the_people_scales_what_is_dried(needs: list[Need], times: int) -> None:
    many = [Need(n.day, n.food, n.grams * times, n.meal) for n in needs]
    one, all_of = cover(needs, []), cover(many, [])
    for food in one.short_foods:
        assert all_of.short_of(food) == pytest.approx(times * one.short_of(food))


@given(NEEDS, shelves())
def test_no_other_order_of_drawing_would_cover_more(needs: list[Need], shelf: list[Supply]) -> None:
    """What is short is never more than the worst bottleneck: some last days have too little shelf for them."""
    plain = [Need(n.day, n.food, n.grams, n.meal) for n in needs]
    found = cover(plain, shelf)
    for food in ("corn", "squash"):
        days = sorted({n.day for n in plain if n.food == food})
        bottleneck = max(
            (
                sum(n.grams for n in plain if n.food == food and n.day >= d)
                - sum(s.grams for s in shelf if s.food == food and s.last_day is not None and s.last_day >= d)
                for d in days
            ),
            default=0.0,
        )
        assert found.short_of(food) == pytest.approx(max(0.0, bottleneck), abs=1e-5)
