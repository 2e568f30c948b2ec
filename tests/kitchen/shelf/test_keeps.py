"""How long dried food keeps, told whole: days, workings, what it rests on, and where nothing is published."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.ports import Change, Done
from dryhouse.kitchen.records import Batch, Lot, LotCheck, LotDraw, LotMove, OwnFood, Place, PlaceTemperature
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.kitchen.shelf.portions import each_sentence, portion_of, serving_of
from dryhouse.kitchen.shelf.shelf import NothingPublished, keep_by_figure, keeps, shelf, standing_on
from dryhouse.science.display import METRIC, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.units import to_celsius
from tests.kitchen.shelf_room import (
    CELLAR,
    FREEZER,
    NOW,
    PANTRY,
    TODAY,
    a_batch,
    a_shelf,
    packed,
    shelf_line,
)
from tests.rows import every_row
from tests.workings import read, rests_on

GEORGIA = "University of Georgia Extension, So Easy to Preserve, packaging and storing"
SPREAD = "No spread is published, so no interval is given; the package adds nothing to the life"
DAY = timedelta(days=1)


def lines(figure) -> list[str]:
    return [line.partition("   [")[0] for line in read(figure.workings).splitlines()]


def test_the_life_of_a_food_at_a_published_temperature_is_told_with_its_rule() -> None:
    """Six months at 60 °F, half of fruit's year; a month is 30.4375 days."""
    found = keeps(a_shelf(), "corn", to_celsius(60))
    assert (found.value, found.unit, found.low, found.high) == (182.625, "day", None, None)
    assert lines(found) == [
        "6 months of 30.4375 days = 182.6 days",
        "Published life: 182.6 days at 15.6 °C",
        "At 15.6 °C in a closed jar: 182.6 days",
        SPREAD,
    ]
    assert rests_on(found.basis) == [f"handbook: {GEORGIA}"]
    assert "danger-zone" in {caution.rule for caution in found.cautions}
    tin = keeps(a_shelf(), "corn", to_celsius(60), "tin")
    assert lines(tin)[2] == "At 15.6 °C in a closed tin: 182.6 days"


def test_what_is_supposed_stands_first_in_the_workings_and_in_what_they_rest_on() -> None:
    """Jerky keeps two weeks at room temperature; other dried meat is supposed to keep as long."""
    found = keeps(a_shelf(), "turkey", 21.0)
    assert found.value == 14.0
    assert lines(found) == [
        "Assumed: the limits for home jerky hold for other dried meat too",
        "The next warmer limit is used: 14 days at 21.1 °C",
        "At 21 °C in a closed jar: 14 days",
        SPREAD,
    ]
    assert rests_on(found.basis)[0] == "assumption: the limits for home jerky hold for other dried meat too"
    assert len(found.basis) == 2


def refusal(act: Callable[[], object]) -> tuple[type, str, str]:
    with pytest.raises(InputProblem) as caught:
        act()
    return type(caught.value), str(caught.value.said), caught.value.field


def test_where_nothing_is_published_nothing_is_told_and_the_cautions_still_are() -> None:
    kitchen = a_shelf()
    kind, said, field = refusal(lambda: keeps(kitchen, "corn", 20.0, "open container"))
    assert (kind, field) == (InputProblem, "package")
    assert said == "Published keeping times are for airtight packages; for an open container there is none."
    kind, said, _ = refusal(lambda: keeps(kitchen, "bouillon powder, beef", 20.0))
    assert kind is NothingPublished
    assert said.startswith("No keeping time is published here for bouillon powder, beef, which is bought: ")
    assert said.endswith(": go by the date on its package.")
    with pytest.raises(NothingPublished) as caught:
        keeps(kitchen, "turkey", 60.0)
    assert caught.value.said == (
        "No keeping time is published for turkey breast, cooked dried at home at 140 °F (60 °C): refrigerate or "
        "freeze it."
    )
    assert {caution.severity for caution in caught.value.cautions} >= {"stop", "warn"}


def test_the_days_left_of_a_lot_follow_its_history() -> None:
    """Thirty days ago it came off the dryer, at 9 in the morning: midnight of its packing is 9 hours before."""
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    found = keep_by_figure(kitchen, lot)
    assert found is not None
    assert found.value == pytest.approx(182.625 - 30.375)
    assert lines(found)[0] == "cellar: Published life: 182.6 days at 15.6 °C"
    assert rests_on(found.basis) == [f"handbook: {GEORGIA}"]
    later = keep_by_figure(kitchen, lot, NOW + 10 * DAY)
    assert later is not None
    assert later.value == pytest.approx(found.value - 10)
    assert found.cautions
    book = ShelfBook.read(kitchen)
    assert keep_by_figure(kitchen, lot, book=book) == found


def test_of_what_goes_by_its_date_or_must_not_be_eaten_no_days_are_told() -> None:
    kitchen = a_shelf(a_batch("turkey", 2))
    bought = shelve(kitchen, "apple", Package("bag", Mass(200.0), place=CELLAR), TODAY + 90 * DAY).record
    assert keep_by_figure(kitchen, bought) is None
    opened = replace(bought, opened_on=TODAY)
    kitchen.journal.write([Change(bought, opened)])
    assert keep_by_figure(kitchen, opened) is not None
    assert keep_by_figure(kitchen, packed(kitchen, 2, FREEZER)) is None


def test_a_lot_that_travels_is_judged_by_the_warmth_of_the_way_from_the_day_it_leaves() -> None:
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    stays, home = standing_on(kitchen, lot, TODAY + 5 * DAY)
    for leaves in (None, TODAY + 6 * DAY):
        assert standing_on(kitchen, lot, TODAY + 5 * DAY, leaves=leaves, temperature_c=40.0) == (stays, home)
    _, until = standing_on(kitchen, lot, TODAY + 5 * DAY, leaves=TODAY + 5 * DAY, temperature_c=40.0)
    assert home is not None
    assert until is not None
    assert until < home
    bought = shelve(kitchen, "apple", Package("bag", Mass(200.0), place=CELLAR), TODAY + 90 * DAY).record
    assert standing_on(kitchen, bought, TODAY + DAY, leaves=TODAY, temperature_c=40.0)[1] == TODAY + 90 * DAY


# --- the shelf and its book ---------------------------------------------------------------------------------------


def test_the_shelf_of_a_day_holds_what_was_packed_by_then_and_is_not_gone() -> None:
    lots = [
        Lot("apple", TODAY - n * DAY, mass=Mass(9.0), bought_keep_by=TODAY + 99 * DAY, origin="bought", id=n + 1)
        for n in range(3)
    ]
    kitchen = a_shelf(*lots, LotDraw(3, TODAY, id=1))
    assert [line.lot.id for line in shelf(kitchen)] == [1, 2]
    assert [line.lot.id for line in shelf(kitchen, gone=True)] == [1, 2, 3]
    assert [line.lot.id for line in shelf(kitchen, TODAY - DAY)] == [2, 3]
    assert [line.lot.id for line in shelf(kitchen, TODAY - 2 * DAY)] == [3]
    assert [line.first for line in shelf(kitchen, gone=True)] == [1, 2, None]


def test_a_line_of_the_shelf_says_all_there_is_of_a_lot() -> None:
    kitchen = a_shelf(a_batch(title="garden corn"))
    lot = packed(kitchen, package=Package("jar", place=CELLAR, name="door jar"))
    line = shelf_line(kitchen, lot.id)
    assert (line.food_name, line.called, line.title) == ("sweet corn", "garden corn", "Garden corn, door jar")
    assert (line.mass_left_g, line.place, line.standing, line.reason) == (240.0, "cellar", "keeping", "")
    assert line.volume_left_ml == pytest.approx(240.0 * 2011 / 1133.98)  # 2.5 lb of it fill 4 to 4.5 pints
    bare = shelf_line(a_shelf(Lot("apple", TODAY, id=1)), 1)
    assert (bare.called, bare.place, bare.mass_left_g, bare.volume_left_ml) == ("", "", None, None)


def test_a_bought_lot_past_its_date_and_opened_is_judged_from_the_day_it_was_opened() -> None:
    lot = Lot(
        "apple", TODAY - 90 * DAY, mass=Mass(9.0), bought_keep_by=TODAY + 400 * DAY, origin="bought",
        opened_on=TODAY - 3 * DAY, id=1,
    )  # fmt: skip
    kitchen = a_shelf(lot, LotMove(1, CELLAR, NOW - 90 * DAY, 1), LotCheck(1, TODAY, moist=False, id=1))
    (stretch,) = ShelfBook.read(kitchen).history(lot)
    assert stretch.start.date() == TODAY - 3 * DAY
    assert shelf_line(kitchen, 1).keep_by == TODAY - 3 * DAY + timedelta(days=365)
    sooner = replace(lot, bought_keep_by=TODAY + 40 * DAY)
    kitchen.journal.write([Change(lot, sooner)])
    assert shelf_line(kitchen, 1).keep_by == TODAY + 40 * DAY


def test_the_book_looks_up_what_changed_and_nothing_else() -> None:
    kitchen = a_shelf(a_batch(), a_batch("apple", 2))
    corn, apple = packed(kitchen), packed(kitchen, 2)
    book = ShelfBook.read(kitchen)
    day = {id: book.keep_by(book.lots[id])[0] for id in (corn.id, apple.id)}
    warm = PlaceTemperature(PANTRY, NOW - 20 * DAY, Temperature(40.0), id=9)
    kitchen.journal.write([Change(None, warm)])
    book.take(Done("warm", (Change(None, warm),)))
    for id, before in day.items():
        after = book.keep_by(book.lots[id])[0]
        assert after is not None
        assert before is not None
        assert after < before
    moved = LotMove(corn.id, FREEZER, NOW - 25 * DAY, 9)
    kitchen.journal.write([Change(None, moved)])
    asked: list[type] = []
    where = kitchen.journal.where
    kitchen.journal.where = lambda kind, **equals: (asked.append(kind), where(kind, **equals))[1]  # type: ignore
    book.take(Done("moved", (Change(None, moved),)))
    assert asked == []
    fresh = ShelfBook.read(kitchen)
    assert book.keep_by(corn) == fresh.keep_by(corn)
    assert book.keep_by(apple) == fresh.keep_by(apple)


def test_a_place_renamed_or_a_food_renamed_is_told_by_its_new_name() -> None:
    own = OwnFood("relish", "relish", "vegetable", contains="plant", id=1)
    kitchen = a_shelf(own, a_batch("relish"))
    lot = packed(kitchen)
    book = ShelfBook.read(kitchen)
    assert shelf(kitchen, book=book)[0].title == "Relish"
    for before, after in (
        (own, replace(own, name="corn relish")),
        (Place("pantry", PANTRY), Place("larder", PANTRY)),
        (kitchen.journal.get(Batch, 1), replace(a_batch("relish"), title="first relish")),
    ):
        kitchen.journal.write([Change(before, after)])
        book.take(Done("changed", (Change(before, after),)))
    (line,) = shelf(kitchen, book=book)
    assert (line.food_name, line.place, line.title) == ("corn relish", "larder", "First relish")
    assert line.lot == lot


# --- a pot by its servings ----------------------------------------------------------------------------------------

POT = a_batch("chili-bean", prepared_mass=Mass(2124.0), dried_mass=Mass(348.0), dried_volume=None, servings=6.0)


@every_row(
    ("grams", "number"),
    [(58.0, 1), (63.7, 1), (63.9, None), (52.3, 1), (52.1, None), (116.0, None), (0.0, "none")],
)
def test_a_bag_within_a_tenth_of_a_serving_is_one_by_its_number(grams: float, number: object) -> None:
    """348 g by six: 58 g each, give or take 5.8 g."""
    lot = Lot("chili-bean", TODAY, batch=1, mass=Mass(grams), id=7)
    found = portion_of(a_shelf(POT, lot), lot)
    if number == "none":
        assert found is None
        return
    assert found is not None
    assert (found.number, found.grams, found.of) == (number, grams, 6.0)
    assert found.servings == pytest.approx(grams / 58.0)


def test_without_a_batch_servings_or_weights_there_is_no_portion() -> None:
    lot = Lot("chili-bean", TODAY, batch=1, mass=Mass(58.0), id=7)
    assert portion_of(a_shelf(POT, replace(lot, batch=None)), replace(lot, batch=None)) is None
    bare = replace(lot, mass=None)
    assert portion_of(a_shelf(POT, bare), bare) is None
    assert portion_of(a_shelf(POT, bare), bare, 58.0) is not None
    for batch in (replace(POT, servings=None), replace(POT, dried_mass=None), replace(POT, dried_mass=Mass(0.0))):
        assert serving_of(a_shelf(batch), batch) is None
        assert portion_of(a_shelf(batch, lot), lot) is None
    assert each_sentence(a_shelf(POT), POT, Style(METRIC)).startswith(
        "6 servings, each: 58 g dried, about 296 ml of"
    )
    one = replace(POT, servings=1.0)
    assert each_sentence(a_shelf(one), one, Style(METRIC), forbidden=True) == "1 serving: 348 g dried"
