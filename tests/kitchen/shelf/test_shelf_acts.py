"""Each act on a lot or a place, whole: what it says it did, the record it leaves, and what it refuses."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Lot, LotCheck, LotDraw, LotMove, OwnFood, Place, PlaceTemperature
from dryhouse.kitchen.settings import UNITS_KEY, set_preference
from dryhouse.kitchen.shelf.conditioning import end_conditioning, pasteurise, start_conditioning
from dryhouse.kitchen.shelf.lots import (
    Found,
    check_lot,
    draw,
    edit_lot,
    lot_named,
    lot_title,
    move,
    open_lot,
    redry,
    remove_lot,
    remove_move,
    throw_out,
    weight_of,
)
from dryhouse.kitchen.shelf.places import (
    add_place,
    edit_temperature,
    find_place,
    places,
    remove_place,
    remove_temperature,
    rename_place,
    set_temperature,
    temperatures,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Temperature, Volume
from tests.kitchen.shelf_room import CELLAR, FREEZER, NOW, PANTRY, TODAY, a_shelf
from tests.rows import every_row

PACKED = TODAY - timedelta(days=10)
DAY = timedelta(days=1)
BEFORE = "That is before it was packed, on 15 Nov 2026."
JAR = Lot("corn", PACKED, "door jar", mass=Mass(200.0, "200 g"), volume=Volume(400.0), id=1)
BAG = Lot("apple", PACKED, mass=Mass(100.0), id=2)


@pytest.fixture
def kitchen() -> Kitchen:
    made = a_shelf(JAR, BAG)
    set_preference(made, UNITS_KEY, "metric")
    return made


def said(act: Callable[[], object]) -> tuple[str, str]:
    with pytest.raises(InputProblem) as caught:
        act()
    return str(caught.value.said), caught.value.field


def test_a_lot_is_called_by_its_food_its_name_and_its_number(kitchen: Kitchen) -> None:
    assert [lot_title(kitchen, lot) for lot in (JAR, BAG)] == ["Sweet corn, door jar, lot 1", "Apple, lot 2"]
    assert [lot_named(kitchen, text).id for text in ("1", " #2 ")] == [1, 2]
    for text in ("9", "corn", "#", "-1"):
        assert said(lambda text=text: lot_named(kitchen, text)) == (f"There is no lot “{text}”.", "lot")


@every_row(
    ("change", "told"),
    [
        ({}, "nothing"),
        ({"mass": Mass(150.0)}, "weight"),
        ({"packed_on": PACKED - DAY}, "day of packing"),
        ({"conditioned_from": PACKED, "conditioned_to": TODAY}, "conditioning"),
        ({"pasteurised": "frozen"}, "treatment against insects"),
        ({"opened_on": TODAY, "redried_on": TODAY}, "day of opening, day of drying again"),
        ({"bought_keep_by": TODAY}, "date on the package"),
        ({"in_oil": False}, "packed in oil"),
        ({"notes": "sweet", "package": "bag"}, "package, notes"),
    ],
)
def test_what_was_put_right_is_named(change: dict[str, object], told: str) -> None:
    done = edit_lot(a_shelf(JAR), replace(JAR, **change))  # type: ignore[arg-type]
    assert done.what == f"Changed {told} of Sweet corn, door jar, lot 1"


def test_moves_are_noted_once_a_lot_with_their_moment(kitchen: Kitchen) -> None:
    done = move(kitchen, [1, 2, 1], CELLAR)
    assert done.what == "Moved 2 lots to the cellar"
    assert kitchen.journal.where(LotMove) == (LotMove(1, CELLAR, NOW, 1), LotMove(2, CELLAR, NOW, 2))
    midnight = datetime(2026, 11, 15, tzinfo=NOW.tzinfo)
    assert move(kitchen, [1], FREEZER, midnight).what == "Moved Sweet corn, door jar, lot 1 to the freezer"
    assert said(lambda: move(kitchen, [1], FREEZER, midnight - timedelta(seconds=1))) == (
        "Sweet corn, door jar, lot 1 was only packed on 15 Nov 2026; move it from then on.",
        "at",
    )
    move(kitchen, [1], FREEZER, NOW + DAY)
    assert said(lambda: move(kitchen, [1], FREEZER, NOW + DAY + timedelta(seconds=1))) == (
        "A move is noted when it has been made, not before.",
        "at",
    )
    assert said(lambda: move(kitchen, [], CELLAR)) == ("Choose the lots to move first.", "lots")
    assert said(lambda: move(kitchen, [1], 9)) == ("That place is no longer here.", "place")
    assert remove_move(kitchen, 2).what == "Took back a move of Apple, lot 2"
    assert said(lambda: remove_move(kitchen, 2))[0] == "That move is no longer here."


def test_what_is_taken_is_said_by_its_purpose_and_amount(kitchen: Kitchen) -> None:
    jar = "of Sweet corn, door jar, lot 1"
    assert draw(kitchen, 1, Mass(20.25)).what == f"Took 20 g {jar}"
    assert draw(kitchen, 1, Mass(28.0, "1 oz"), purpose="given", note=" to bow ", on=TODAY - DAY).what == (
        f"Gave away 1 oz {jar}"
    )
    assert draw(kitchen, 1, Mass(9.0, "9 g"), purpose="thrown out", meal=None).what == f"Threw out 9 g {jar}"
    assert kitchen.journal.where(LotDraw) == (
        LotDraw(1, TODAY, mass=Mass(20.25), at=NOW, id=1),
        LotDraw(1, TODAY - DAY, "given", Mass(28.0, "1 oz"), note="to bow", id=2),
        LotDraw(1, TODAY, "thrown out", Mass(9.0, "9 g"), at=NOW, id=3),
    )
    # 200 − 20.25 − 28 − 9 = 142.75 g are left; half a gram more is let pass
    assert said(lambda: draw(kitchen, 1, Mass(143.5, "143.5 g"))) == (
        f"Only 143 g is left {jar}; take that, or weigh it and enter a check.",
        "mass",
    )
    assert draw(kitchen, 1, Mass(143.25, "143.25 g")).what == f"Took 143.25 g {jar}"
    assert draw(kitchen, 2).what == "Took all of Apple, lot 2"
    assert said(lambda: draw(kitchen, 9)) == ("That lot is no longer here.", "lot")


def test_days_lie_between_packing_and_tomorrow(kitchen: Kitchen) -> None:
    for act in (
        lambda day: draw(kitchen, 1, Mass(1.0), on=day),
        lambda day: check_lot(kitchen, 1, Found(moist=False), on=day),
        lambda day: open_lot(kitchen, 1, day),
        lambda day: redry(kitchen, 1, day),
    ):
        act(PACKED)
        assert said(lambda act=act: act(PACKED - DAY)) == (BEFORE, "on")
        act(TODAY + DAY)
        assert said(lambda act=act: act(TODAY + 2 * DAY)) == ("That day is still to come.", "on")


def test_what_is_taken_on_an_earlier_day_goes_off_what_is_left_today(kitchen: Kitchen) -> None:
    draw(kitchen, 1, Mass(150.0))
    assert said(lambda: draw(kitchen, 1, Mass(60.0, "60 g"), on=TODAY - 5 * DAY))[0].startswith("Only 50 g is left")


def test_what_is_thrown_out_goes_whole_and_what_is_gone_is_passed_over(kitchen: Kitchen) -> None:
    draw(kitchen, 2)
    assert throw_out(kitchen, [2, 1, 1], note=" soft ").what == "Threw out Sweet corn, door jar, lot 1"
    assert kitchen.journal.where(LotDraw)[-1] == LotDraw(1, TODAY, "thrown out", None, None, "soft", id=2)
    assert said(lambda: throw_out(kitchen, [1, 2])) == ("Nothing is left of what you chose.", "lots")
    other = a_shelf(JAR, BAG)
    assert throw_out(other, [1, 2], PACKED).what == "Threw out 2 lots"
    assert throw_out(a_shelf(JAR, BAG), [1, 1]).what == "Threw out Sweet corn, door jar, lot 1"


def test_a_look_is_noted_with_all_that_was_found(kitchen: Kitchen) -> None:
    done = check_lot(kitchen, 1, Found(moist=True, mould=False, smell=" sour ", mass=Mass(150.0), note=" note "))
    assert done.what == "Checked Sweet corn, door jar, lot 1"
    assert done.record == LotCheck(1, TODAY, Mass(150.0), True, False, "sour", "note", NOW, 1)
    for found in ({"moist": False}, {"mould": False}, {"mass": Mass(9.0)}, {"smell": "odd"}, {"note": "well"}):
        assert check_lot(kitchen, 1, Found(**found), on=TODAY - DAY).record.at is None  # type: ignore[arg-type]
    nothing = "What was found? Say whether it was moist, whether there was mold, or what it weighs."
    assert said(lambda: check_lot(kitchen, 1, Found(smell=" ", note=" "))) == (nothing, "")


def test_a_lot_that_is_opened_dried_again_conditioned_or_treated_says_so(kitchen: Kitchen) -> None:
    jar = "Sweet corn, door jar, lot 1"
    assert (open_lot(kitchen, 1).what, kitchen.journal.get(Lot, 1)) == (
        f"Opened {jar}",
        replace(JAR, opened_on=TODAY),
    )
    assert redry(kitchen, 1, TODAY - DAY).what == f"Dried {jar} again"
    assert kitchen.journal.get(Lot, 1) == replace(JAR, opened_on=TODAY, redried_on=TODAY - DAY)
    begun = start_conditioning(kitchen, 2, TODAY - 9 * DAY)
    assert (begun.what, begun.record.conditioned_from) == ("Began conditioning Apple, lot 2", TODAY - 9 * DAY)
    assert end_conditioning(kitchen, 2).what == "Ended conditioning Apple, lot 2 after 9 days of 10"
    assert start_conditioning(kitchen, 2).record.conditioned_to is None
    treated = pasteurise(kitchen, 2, " frozen 48 h ", TODAY - DAY)
    assert treated.what == "Noted a treatment against insects of Apple, lot 2"
    assert treated.record.pasteurised == "frozen 48 h, 24 Nov 2026"
    assert remove_lot(kitchen, 2).what == "Removed Apple, lot 2"


def test_a_cup_of_a_lot_weighs_what_is_left_by_mass_and_by_measure(kitchen: Kitchen) -> None:
    assert weight_of(kitchen, 1, Volume(50.0)) == Mass(25.0)
    own = OwnFood("relish", "relish", "vegetable", contains="plant", id=1)
    unmeasured = a_shelf(own, replace(BAG, food="relish"))
    assert said(lambda: weight_of(unmeasured, 2, Volume(50.0)))[1] == "mass"
    draw(kitchen, 1)
    unknown = "What a cup of this lot weighs is not known: give what you take by weight."
    assert said(lambda: weight_of(kitchen, 1, Volume(50.0))) == (unknown, "mass")


# --- places -------------------------------------------------------------------------------------------------------


def test_places_say_what_was_done_with_them() -> None:
    kitchen = a_shelf()
    added = add_place(kitchen, "attic", Temperature(25.0), humidity_pct=60.0)
    assert (added.what, added.record) == ("Added the place attic", Place("attic", 4))
    assert temperatures(kitchen, 4) == (PlaceTemperature(4, NOW, Temperature(25.0), 60.0, 4),)
    assert rename_place(kitchen, 4, " loft ").what == "Renamed attic to loft"
    noted = set_temperature(kitchen, 4, Temperature(20.0), since=NOW - DAY)
    assert (noted.what, noted.record.id) == ("Noted the temperature of the loft", 5)
    assert set_temperature(kitchen, 4, Temperature(22.0)).record == PlaceTemperature(
        4, NOW, Temperature(22.0), id=4
    )
    assert [row.id for row in temperatures(kitchen, 4)] == [5, 4]
    assert edit_temperature(kitchen, replace(noted.record, humidity_pct=50.0)).what == (
        "Changed a temperature of the loft"
    )
    assert remove_temperature(kitchen, 5).what == "Removed a temperature of the loft"
    assert remove_place(kitchen, 4).what == "Removed the place loft"
    assert [place.name for place in places(kitchen)] == ["cellar", "freezer", "pantry"]
    assert find_place(kitchen, "pan").id == PANTRY
    assert said(lambda: add_place(kitchen, "PANTRY")) == ("There is already a place called PANTRY.", "name")
    assert said(lambda: rename_place(kitchen, CELLAR, "Pantry")) == (
        "There is already a place called Pantry.",
        "name",
    )
    assert said(lambda: add_place(kitchen, " ")) == (
        "A place needs a name, such as pantry, cellar or freezer.",
        "name",
    )
    stood = a_shelf(JAR, LotMove(1, CELLAR, NOW, 1))
    assert said(lambda: remove_place(stood, CELLAR)) == (
        "Lots have stood in the cellar; it stays, because their keep-by needs it.",
        "place",
    )
