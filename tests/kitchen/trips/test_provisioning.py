"""From a trip to the shelf and back to the market: a trip solved by hand, and whatever the trip."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change, Record
from dryhouse.kitchen.records import (
    Batch,
    Dryer,
    Lot,
    LotCheck,
    LotDraw,
    LotMove,
    Meal,
    MealPart,
    OwnFood,
    Place,
    PlaceTemperature,
    Trip,
    TripMeal,
)
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.kitchen.trips.provisioning import Plan, plan, plan_batches
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Area, Mass, Temperature, Volume
from tests.fakes import FakeJournal

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
DAY1 = date(2026, 8, 20)
DAY2, DAY3 = DAY1 + timedelta(days=1), DAY1 + timedelta(days=2)
DRYER = Dryer("shelf dryer", 6, Area(1000.0), 500.0, id=1)
TRIP = Trip("small lake", DAY1, DAY3, 2, 2500.0, Temperature(18.0), id=1)


def a_kitchen(*records: Record, now: datetime = NOW) -> Kitchen:
    return Kitchen(FakeJournal(*records), handbook(), lambda: now, UTC)


def bought(id: int, food: str, grams: float, keep_by: date = date(2027, 6, 1)) -> Lot:
    return Lot(food, date(2026, 7, 1), mass=Mass(grams), bought_keep_by=keep_by, origin="bought", id=id)


def meal(id: int, name: str, *parts: tuple[str, float], lot: int | None = None) -> list[Record]:
    """A meal for one."""
    made = [
        MealPart(id, n, food, food=food, mass=Mass(grams), lot=lot, id=10 * id + n)
        for n, (food, grams) in enumerate(parts)
    ]
    return [Meal(name, 1.0, liquid="dry", id=id), *made]


def small_trip(*more: Record) -> Kitchen:
    """Two people, three days: carrot stew on the first and the third day, corn chili on the second."""
    return a_kitchen(
        DRYER,
        TRIP,
        *meal(1, "carrot stew", ("carrot", 30.0)),
        *meal(2, "corn chili", ("corn", 20.0)),
        TripMeal(1, 1, DAY1, id=1),
        TripMeal(1, 2, DAY2, id=2),
        TripMeal(1, 1, DAY3, id=3),
        *more,
    )


def test_the_small_trip_solved_by_hand() -> None:
    """Stew eats 60 g of carrot on days 1 and 3, chili 40 g of corn on day 2.

    Lot 1 holds 70 g of carrot but passes its printed date after day 2; lot 2 holds 20 g and keeps; lot 3 is
    short with 25 g of corn. Day 1 draws 60 g of lot 1; day 3 may not, draws the 20 g of lot 2 and is 40 g
    short; day 2 draws 25 g and is 15 g short. Carrots (88.29 % water, refuse 11 %) dry to 10 %.
    """
    kitchen = small_trip(bought(1, "carrot", 70.0, DAY2), bought(2, "carrot", 20.0), bought(3, "corn", 25.0))
    found = plan(kitchen, 1)
    assert [(d.lot, d.need.day, round(d.grams, 6)) for d in found.cover.draws] == [
        (1, DAY1, 60.0),
        (3, DAY2, 25.0),
        (2, DAY3, 20.0),
    ]
    items = {item.food: item for item in found.items}
    assert set(items) == {"carrot", "corn"}
    assert items["carrot"].dried.value == pytest.approx(40.0)
    assert items["corn"].dried.value == pytest.approx(15.0)
    prepared, purchased = items["carrot"].prepared, items["carrot"].purchased
    assert prepared is not None
    assert purchased is not None
    assert purchased.value == pytest.approx(prepared.value / 0.89)
    assert prepared.low is not None
    assert prepared.low < 40 * (100 - 10) / (100 - 88.29) < (prepared.high or 0)
    assert not found.alternatives
    assert all(run.end <= datetime(2026, 8, 19, tzinfo=UTC) for run in found.calendar.runs)
    assert found.latest_start == min(run.latest for run in found.calendar.runs)
    assert any("past keep-by" in remark and "Sat 22 Aug" in remark for remark in found.remarks)


def test_the_small_trip_packs_what_it_draws() -> None:
    kitchen = small_trip(bought(1, "carrot", 70.0, DAY2), bought(2, "carrot", 20.0), bought(3, "corn", 25.0))
    bags = plan(kitchen, 1).bags
    assert [(bag.day, bag.name, bag.servings) for bag in bags] == [
        (DAY1, "carrot stew", 2.0),
        (DAY2, "corn chili", 2.0),
        (DAY3, "carrot stew", 2.0),
    ]
    assert bags[0].parts[0].source == "carrot, lot 1"
    assert bags[2].parts[0].source == "0.71 oz of carrot, lot 2, 1.4 oz to be dried"


def test_the_margin_comes_on_top() -> None:
    kitchen = small_trip(bought(3, "corn", 100.0))
    wide = a_kitchen(*_records(kitchen, replace(TRIP, spoilage_margin_pct=20.0)))
    (item,) = plan(wide, 1).items
    assert item.dried.value == pytest.approx(120 / 0.8)


def _records(kitchen: Kitchen, trip: Trip) -> list[Record]:
    kept = [r for kind in kitchen.journal.kept.values() for r in kind.values()]
    return [trip if isinstance(r, Trip) else r for r in kept]


def test_a_full_shelf_plans_nothing() -> None:
    kitchen = small_trip(bought(1, "carrot", 500.0), bought(2, "corn", 500.0))
    found = plan(kitchen, 1)
    assert not found.items
    assert not found.calendar.runs
    assert not found.alternatives
    with pytest.raises(InputProblem, match="shelf covers it"):
        plan_batches(kitchen, 1)


def test_a_lot_that_has_to_be_looked_at_first_never_serves() -> None:
    lot = bought(1, "carrot", 500.0)
    kitchen = small_trip(lot, LotCheck(1, date(2026, 7, 20), moist=True, id=1), bought(2, "corn", 500.0))
    found = plan(kitchen, 1)
    assert {d.lot for d in found.cover.draws} == {2}
    assert any("check first" in remark for remark in found.remarks)


def test_a_home_dried_lot_serves_where_its_records_are_whole() -> None:
    batch = Batch("carrot", prepared_mass=Mass(1000.0), dried_mass=Mass(128.0), id=1)
    lot = Lot("carrot", date(2026, 7, 1), batch=1, mass=Mass(128.0), id=1)
    put = LotMove(1, 1, datetime(2026, 7, 1, 12, tzinfo=UTC), id=1)
    cellar = PlaceTemperature(1, datetime(2026, 6, 1, tzinfo=UTC), Temperature(15.0), id=1)
    kitchen = small_trip(batch, lot, Place("cellar", 1), cellar, put, bought(2, "corn", 500.0))
    found = plan(kitchen, 1)
    assert sum(d.grams for d in found.cover.draws if d.lot == 1) == pytest.approx(120.0)
    assert not found.items


def test_what_was_drawn_is_gone() -> None:
    drawn = LotDraw(1, date(2026, 7, 20), mass=Mass(100.0), id=1)
    kitchen = small_trip(bought(1, "carrot", 110.0), drawn, bought(2, "corn", 500.0))
    (item,) = plan(kitchen, 1).items
    assert item.shelved == pytest.approx(10.0)
    assert item.dried.value == pytest.approx(110.0)


def test_without_a_temperature_on_the_way_home_dried_lots_are_not_counted_on() -> None:
    batch = Batch("carrot", prepared_mass=Mass(1000.0), dried_mass=Mass(128.0), id=1)
    lot = Lot("carrot", date(2026, 7, 1), batch=1, mass=Mass(128.0), id=1)
    kitchen = small_trip(batch, lot, bought(2, "corn", 500.0))
    blind = a_kitchen(*_records(kitchen, replace(TRIP, temperature=None)))
    assert [item.food for item in plan(blind, 1).items] == ["carrot"]


def test_planned_batches_replace_the_last_plans_and_wait_to_be_started() -> None:
    kitchen = small_trip(bought(3, "corn", 25.0))
    plan_batches(kitchen, 1)
    done = plan_batches(kitchen, 1)
    waiting = kitchen.journal.where(Batch)
    assert {b.food for b in waiting} == {"carrot", "corn"}
    assert done.what == "Planned 2 batches for small lake"
    assert [b.id for b in waiting] == [3, 4], "in place of the first two"
    loads = [load for run in plan(kitchen, 1).calendar.runs for load in run.loads]
    assert [b.prepared_mass.si for b in waiting] == [pytest.approx(load.prepared) for load in loads]
    bought_for = {item.food: item.purchased.value for item in plan(kitchen, 1).items}
    for food, grams in bought_for.items():
        assert sum(b.purchased_mass.si for b in waiting if b.food == food) == pytest.approx(grams)
    assert {(b.state, b.trip, b.dryer) for b in waiting} == {("planned", 1, 1)}
    assert all(b.prepared_mass and b.trays and b.set_temperature for b in waiting)
    kitchen.journal.write(done.undone().changes)
    assert len(kitchen.journal.where(Batch)) == 2


def test_a_planned_batch_that_is_drying_counts_as_it_will_come_out() -> None:
    kitchen = small_trip(bought(3, "corn", 100.0))
    plan_batches(kitchen, 1)
    (waiting,) = kitchen.journal.where(Batch)
    started = replace(waiting, state="drying", started=NOW)
    kitchen.journal.write([Change(waiting, started)])
    assert not plan(kitchen, 1).items


def test_what_gives_is_said_when_there_is_no_time() -> None:
    kitchen = small_trip()
    late = a_kitchen(*_records(kitchen, TRIP), now=datetime(2026, 8, 18, 20, tzinfo=UTC))
    found = plan(late, 1)
    assert found.items[0].left_over > 0
    said = " ".join(found.alternatives)
    assert "No bag can be complete." in said
    assert "20 Aug and 22 Aug dinner, carrot stew: each lacks 2.1 oz of carrot." in said
    assert "Buy 4½ oz of dried carrot: then 2 of the 3 bags are complete." in said
    set_preference(late, UNITS_KEY, "metric")
    assert any("Buy 120 g of dried carrot" in line for line in plan(late, 1).alternatives)


def test_loads_are_said_in_the_units_of_the_person() -> None:
    kitchen = small_trip()
    assert all(" g prepared" not in load for item in plan(kitchen, 1).items for load in item.loads)
    set_preference(kitchen, UNITS_KEY, "metric")
    loads = [load for item in plan(kitchen, 1).items for load in item.loads]
    assert loads
    assert all(" g prepared" in load or " kg prepared" in load for load in loads)


def test_another_dryer_is_offered_where_it_would_help() -> None:
    parts = meal(1, "feast", ("carrot", 120.0), ("corn", 120.0))
    trip = replace(TRIP, people=4)
    kitchen = a_kitchen(DRYER, trip, *parts, TripMeal(1, 1, DAY1, id=1), now=datetime(2026, 8, 16, 12, tzinfo=UTC))
    said = plan(kitchen, 1).alternatives
    assert "A second dryer like shelf dryer: then the bag is complete." in said


def test_without_a_dryer_the_plan_says_so() -> None:
    kitchen = a_kitchen(TRIP, *meal(1, "stew", ("carrot", 30.0)), TripMeal(1, 1, DAY1, id=1))
    found = plan(kitchen, 1)
    assert any("No dryer is recorded: add one" in said for said in found.alternatives)
    assert [step.what for step in found.next_steps] == ["dryer", "place", "lot"]


def test_a_measure_nobody_can_weigh_is_told_and_left_out() -> None:
    part = MealPart(1, 0, "camp mix", food="camp-mix", volume=Volume(60.0), id=1)
    own = OwnFood("camp-mix", "camp mix", "mixed", id=1)
    kitchen = a_kitchen(own, TRIP, Meal("m", id=1), part, TripMeal(1, 1, DAY1, id=1))
    found = plan(kitchen, 1)
    assert any("camp mix" in remark and "weight is not known" in remark for remark in found.remarks)
    assert not found.items


def test_bought_ingredients_go_on_the_shopping_list() -> None:
    rice = MealPart(1, 1, "couscous", staple="couscous", mass=Mass(60.0), id=11)
    kitchen = a_kitchen(
        DRYER,
        TRIP,
        *meal(1, "stew", ("carrot", 30.0)),
        rice,
        TripMeal(1, 1, DAY1, id=1),
        TripMeal(1, 1, DAY3, id=2),
    )
    lines = {(b.name, b.for_drying): b.amount for b in plan(kitchen, 1).shopping}
    couscous = lines[("couscous", False)]
    assert couscous is not None
    assert couscous.value == pytest.approx(240.0)
    assert lines[("carrot", True)] is not None


def test_a_trip_that_leaves_before_and_eats_of_the_same_shelf_is_named() -> None:
    before = replace(TRIP, id=2, name="day paddle", starts_on=date(2026, 8, 8), ends_on=date(2026, 8, 8))
    kitchen = small_trip(bought(1, "carrot", 500.0), before, TripMeal(2, 1, date(2026, 8, 8), id=9))
    assert any("day paddle leaves before this" in remark for remark in plan(kitchen, 1).remarks)
    assert not any("leaves before" in remark for remark in plan(kitchen, 2).remarks)


def test_one_staple_is_bought_once_whatever_the_meals_call_it() -> None:
    one = MealPart(1, 1, "rice, for soup", staple="rice-white", mass=Mass(50.0), id=11)
    other = MealPart(2, 1, "rice, beside it", staple="rice-white", mass=Mass(30.0), id=21)
    kitchen = small_trip(one, other)
    (line,) = [b for b in plan(kitchen, 1).shopping if not b.for_drying]
    assert line.name == "rice, white, long-grain"
    assert line.amount is not None
    assert line.amount.value == pytest.approx(2 * (50 + 30 + 50))


def test_two_staples_the_meals_call_alike_are_told_apart() -> None:
    one = MealPart(1, 1, "bouillon", staple="bouillon-low-sodium", mass=Mass(5.0), id=11)
    other = MealPart(2, 1, "bouillon", staple="bouillon-chicken", mass=Mass(3.0), id=21)
    names = {b.name for b in plan(small_trip(one, other), 1).shopping if not b.for_drying}
    assert names == {"bouillon, low sodium", "bouillon powder, chicken"}


@settings(max_examples=40, deadline=None)
@given(
    people=st.integers(1, 6),
    servings=st.lists(st.tuples(st.sampled_from([1, 2]), st.integers(0, 2)), max_size=6),
    lots=st.lists(
        st.tuples(st.sampled_from(["carrot", "corn"]), st.floats(1, 400), st.integers(-2, 6)), max_size=4
    ),
    margin=st.floats(0, 60),
)
def test_planned_and_shelved_cover_what_is_eaten_and_no_lot_serves_past_its_day(
    people: int, servings: list[tuple[int, int]], lots: list[tuple[str, float, int]], margin: float
) -> None:
    trip = replace(TRIP, people=people, spoilage_margin_pct=margin)
    shelf = [bought(n, food, grams, DAY1 + timedelta(days=d)) for n, (food, grams, d) in enumerate(lots, 1)]
    placed = [TripMeal(1, m, DAY1 + timedelta(days=d), id=n) for n, (m, d) in enumerate(servings, 1)]
    meals = [*meal(1, "carrot stew", ("carrot", 30.0)), *meal(2, "corn chili", ("corn", 20.0))]
    found = plan(a_kitchen(DRYER, trip, *meals, *shelf, *placed), 1)
    eaten = {food: people * g * sum(m == id for m, _ in servings) for food, g, id in _MENU}
    drawn: dict[str, float] = {}
    for draw in found.cover.draws:
        drawn[draw.need.food] = drawn.get(draw.need.food, 0.0) + draw.grams
        assert shelf[draw.lot - 1].bought_keep_by >= draw.need.day
    dried = {item.food: item.dried.value * (1 - margin / 100) for item in found.items}
    for food, grams in eaten.items():
        assert drawn.get(food, 0.0) + dried.get(food, 0.0) == pytest.approx(grams)
    _fits(found)


_MENU = (("carrot", 30.0, 1), ("corn", 20.0, 2))


def _fits(found: Plan) -> None:
    """What is planned is on a dryer, or the plan says that it is left over."""
    for item in found.items:
        loaded = sum(load.dried for run in found.calendar.runs for load in run.loads if load.food == item.food)
        assert loaded + item.left_over == pytest.approx(item.dried.value)


@settings(max_examples=20, deadline=None)
@given(times=st.integers(2, 9))
def test_scaling_the_people_scales_the_amounts(times: int) -> None:
    def dried(people: int) -> dict[str, float]:
        kitchen = small_trip()
        scaled = a_kitchen(*_records(kitchen, replace(TRIP, people=people)))
        return {item.food: item.dried.value for item in plan(scaled, 1).items}

    one, many = dried(1), dried(times)
    assert many == pytest.approx({food: times * grams for food, grams in one.items()})


LOTS = st.lists(st.tuples(st.sampled_from(["carrot", "corn"]), st.floats(1, 300), st.integers(-2, 6)), max_size=4)


def stocked(lots: list[tuple[str, float, int]], margin: float = 0.0, *, now: datetime = NOW) -> Kitchen:
    shelf = [bought(n, food, grams, DAY1 + timedelta(days=d)) for n, (food, grams, d) in enumerate(lots, 1)]
    kitchen = small_trip(*shelf)
    return a_kitchen(*_records(kitchen, replace(TRIP, spoilage_margin_pct=margin)), now=now)


@settings(max_examples=40, deadline=None)
@given(LOTS, st.sampled_from(["carrot", "corn"]), st.floats(1, 300), st.integers(0, 6))
def test_another_jar_on_the_shelf_never_makes_more_to_dry(
    lots: list[tuple[str, float, int]], food: str, grams: float, day: int
) -> None:
    before = {item.food: item.dried.value for item in plan(stocked(lots), 1).items}
    after = {item.food: item.dried.value for item in plan(stocked([*lots, (food, grams, day)]), 1).items}
    assert set(after) <= set(before)
    for name, dried in after.items():
        assert dried <= before[name] + 1e-6
        if name != food:
            assert dried == pytest.approx(before[name])


@settings(max_examples=30, deadline=None)
@given(LOTS, st.floats(0, 60), st.floats(0, 30))
def test_a_wider_margin_never_dries_less(lots: list[tuple[str, float, int]], margin: float, more: float) -> None:
    one = {item.food: item.dried.value for item in plan(stocked(lots, margin), 1).items}
    other = {item.food: item.dried.value for item in plan(stocked(lots, margin + more), 1).items}
    assert set(one) <= set(other)
    assert all(other[food] >= dried - 1e-6 for food, dried in one.items())


@settings(max_examples=30, deadline=None)
@given(LOTS, st.integers(0, 19))
def test_planning_only_reads_and_its_batches_are_taken_back_whole(
    lots: list[tuple[str, float, int]], days_late: int
) -> None:
    kitchen = stocked(lots, now=NOW + timedelta(days=days_late))
    before = _records(kitchen, TRIP)
    worked = plan(kitchen, 1)
    assert plan(kitchen, 1) == worked
    assert _records(kitchen, TRIP) == before
    try:
        done = plan_batches(kitchen, 1)
    except InputProblem:
        assert not worked.calendar.runs
        assert _records(kitchen, TRIP) == before
        return
    planned = sum(b.prepared_mass.si for b in kitchen.journal.where(Batch) if b.prepared_mass)
    assert planned == pytest.approx(sum(load.prepared for run in worked.calendar.runs for load in run.loads))
    kitchen.journal.write(done.undone().changes)
    assert _records(kitchen, TRIP) == before


@settings(max_examples=30, deadline=None)
@given(LOTS)
def test_what_is_in_the_bags_is_what_is_eaten(lots: list[tuple[str, float, int]]) -> None:
    found = plan(stocked(lots), 1)
    packed = sum(part.grams or 0.0 for bag in found.bags for part in bag.parts)
    assert packed == pytest.approx(found.sheet.food_mass.value)
    assert packed == pytest.approx(2 * (30 + 20 + 30))
