"""Which finished runs teach the next one, and which don't look like drying."""

from __future__ import annotations

from datetime import timedelta

import pytest

import dryhouse.kitchen.dryer.earlier_runs as looked_at
from dryhouse.kitchen.dryer.earlier_runs import earlier_runs
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.weighings import LOAD, PAUSED, RESUMED, SAMPLE, TRAY_OFF
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import APPLE, NOON, STRANGER, Hands
from tests.rows import every_row


@every_row(
    ("grams", "counts"),
    [
        # of a kilogram of apple 140 g are dry matter and 860 g water; at 742 g 70 % of the water is left
        ((1000, 930, 865, 801, 741), True),
        ((1000, 930, 865, 803, 743), False),  # hardly begun
        ((1000, 480, 250, 160, 98), True),
        ((1000, 480, 250, 160, 96), False),  # more than a twentieth of the water below its dry matter
        ((1000, 300, 900, 250, 700), False),  # up and down: no curve
        ((1000, 480, 250, 160), False),  # four weighings
        ((1000, 1000, 1000, 1000, 1000), False),
    ],
)
def test_a_run_counts_from_five_weighings_on_that_look_like_drying(grams, counts) -> None:
    ended = NOON + timedelta(hours=9)
    done = Batch("apple", state=FINISHED, started=NOON, ended=ended, prepared_mass=Mass(4000.0), id=1)
    read = [
        Weighing(1, NOON + timedelta(hours=h), Mass(float(g)), scope=SAMPLE, id=h + 1) for h, g in enumerate(grams)
    ]
    found = earlier_runs(Hands(done, *read).kitchen, APPLE)
    assert [(run.batch, run.weighings) for run in found] == ([(1, len(grams))] if counts else [])


GRAMS = (914.0, 570.0, 398.0, 312.0, 226.0)
"""Of a kilogram with 140 g of dry matter: 0.9, 0.5, 0.3, 0.2 and 0.1 of the water are left."""


def later(hours: float):
    return NOON + timedelta(hours=hours)


@every_row(
    ("scope", "hours", "dried", "events", "points"),
    [
        (LOAD, (1, 3, 5, 7, 9), None, (), [(0, 1), (1, 0.9), (3, 0.5), (5, 0.3), (7, 0.2), (9, 0.1)]),
        (LOAD, (0.03, 3, 5, 7, 9), None, (), [(0, 1), (0.03, 0.9), (3, 0.5), (5, 0.3), (7, 0.2), (9, 0.1)]),
        # weighed as it went on: that is the start
        (LOAD, (0.01, 3, 5, 7, 9), None, (), [(0, 0.9), (2.99, 0.5), (4.99, 0.3), (6.99, 0.2), (8.99, 0.1)]),
        (
            LOAD, (1, 3, 5, 7, 9), (12, 183.0), (),
            [(0, 1), (1, 0.9), (3, 0.5), (5, 0.3), (7, 0.2), (9, 0.1), (12, 0.05)],
        ),
        # taken off with the last weighing
        (LOAD, (1, 3, 5, 7, 9), (9.01, 183.0), (), [(0, 1), (1, 0.9), (3, 0.5), (5, 0.3), (7, 0.2), (9, 0.1)]),
        (
            LOAD, (1, 3, 5, 7, 11), None, ((PAUSED, 8.0, None), (RESUMED, 10.0, None)),
            [(0, 1), (1, 0.9), (3, 0.5), (5, 0.3), (7, 0.2), (9, 0.1)],
        ),
        # what was taken off early counts on: 86 g are a tenth of the water
        (
            LOAD, (1, 3, 5, 7, 9), None, ((TRAY_OFF, 6.0, 86.0),),
            [(0, 1), (1, 0.9), (3, 0.5), (5, 0.3), (7, 0.3), (9, 0.2)],
        ),
        # a sample tray starts with its first weight; the dried load is not its own
        (
            SAMPLE, (1, 3, 5, 7, 9), (12, 183.0), ((TRAY_OFF, 6.0, 86.0),),
            [(0, 1), (2, 570 / 914), (4, 398 / 914), (6, 312 / 914), (8, 226 / 914)],
        ),
    ],
)  # fmt: skip
def test_a_run_is_the_share_of_the_water_that_was_left_at_each_hour(scope, hours, dried, events, points) -> None:
    ended, dried_g = dried or (20.0, None)
    done = Batch(
        "apple", state=FINISHED, started=NOON, ended=later(ended), prepared_mass=Mass(1000.0), trays=4, id=1,
        dried_mass=Mass(dried_g) if dried_g else None,
    )  # fmt: skip
    weights = zip(hours, GRAMS, strict=True)
    read = [Weighing(1, later(h), Mass(g), scope=scope, id=n) for n, (h, g) in enumerate(weights, 1)]
    noted = [
        BatchEvent(1, later(h), kind, trays=1 if g else None, mass=Mass(g) if g else None, id=n)
        for n, (kind, h, g) in enumerate(events, 1)
    ]
    seen: list[tuple[float, float]] = []
    whole = looked_at._page
    looked_at._page = lambda hours, left: seen.extend(zip(hours, left, strict=True))
    try:
        assert earlier_runs(Hands(done, *read, *noted).kitchen, APPLE) == ()
    finally:
        looked_at._page = whole
    if scope == SAMPLE:  # its own 914 g hold 14 % of dry matter
        points = [(h, (share - 0.14) / 0.86) for h, share in points]
    assert [h for h, _ in seen] == pytest.approx([h for h, _ in points])
    assert [left for _, left in seen] == pytest.approx([left for _, left in points])


@every_row(
    ("more", "food"),
    [
        ({"food": "sorrel"}, STRANGER),  # nothing is known of its water
        ({"start_moisture_pct": 0.0, "start_moisture_tested": True}, APPLE),  # nothing to lose
        ({"started": None}, APPLE),
        ({"state": "drying", "ended": None}, APPLE),
    ],
)
def test_a_run_of_which_too_little_is_known_teaches_nothing(more, food) -> None:
    told = {"food": "apple", "state": FINISHED, "started": NOON, "ended": later(20), "prepared_mass": Mass(1000.0)}
    read = [Weighing(1, later(2 * n), Mass(g), id=n) for n, g in enumerate(GRAMS, 1)]
    assert earlier_runs(Hands(Batch(**{**told, **more}, id=1), *read).kitchen, food) == ()
