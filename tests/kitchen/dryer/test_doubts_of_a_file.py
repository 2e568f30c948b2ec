"""Many readings of one scale at once: each is held against the last one before it that counts."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from dryhouse.kitchen.dryer.doubts import without_doubtful
from dryhouse.kitchen.dryer.weighing_files import import_weighings, read_weighings
from dryhouse.kitchen.dryer.weighing_sheets import guess, read_sheet
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.weighings import LOAD, SAMPLE, TRAY
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row


def read(hours: float, grams: float, scope: str = LOAD, vessel: str = "", left_out: bool = False) -> Weighing:
    at = NOON + timedelta(hours=hours)
    return Weighing(1, at, Mass(grams), scope=scope, vessel=vessel, left_out=left_out, id=int(hours * 100))


@every_row(
    ("earlier", "fresh", "out"),
    [
        ([], [read(1, 800), read(2, 850), read(3, 700)], [False, True, False]),
        ([read(3, 520)], [read(4, 600), read(5, 450)], [True, False]),
        ([read(3, 520)], [read(3, 600), read(5, 450)], [True, False]),  # of the same moment
        ([read(6, 300)], [read(4, 600), read(5, 450)], [False, False]),  # what comes later is not asked
        ([read(2, 640), read(3, 90, left_out=True)], [read(4, 600), read(5, 450)], [False, False]),
        ([read(2, 640), read(3, 160, SAMPLE)], [read(4, 600), read(5, 450)], [False, False]),
        (
            [read(1, 250, TRAY, "tray 1"), read(2, 150, TRAY, "tray 2")],
            [read(4, 200, TRAY, "tray 1"), read(5, 230, TRAY, "tray 1")],
            [False, True],
        ),
        # a sample tray of which nothing is known yet starts with its own first reading: 140 g of dry matter in 1000
        (
            [],
            [read(1, 1000, SAMPLE), read(2, 800, SAMPLE), read(3, 90, SAMPLE), read(4, 640, SAMPLE)],
            [False, False, True, False],
        ),
    ],
)
def test_a_reading_that_cannot_be_beside_the_last_sound_one_is_left_out(earlier, fresh, out) -> None:
    hands = Hands()
    batch = hands.kitchen.present(Batch, hands.start(), "batch")
    kept = without_doubtful(hands.kitchen, batch, earlier, fresh)
    assert [w.left_out for w in kept] == out
    assert [(w.at, w.net_g) for w in kept] == [(w.at, w.net_g) for w in fresh]


def test_a_file_of_a_sample_tray_is_brought_in_whole() -> None:
    hands = Hands()
    batch = hands.start(4000.0)
    hands.wait(9)
    sheet = read_sheet("hours,grams\n1,1000\n2,800\n3,640\n4,520\n")
    mapped = read_weighings(hands.kitchen, batch, sheet, replace(guess(sheet), scope=SAMPLE))
    done = import_weighings(hands.kitchen, batch, mapped)
    assert done.what == "Imported 4 weighings of apple"
    assert not any(w.left_out for w in hands.journal.where(Weighing))
