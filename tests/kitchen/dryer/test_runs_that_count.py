"""Which finished runs teach the next one, and which don't look like drying."""

from __future__ import annotations

from datetime import timedelta

from dryhouse.kitchen.dryer.earlier_runs import earlier_runs
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.weighings import SAMPLE
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import APPLE, NOON, Hands
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
