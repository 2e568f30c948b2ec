"""The mark of what a dry matter was read from: it changes with that, and with nothing else."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import UTC, datetime, timedelta, timezone

from dryhouse.kitchen.records import Batch, BatchEvent, BatchPart, Lot, Weighing
from dryhouse.kitchen.records.learned import MARKS, batch_of, forgotten, mark_of, share_of_mark
from dryhouse.kitchen.records.weighings import EVENT_KINDS
from dryhouse.science.quantities import Duration, Length, Mass, Temperature, Volume
from tests.rows import every_row

NOON = datetime(2026, 8, 1, 12, tzinfo=UTC)
BATCH = Batch("corn", prepared_mass=Mass(900.0, "900 g"), started=NOON, id=3)
WEIGHING = Weighing(3, NOON, Mass(850.0, "850 g"), id=8)
EVENT = BatchEvent(3, NOON, "paused", id=5)
PART = BatchPart(3, 0, "corn", Mass(50.0), id=6)
OTHER = {
    str: "other", int: 7, float: 7.5, bool: True, datetime: NOON + timedelta(hours=1), Mass: Mass(7.0),
    Volume: Volume(7.0), Length: Length(7.0), Temperature: Temperature(7.0), Duration: Duration(7.0),
}  # fmt: skip


def others(record):
    """Each field with another value in it."""
    for field in fields(record):
        held = next(kind for kind in OTHER if kind.__name__ in str(field.type))
        yield field.name, replace(record, **{field.name: OTHER[held]})


@every_row(
    ("record", "rests_on"),
    [
        (
            BATCH,
            {
                "food", "form", "prepared_mass", "cooked_mass_in", "cooked_mass_out", "drained_fat",
                "set_temperature", "started", "kitchen_temperature", "kitchen_humidity_pct", "start_moisture_pct",
                "start_moisture_tested", "test_sample", "test_dry", "target_moisture_pct", "dried_mass", "settled",
            },
        ),
        (WEIGHING, {"at", "gross", "tare", "scope", "vessel", "left_out"}),
        (EVENT, {"at", "kind", "temperature", "trays", "mass"}),
        (PART, {"food", "mass", "moisture_pct"}),
    ],
)  # fmt: skip
def test_a_mark_changes_with_what_the_dry_matter_rests_on_and_with_nothing_else(record, rests_on):
    whole = mark_of([record])
    assert {name for name, other in others(record) if mark_of([other]) != whole} == rests_on


def test_what_is_left_out_or_only_told_adds_nothing():
    assert share_of_mark(replace(WEIGHING, left_out=True)) == 0
    told = {kind for kind in EVENT_KINDS if share_of_mark(replace(EVENT, kind=kind)) == 0}
    assert told == {"trays turned", "note", "remind", "taken off"}


def test_a_mark_is_the_same_in_any_order_any_zone_and_however_it_was_typed():
    every = [BATCH, WEIGHING, EVENT, PART, replace(WEIGHING, at=NOON + timedelta(hours=2), id=9)]
    assert mark_of(every) == mark_of(every[::-1])
    assert mark_of(every) == sum(map(share_of_mark, every)) % MARKS
    assert sum(map(share_of_mark, every)) > MARKS == 2**31 - 1
    elsewhere = NOON.astimezone(timezone(timedelta(hours=-5)))
    assert share_of_mark(replace(WEIGHING, at=elsewhere)) == share_of_mark(WEIGHING)
    assert share_of_mark(replace(WEIGHING, gross=Mass(850.0, "0.85 kg"))) == share_of_mark(WEIGHING)
    assert mark_of([]) == 0


def test_a_record_tells_the_batch_it_is_or_belongs_to():
    assert [batch_of(record) for record in (BATCH, WEIGHING, EVENT, PART)] == [3, 3, 3, 3]
    assert batch_of(Lot("corn", NOON.date(), batch=3, id=4)) == 0


def test_what_weighings_taught_is_forgotten_and_all_else_stays():
    taught = replace(BATCH, curve_low=0.1, curve_dry=0.2, curve_high=0.3, curve_mark=7)
    assert forgotten(taught) == BATCH
