"""What the shelf says of a lot, and that it is worked out anew whenever its history changes."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from dryhouse.kitchen.records import BatchPart, Lot, OwnFood
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.kitchen.shelf.conditioning import end_conditioning, start_conditioning
from dryhouse.kitchen.shelf.lots import Found, check_lot, draw, edit_lot, move, open_lot, redry, throw_out
from dryhouse.kitchen.shelf.packing import Package, pack, shelve
from dryhouse.kitchen.shelf.places import edit_temperature, set_temperature, temperatures
from dryhouse.kitchen.shelf.shelf import keep_by_figure, shelf, standing_on
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.units import to_celsius
from tests.kitchen.shelf_room import (
    CELLAR,
    FREEZER,
    HEATED,
    NOW,
    PANTRY,
    TODAY,
    a_batch,
    a_shelf,
    packed,
    shelf_line,
)
from tests.rows import every_row


def standing(kitchen, lot, on=None):
    line = shelf_line(kitchen, lot, on)
    return line.standing, line.reason


def test_a_jar_of_corn_in_the_cellar_keeps_six_months():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    line = shelf_line(kitchen, lot.id)
    assert (line.standing, line.place) == ("keeping", "cellar")
    assert line.keep_by == date(2027, 4, 26)
    assert line.mass_left_g == 240.0


def test_use_soon_then_past():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    keep_by = shelf_line(kitchen, lot.id).keep_by
    assert standing(kitchen, lot.id, keep_by - timedelta(days=31))[0] == "keeping"
    assert standing(kitchen, lot.id, keep_by - timedelta(days=20))[0] == "use soon"
    assert standing(kitchen, lot.id, keep_by)[0] == "use soon"
    assert standing(kitchen, lot.id, keep_by + timedelta(days=1))[0] == "past keep-by"


def test_colder_than_anything_published_it_keeps_at_least_so_long():
    """Vegetables are published down to 60 °F only; dried meat down to a freezer of 0 °F."""
    kitchen = a_shelf(a_batch(), a_batch("turkey", 2, **HEATED), a_batch(id=3))
    cellar, cold = packed(kitchen, place=CELLAR), packed(kitchen, 3, FREEZER)
    meat = packed(kitchen, 2, FREEZER)
    assert shelf_line(kitchen, cellar.id).keeps_until == "26 Apr 2027"
    frozen = shelf_line(kitchen, cold.id)
    assert frozen.keep_by >= shelf_line(kitchen, cellar.id).keep_by
    assert (frozen.at_least, frozen.keeps_until) == (True, "at least 26 Apr 2027")
    name, reason = standing(kitchen, cold.id, frozen.keep_by + timedelta(days=1))
    assert name == "past keep-by"
    assert reason == "keeps at least until 26 Apr 2027; nothing is published beyond that for a place so cool"
    assert shelf_line(kitchen, meat.id).at_least
    travels, until = standing_on(
        kitchen, cold, frozen.keep_by - timedelta(days=3), leaves=TODAY, temperature_c=30.0
    )
    assert until < frozen.keep_by
    assert travels.reason == f"kept until {until.day} {until:%b %Y}"
    move(kitchen, [cold.id], CELLAR)
    assert not shelf_line(kitchen, cold.id).at_least


def test_turkey_without_a_recorded_precook_is_not_to_be_eaten_and_has_no_keep_by():
    kitchen = a_shelf(a_batch("turkey"), a_batch("turkey", 2, **HEATED))
    cold, heated = packed(kitchen, 1, FREEZER), packed(kitchen, 2, FREEZER)
    name, reason = standing(kitchen, cold.id)
    assert name == "do not eat"
    assert "165 °F" in reason
    assert shelf_line(kitchen, cold.id).keep_by is None
    assert keep_by_figure(kitchen, cold) is None
    assert standing_on(kitchen, cold, TODAY)[1] is None
    assert standing(kitchen, heated.id)[0] == "keeping"
    assert [line.standing for line in shelf(kitchen)] == ["do not eat", "keeping"]


def test_dried_turkey_at_room_temperature_is_past_after_fourteen_days():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen, place=PANTRY)
    line = shelf_line(kitchen, lot.id)
    assert line.keep_by == (NOW - timedelta(days=30) + timedelta(days=14)).date()
    assert line.standing == "past keep-by"


@every_row(
    ("act", "reason", "status"),
    [
        (lambda k, id: open_lot(k, id), "opened on 25 Nov 2026", "check first"),
        (lambda k, id: check_lot(k, id, Found(moist=True)), "moist", "check first"),
        (lambda k, id: check_lot(k, id, Found(mould=True)), "Mold", "do not eat"),
        (lambda k, id: check_lot(k, id, Found(smell="sour")), "smell", "do not eat"),
        (lambda k, id: redry(k, id), "dried again", "check first"),
    ],
)
def test_what_was_found_is_said_first_and_undone_it_is_not(act, reason, status):
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    done = act(kitchen, lot.id)
    assert standing(kitchen, lot.id)[0] == status
    assert reason in standing(kitchen, lot.id)[1]
    kitchen.journal.write(done.undone().changes)
    assert standing(kitchen, lot.id)[0] == "keeping"


def test_an_opened_jar_found_dry_is_in_good_standing_for_thirty_days():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    open_lot(kitchen, lot.id)
    check_lot(kitchen, lot.id, Found(moist=False, mould=False))
    assert standing(kitchen, lot.id)[0] == "keeping"
    assert standing(kitchen, lot.id, TODAY + timedelta(days=31))[0] == "check first"


def test_a_moist_jar_dried_again_and_found_dry_is_in_good_standing():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    check_lot(kitchen, lot.id, Found(moist=True), on=TODAY - timedelta(days=3))
    redry(kitchen, lot.id, TODAY - timedelta(days=2))
    check_lot(kitchen, lot.id, Found(moist=False), on=TODAY)
    assert standing(kitchen, lot.id)[0] == "keeping"


def test_mould_is_not_forgotten_when_a_later_look_finds_none():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    check_lot(kitchen, lot.id, Found(mould=True), on=TODAY - timedelta(days=3))
    check_lot(kitchen, lot.id, Found(moist=False, mould=False))
    assert standing(kitchen, lot.id)[0] == "do not eat"


def test_not_dry_enough_by_weight_is_looked_at_first():
    kitchen = a_shelf(a_batch(dried_mass=Mass(400.0)))
    lot = packed(kitchen, place=CELLAR)
    assert "Not dry enough" in standing(kitchen, lot.id)[1]


def test_fruit_wants_ten_days_of_conditioning():
    kitchen = a_shelf(a_batch("apple"))
    lot = packed(kitchen, place=CELLAR)
    assert "Condition 10 days" in standing(kitchen, lot.id)[1]
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=9))
    assert "conditioning, day 10 of 10" in standing(kitchen, lot.id)[1]
    end_conditioning(kitchen, lot.id, TODAY - timedelta(days=1))
    assert standing(kitchen, lot.id)[0] == "check first"
    start_conditioning(kitchen, lot.id, TODAY - timedelta(days=10))
    end_conditioning(kitchen, lot.id, TODAY)
    assert standing(kitchen, lot.id)[0] == "keeping"


def test_moist_without_air_is_looked_at_first():
    kitchen = a_shelf(a_batch(prepared_mass=None))
    lot = packed(kitchen, package=Package("vacuum bag", place=CELLAR))
    assert "without air" in standing(kitchen, lot.id)[1]


def test_a_lot_in_no_place_or_at_no_known_temperature_has_no_keep_by():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=None)
    line = shelf_line(kitchen, lot.id)
    assert (line.standing, line.keep_by, line.place) == ("check first", None, "")
    assert "no place is recorded" in line.reason
    assert keep_by_figure(kitchen, lot) is None


def test_a_lot_whose_batch_was_deleted_is_one_of_which_nothing_is_recorded():
    kitchen = a_shelf(a_batch("turkey", **HEATED))
    lot = packed(kitchen, place=FREEZER)
    assert standing(kitchen, lot.id)[0] == "keeping"
    pending = replace(lot, batch=None)
    from dryhouse.kitchen.ports import Change

    kitchen.journal.write([Change(lot, pending)])
    assert "No record of heating" in standing(kitchen, lot.id)[1]


def test_a_mix_with_turkey_is_asked_how_it_was_heated_and_keeps_as_long_as_turkey():
    stew = OwnFood("stew", "paddlers' stew", "mixed", id=1)
    parts = (BatchPart(1, 1, "corn", Mass(600.0), id=1), BatchPart(1, 2, "turkey", Mass(400.0), id=2))
    kitchen = a_shelf(stew, a_batch("stew", dried_mass=Mass(280.0)), *parts)
    lot = packed(kitchen, place=FREEZER)
    name, reason = standing(kitchen, lot.id)
    assert name == "do not eat"
    assert "165 °F" in reason
    kitchen = a_shelf(stew, a_batch("stew", dried_mass=Mass(280.0), **HEATED), *parts)
    frozen = (NOW - timedelta(days=30) + timedelta(days=180)).date()
    assert shelf_line(kitchen, packed(kitchen, place=FREEZER).id).keep_by == frozen


def test_a_mix_of_unnamed_ingredients_is_looked_at_first():
    kitchen = a_shelf(OwnFood("stew", "paddlers' stew", "mixed", id=1), a_batch("stew"))
    lot = packed(kitchen, place=FREEZER)
    assert "Ingredients not recorded" in standing(kitchen, lot.id)[1]


def test_bought_food_goes_by_its_printed_date():
    kitchen = a_shelf()
    lot = shelve(kitchen, "apple", Package("bag", Mass(200.0), place=CELLAR), TODAY + timedelta(days=200)).record
    assert standing(kitchen, lot.id) == ("keeping", "")
    assert standing(kitchen, lot.id, TODAY + timedelta(days=201))[0] == "past keep-by"


def test_the_freezer_does_not_take_an_apple_past_its_published_end():
    kitchen = a_shelf(a_batch("apple"))
    lot = packed(kitchen, place=FREEZER)
    assert shelf_line(kitchen, lot.id).keep_by <= (NOW - timedelta(days=30) + timedelta(days=365, hours=6)).date()


def test_a_move_back_dated_is_reckoned_from_its_own_day():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    first = shelf_line(kitchen, lot.id).keep_by
    done = move(kitchen, [lot.id], PANTRY, NOW - timedelta(days=20))
    warmer = shelf_line(kitchen, lot.id).keep_by
    assert warmer < first
    used = 10 / 182.625
    left = (1 - used) * 182.625 / 2**0.5
    assert abs((warmer - (NOW - timedelta(days=20) + timedelta(days=left)).date()).days) <= 1
    kitchen.journal.write(done.undone().changes)
    assert shelf_line(kitchen, lot.id).keep_by == first


def test_an_edited_temperature_of_a_place_moves_the_keep_by_of_what_stood_there():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    first = shelf_line(kitchen, lot.id).keep_by
    row = temperatures(kitchen, CELLAR)[0]
    edit_temperature(kitchen, replace(row, temperature=Temperature(to_celsius(80), "80 F")))
    assert (shelf_line(kitchen, lot.id).keep_by - lot.packed_on).days == 91
    edit_temperature(kitchen, row)
    assert shelf_line(kitchen, lot.id).keep_by == first
    set_temperature(kitchen, CELLAR, Temperature(to_celsius(80)), since=NOW)
    assert shelf_line(kitchen, lot.id).keep_by < first


def test_a_clock_change_costs_no_day():
    zone = ZoneInfo("America/Chicago")
    for packed_on in (date(2026, 3, 7), date(2026, 3, 8), date(2026, 10, 31), date(2026, 11, 1)):
        ended = datetime(packed_on.year, packed_on.month, packed_on.day, 18, tzinfo=UTC)
        kitchen = a_shelf(a_batch("turkey", ended=ended, **HEATED), zone=zone)
        lot = packed(kitchen, place=PANTRY)
        exact = keep_by_figure(kitchen, lot, ended).value
        assert 13.2 <= exact <= 14.0
        assert shelf_line(kitchen, lot.id).keep_by - packed_on in (timedelta(days=13), timedelta(days=14))


def test_what_is_left_and_how_the_last_of_it_went():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    draw(kitchen, lot.id, Mass(100.0))
    line = shelf_line(kitchen, lot.id)
    assert line.mass_left_g == 140.0
    assert line.volume_left_ml is not None
    draw(kitchen, lot.id, Mass(140.0))
    assert standing(kitchen, lot.id)[0] == "used up"
    assert shelf(kitchen) == ()
    assert [line.standing for line in shelf(kitchen, gone=True)] == ["used up"]


def test_thrown_out_is_gone():
    kitchen = a_shelf(a_batch())
    lot = packed(kitchen, place=CELLAR)
    throw_out(kitchen, [lot.id])
    assert standing(kitchen, lot.id)[0] == "thrown out"


def test_what_to_use_first_goes_by_keep_by_among_the_good():
    kitchen = a_shelf(a_batch(), a_batch(id=2), a_batch("turkey", 3))
    early = packed(kitchen, 1, PANTRY)
    late = packed(kitchen, 2, CELLAR)
    bad = packed(kitchen, 3, FREEZER)
    by_lot = {line.lot.id: line.first for line in shelf(kitchen)}
    assert by_lot == {early.id: 1, late.id: 2, bad.id: None}
    assert shelf(kitchen)[0].lot == bad


def test_on_a_trip_the_warm_way_counts():
    kitchen = a_shelf(a_batch("turkey", ended=NOW, **HEATED))
    lot = packed(kitchen, place=FREEZER)
    last_day = TODAY + timedelta(days=20)
    assert standing_on(kitchen, lot, last_day)[0].name == "keeping"
    on_the_way, keep_by = standing_on(
        kitchen, lot, last_day, leaves=TODAY + timedelta(days=2), temperature_c=to_celsius(80)
    )
    assert on_the_way.name == "past keep-by"
    assert keep_by < last_day
    unknown, _ = standing_on(kitchen, lot, last_day, leaves=TODAY + timedelta(days=2))
    assert unknown.name == "check first"


def test_the_book_takes_in_every_act_and_agrees_with_a_fresh_reading():
    kitchen = a_shelf(a_batch(), a_batch("apple", 2), a_batch("turkey", 3, **HEATED))
    book = ShelfBook.read(kitchen)

    def agrees(done):
        book.take(done)
        for day in (TODAY, TODAY + timedelta(days=120)):
            assert shelf(kitchen, day, gone=True, book=book) == shelf(kitchen, day, gone=True)

    jars = pack(kitchen, 1, [Package(mass=Mass(80.0), place=PANTRY) for _ in range(3)], packed_on=TODAY)
    agrees(jars)
    ids = [c.record.id for c in jars.changes if isinstance(c.record, Lot)]
    agrees(
        pack(kitchen, 2, [Package(place=CELLAR)], conditioned_from=TODAY - timedelta(days=11), conditioned_to=TODAY)
    )
    agrees(pack(kitchen, 3, [Package(place=FREEZER)]))
    moved = move(kitchen, ids, FREEZER)
    agrees(moved)
    kitchen.journal.write(moved.undone().changes)
    agrees(moved.undone())
    agrees(open_lot(kitchen, ids[0]))
    looked = check_lot(kitchen, ids[0], Found(moist=False, mass=Mass(70.0)))
    agrees(looked)
    kitchen.journal.write(looked.undone().changes)
    agrees(looked.undone())
    agrees(check_lot(kitchen, ids[0], Found(moist=True, mould=True)))
    agrees(draw(kitchen, ids[1], Mass(20.0)))
    # meat in a vacuum bag must be kept cold, so the record put right changes what is said of it
    (turkey,) = kitchen.journal.where(Lot, food="turkey")
    agrees(move(kitchen, [turkey.id], CELLAR))
    agrees(edit_lot(kitchen, replace(turkey, package="vacuum bag")))
    agrees(throw_out(kitchen, [ids[2]]))
    agrees(set_temperature(kitchen, PANTRY, Temperature(30.0), since=NOW - timedelta(days=2)))
