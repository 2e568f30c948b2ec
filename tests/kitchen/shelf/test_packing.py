"""Packing a batch into jars and bags, and shelving bought food."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from dryhouse.kitchen.records import Batch, Lot, LotMove
from dryhouse.kitchen.records.batches import DRYING, PLANNED
from dryhouse.kitchen.shelf.packing import (
    Package,
    batch_to_pack,
    may_be_packed,
    pack,
    servings_left,
    shelve,
    split,
    split_servings,
    unpacked_g,
    unpacked_ml,
)
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from tests.kitchen.shelf_room import CELLAR, FREEZER, NOW, PANTRY, TODAY, a_batch, a_shelf, shelf_line
from tests.rows import every_row


def batch_of(kitchen):
    return kitchen.journal.get(Batch, 1)


def test_three_jars_share_what_was_dried():
    kitchen = a_shelf(a_batch())
    jars = split(kitchen, batch_of(kitchen), 3, Package("jar", place=PANTRY))
    done = pack(kitchen, 1, jars)
    assert done.what.endswith("into 3 jars")
    lots = kitchen.journal.where(Lot)
    assert [lot.mass.si for lot in lots] == pytest.approx([80.0] * 3)
    assert [lot.volume.si for lot in lots] == pytest.approx([200.0] * 3)
    assert unpacked_g(kitchen, batch_of(kitchen)) == pytest.approx(0.0)


def test_jars_and_bags_in_different_places():
    kitchen = a_shelf(a_batch())
    done = pack(kitchen, 1, [Package("jar", Mass(100.0), place=CELLAR), Package("bag", Mass(140.0), place=FREEZER)])
    assert "1 jar, 1 bag" in done.what
    assert [shelf_line(kitchen, lot.id).place for lot in kitchen.journal.where(Lot)] == ["cellar", "freezer"]


def test_more_than_was_dried_is_refused_unless_it_is_meant():
    kitchen = a_shelf(a_batch())
    packages = [Package(mass=Mass(200.0)), Package(mass=Mass(200.0))]
    with pytest.raises(InputProblem, match=r"hold 14\.1 oz together, but only 8\.5 oz"):
        pack(kitchen, 1, packages)
    assert kitchen.journal.where(Lot) == ()
    assert "more than was weighed dry" in pack(kitchen, 1, packages, more_than_dried=True).what


def test_a_batch_that_was_only_planned_is_not_packed():
    kitchen = a_shelf(a_batch(state=PLANNED))
    with pytest.raises(InputProblem, match="has not been dried yet"):
        pack(kitchen, 1, [Package(mass=Mass(200.0, "200 g"))])


def test_a_batch_that_is_still_on_the_dryer_is_not_packed():
    kitchen = a_shelf(a_batch(state=DRYING, ended=None, dried_mass=None, dried_volume=None, felt=""))
    with pytest.raises(InputProblem, match="Batch 1 is still on the dryer: take it off first"):
        pack(kitchen, 1, [Package(mass=Mass(200.0, "200 g"))])
    assert kitchen.journal.where(Lot) == ()


def test_packages_are_told_in_the_unit_they_were_typed_in():
    kitchen = a_shelf(a_batch())
    with pytest.raises(InputProblem, match="hold 400 g together, but only 240 g"):
        pack(kitchen, 1, [Package(mass=Mass(400.0, "400 g"))])


def test_what_is_packed_already_is_not_packed_again():
    kitchen = a_shelf(a_batch())
    pack(kitchen, 1, [Package(mass=Mass(200.0))])
    with pytest.raises(InputProblem, match=r"only 1\.4 oz of the batch is left"):
        pack(kitchen, 1, [Package(mass=Mass(100.0))])


def test_one_jar_without_a_mass_holds_the_rest():
    kitchen = a_shelf(a_batch())
    pack(kitchen, 1, [Package(mass=Mass(200.0))])
    assert pack(kitchen, 1, [Package()]).record.mass.si == pytest.approx(40.0)


def test_packing_is_undone_whole():
    kitchen = a_shelf(a_batch())
    done = pack(kitchen, 1, split(kitchen, batch_of(kitchen), 3, Package(place=PANTRY)))
    kitchen.journal.write(done.undone().changes)
    assert kitchen.journal.where(Lot) == ()
    assert kitchen.journal.where(LotMove) == ()


@every_row(
    ("packages", "more", "sentence"),
    [
        ([], {}, "at least one"),
        ([Package("basket")], {}, "no package here"),
        ([Package(place=9)], {}, "place is no longer"),
        ([Package()], {"packed_on": TODAY + timedelta(days=5)}, "still to come"),
        ([Package()], {"packed_on": date(2026, 1, 1)}, "before the batch"),
    ],
)
def test_what_cannot_be_right_is_refused(packages, more, sentence):
    kitchen = a_shelf(a_batch())
    with pytest.raises(InputProblem, match=sentence):
        pack(kitchen, 1, packages, **more)
    assert kitchen.journal.where(Lot) == ()


def test_a_batch_that_is_gone_and_a_silly_count_are_refused():
    kitchen = a_shelf(a_batch())
    with pytest.raises(InputProblem, match="batch is no longer"):
        pack(kitchen, 9, [Package()])
    with pytest.raises(InputProblem, match="between 1 and 200"):
        split(kitchen, batch_of(kitchen), 0)
    with pytest.raises(InputProblem, match="between 1 and 200"):
        split(kitchen, batch_of(kitchen), 201)
    assert len(split(kitchen, batch_of(kitchen), 200)) == 200


def test_bought_food_needs_its_printed_date():
    kitchen = a_shelf()
    with pytest.raises(InputProblem, match="Which date"):
        shelve(kitchen, "apple", Package("bag"), None)
    with pytest.raises(InputProblem, match="before the day"):
        shelve(kitchen, "apple", Package("bag"), TODAY - timedelta(days=1))
    done = shelve(kitchen, "apple", Package("bag", Mass(250.0), place=PANTRY), TODAY + timedelta(days=90))
    assert done.record.batch is None
    assert done.what == "Added apple to the shelf"


@every_row(
    ("grams", "packed"),
    [((102.0,), True), ((102.5,), True), ((102.6,), False), ((50.0, 52.5), True), ((50.0, 53.0), False)],
)
def test_two_in_a_hundred_and_half_a_gram_more_than_was_dried_is_let_pass(grams, packed):
    """100 g dried: 102.5 g."""
    kitchen = a_shelf(a_batch(dried_mass=Mass(100.0)))
    packages = [Package(mass=Mass(g)) for g in grams]
    if packed:
        assert "more than was weighed" not in pack(kitchen, 1, packages).what
    else:
        with pytest.raises(InputProblem, match=r"only 3\.5 oz of the batch is left"):
            pack(kitchen, 1, packages)


@every_row(
    ("batch", "lots", "left", "open"),
    [
        ({}, (), 240.0, True),
        ({}, (239.5,), 0.5, False),
        ({}, (239.0,), 1.0, False),
        ({}, (238.5,), 1.5, True),
        ({}, (300.0,), 0.0, False),
        ({"dried_mass": None}, (), None, True),
        ({"state": "drying"}, (), 240.0, False),
    ],
)
def test_what_is_left_to_pack_is_what_was_dried_less_what_is_packed(batch, lots, left, open):
    made = a_batch(**batch)
    kitchen = a_shelf(made, *(Lot("corn", TODAY, batch=1, mass=Mass(g), id=n) for n, g in enumerate(lots, 1)))
    assert unpacked_g(kitchen, made) == (None if left is None else pytest.approx(left))
    assert may_be_packed(kitchen, made) is open


def test_a_batch_that_was_only_measured_is_shared_by_measure():
    made = a_batch(dried_mass=None)
    kitchen = a_shelf(made)
    assert [(p.mass, p.volume.si) for p in split(kitchen, made, 3)] == [(None, 200.0)] * 3
    pack(kitchen, 1, [Package(volume=Volume(500.0))])
    assert unpacked_ml(kitchen, made) == 100.0
    with pytest.raises(InputProblem, match="is packed already"):
        pack(kitchen, 1, [Package(volume=Volume(103.0))])
    pack(kitchen, 1, [Package(volume=Volume(102.0))])
    assert unpacked_ml(kitchen, made) == 0.0
    with pytest.raises(InputProblem, match="is packed already"):
        pack(kitchen, 1, [Package()])
    assert unpacked_ml(kitchen, a_batch()) is None
    assert unpacked_ml(kitchen, a_batch(dried_mass=None, dried_volume=None)) is None


@every_row(("left", "refused"), [(0.4, True), (0.5, True), (0.6, False)])
def test_jars_without_weights_are_refused_where_no_scale_would_show_what_is_left(left, refused):
    kitchen = a_shelf(a_batch())
    pack(kitchen, 1, [Package(mass=Mass(240.0 - left))])
    if refused:
        with pytest.raises(InputProblem, match="is packed already"):
            pack(kitchen, 1, [Package(), Package()])
    else:
        assert pack(kitchen, 1, [Package(), Package()]).what.endswith("into 2 jars")


@every_row(("days", "taken"), [(0, True), (1, True), (2, False), (-30, True), (-31, False)])
def test_a_day_of_packing_lies_between_the_dryer_and_tomorrow(days, taken):
    kitchen = a_shelf(a_batch(started=NOW - timedelta(days=30)))
    day = TODAY + timedelta(days=days)
    if taken:
        assert pack(kitchen, 1, [Package()], packed_on=day).record.packed_on == day
    else:
        with pytest.raises(InputProblem):
            pack(kitchen, 1, [Package()], packed_on=day)


@every_row(
    ("days", "moved"),
    [
        (0, NOW),
        (-3, datetime(2026, 11, 22, 23, 59, 59, tzinfo=UTC)),
        (1, datetime(2026, 11, 26, tzinfo=UTC)),
    ],
)
def test_a_lot_stands_in_its_place_from_its_day_on(days, moved):
    kitchen = a_shelf(a_batch())
    pack(kitchen, 1, [Package(place=PANTRY)], packed_on=TODAY + timedelta(days=days))
    (move,) = kitchen.journal.where(LotMove)
    assert (move.place, move.at) == (PANTRY, moved)


def test_an_open_container_is_never_sealed_and_packages_are_counted_by_kind():
    kitchen = a_shelf(a_batch())
    kinds = ("tin", "tin", "jar with absorber", "jar with absorber", "open container", "bag")
    done = pack(kitchen, 1, [Package(kind, Mass(10.0), name=" mine ", notes=" n ") for kind in kinds])
    assert done.what.endswith("into 2 tins, 2 jars with absorber, 1 open container, 1 bag")
    lots = kitchen.journal.where(Lot)
    assert [lot.sealed for lot in lots] == [True, True, True, True, False, True]
    assert {(lot.name, lot.notes, lot.food, lot.batch) for lot in lots} == {("mine", "n", "corn", 1)}
    opened = shelve(kitchen, "apple", Package("open container", name=" rings "), TODAY)
    assert (opened.record.sealed, opened.what, opened.record.origin) == (
        False,
        "Added rings to the shelf",
        "bought",
    )
    assert shelve(kitchen, "apple", Package(), TODAY).what == "Added apple to the shelf"


def test_a_batch_to_pack_is_named_by_its_number_or_is_the_only_one_left_of_its_name():
    kitchen = a_shelf(a_batch(), a_batch(id=2), a_batch("apple", 3), a_batch(id=4, state="drying"))
    assert batch_to_pack(kitchen, "#2").id == 2
    assert batch_to_pack(kitchen, "apple").id == 3
    with pytest.raises(InputProblem, match=r"to be packed \(1, 2\); give its number"):
        batch_to_pack(kitchen, "corn")
    pack(kitchen, 2, [Package()])
    assert batch_to_pack(kitchen, "corn").id == 1
    pack(kitchen, 1, [Package()])
    with pytest.raises(InputProblem, match="No finished batch called “corn”"):
        batch_to_pack(kitchen, "corn")


@every_row(
    ("packed", "each", "count"),
    [(0.0, 1.0, 6), (0.0, 2.0, 3), (0.0, 4.0, 2), (40.0, 1.0, 5), (200.0, 1.0, 1), (225.0, 1.0, 0), (0.0, 0.0, 0),
     (240.0, 1.0, 0), (0.0, 13.0, 0)],
)  # fmt: skip
def test_a_pot_is_packed_by_its_servings(packed, each, count):
    made = a_batch(servings=6.0)
    kitchen = a_shelf(made)
    if packed:
        pack(kitchen, 1, [Package(mass=Mass(packed))])
    assert servings_left(kitchen, made) == pytest.approx(6.0 * (240.0 - packed) / 240.0)
    if not count:
        said = "packed already" if packed == 240.0 else "fewer servings"
        with pytest.raises(InputProblem, match=said):
            split_servings(kitchen, made, each)
        return
    shares = split_servings(kitchen, made, each)
    assert [s.mass.si for s in shares] == [pytest.approx((240.0 - packed) / count)] * count
    assert {s.kind for s in shares} == {"bag"}
    first = 6 - count
    named = [f"{first + n} of 6" for n in range(1, count + 1)] if each == 1.0 else [""] * count
    assert [s.name for s in shares] == named


def test_without_servings_or_a_dried_weight_nothing_is_left_by_servings():
    for missing in ({}, {"servings": 6.0, "dried_mass": None}):
        made = a_batch(**missing)
        assert servings_left(a_shelf(made), made) is None
        with pytest.raises(InputProblem, match="how many servings"):
            split_servings(a_shelf(made), made)


def test_who_says_that_more_was_packed_is_believed_without_weights_and_the_last_crumbs_are_packed_by_weight():
    kitchen = a_shelf(a_batch())
    pack(kitchen, 1, [Package(mass=Mass(239.6))])
    assert pack(kitchen, 1, [Package(mass=Mass(0.4))]).what.endswith("into 1 jar")
    done = pack(kitchen, 1, [Package(), Package("bag")], more_than_dried=True)
    assert done.what.endswith("into 1 jar, 1 bag")
    assert [lot.mass for lot in kitchen.journal.where(Lot)][2:] == [None, None]


@every_row(
    ("act", "said", "field"),
    [
        (lambda k: pack(k, 1, []), "Pack it into at least one jar or bag.", "packages"),
        (lambda k: pack(k, 2, [Package()]), "Batch 2 has not been dried yet: start it or log it first.", "batch"),
        (
            lambda k: pack(k, 1, [Package()], packed_on=TODAY + timedelta(days=2)),
            "That day is still to come.",
            "packed_on",
        ),
        (
            lambda k: pack(k, 1, [Package()], packed_on=date(2026, 1, 1)),
            "That is before the batch went into the dryer.",
            "packed_on",
        ),
        (
            lambda k: pack(k, 1, [Package(mass=Mass(400.0, "400 g"))]),
            "The packages hold 400 g together, but only 240 g of the batch is left to pack. Correct the weights, "
            "or say that more was packed than was weighed.",
            "mass",
        ),
        (
            lambda k: pack(k, 3, [Package()]),
            "All of sweet corn is packed already. To pack it otherwise, remove its lots first; where it came to "
            "more than was weighed, give the weight of each package.",
            "packages",
        ),
        (lambda k: split(k, batch_of(k), 0), "Pack into between 1 and 200 jars or bags.", "count"),
        (
            lambda k: split_servings(k, batch_of(k)),
            "Say first how many servings this pot made; then it is packed by them.",
            "servings",
        ),
        (
            lambda k: shelve(k, "apple", Package(), None),
            "Which date is printed on the package? Without one this program cannot tell.",
            "bought_keep_by",
        ),
        (
            lambda k: shelve(k, "apple", Package(), TODAY, bought_on=TODAY + timedelta(days=2)),
            "That day is still to come.",
            "packed_on",
        ),
        (
            lambda k: batch_to_pack(k, "corn"),
            "No finished batch called “corn” is still to be packed.",
            "batch",
        ),
    ],
)
def test_packing_is_refused_in_one_sentence(act, said, field):
    planned, full = a_batch(id=2, state=PLANNED), a_batch(id=3, dried_mass=Mass(0.4), title="")
    kitchen = a_shelf(a_batch(food="apple", title="rings", dried_mass=Mass(240.0)), planned, full)
    kitchen.journal.kept[Lot][1] = Lot("corn", TODAY, batch=3, mass=Mass(0.4), id=1)
    with pytest.raises(InputProblem) as caught:
        act(kitchen)
    assert (caught.value.said, caught.value.field) == (said, field)


def test_a_lot_holds_all_that_was_said_of_its_package():
    kitchen = a_shelf(a_batch())
    package = Package("tin", Mass(50.0), Volume(90.0), CELLAR, False, " first ", " dry ", True)
    days = {"conditioned_from": TODAY - timedelta(days=11), "conditioned_to": TODAY - timedelta(days=1)}
    done = pack(kitchen, 1, [package, Package(mass=Mass(20.0))], packed_on=TODAY - timedelta(days=1), **days)
    assert done.what == "Packed sweet corn into 1 tin, 1 jar"
    told = {"batch": 1, **days}
    assert kitchen.journal.where(Lot) == (
        Lot("corn", TODAY - timedelta(days=1), "first", package="tin", sealed=False, mass=Mass(50.0),
            volume=Volume(90.0), in_oil=True, notes="dry", id=1, **told),
        Lot("corn", TODAY - timedelta(days=1), mass=Mass(20.0), id=2, **told),
    )  # fmt: skip
    bought = shelve(kitchen, "apple", package, TODAY + timedelta(days=9), bought_on=TODAY - timedelta(days=1))
    assert bought.record == Lot(
        "apple", TODAY - timedelta(days=1), "first", package="tin", sealed=False, mass=Mass(50.0),
        volume=Volume(90.0), bought_keep_by=TODAY + timedelta(days=9), origin="bought", in_oil=True, notes="dry",
        id=3,
    )  # fmt: skip


def test_an_equal_share_is_of_what_is_left_by_weight_and_by_measure():
    """240 g in 600 ml; of 60 g left two jars hold 30 g and 75 ml each."""
    kitchen = a_shelf(a_batch())
    pack(kitchen, 1, [Package(mass=Mass(180.0))])
    like = Package("bag", place=CELLAR, name="x")
    assert (
        split(kitchen, batch_of(kitchen), 2, like)
        == (Package("bag", Mass(30.0), Volume(75.0), CELLAR, name="x"),) * 2
    )
    pack(kitchen, 1, [Package()])
    assert split(kitchen, batch_of(kitchen), 2) == (Package(), Package())
    unmeasured = a_batch(dried_volume=None)
    assert split(a_shelf(unmeasured), unmeasured, 3) == (Package(mass=Mass(80.0)),) * 3
    nothing = a_batch(dried_volume=None, dried_mass=None)
    assert split(a_shelf(nothing), nothing, 1) == (Package(),)
