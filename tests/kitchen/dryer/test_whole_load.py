"""The load of a batch as one mass, whatever of it is on the dryer: taken off early, put in later, tray by tray."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.whole_load import aside_of, rounds_of
from dryhouse.kitchen.records import Batch, BatchEvent, Weighing
from dryhouse.kitchen.records.weighings import LOAD, SAMPLE, TRAY, TRAY_IN, TRAY_OFF
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import NOON, Hands

LOADED = Batch("apple", prepared_mass=Mass(1000.0), trays=4, started=NOON, id=1)


def at(hours: float):
    return NOON + timedelta(hours=hours)


def read(hours: float, grams: float, scope: str = LOAD, vessel: str = "") -> Weighing:
    return Weighing(1, at(hours), Mass(grams), scope=scope, vessel=vessel)


def test_what_came_off_counts_with_its_weight_and_what_goes_in_later_counts_before() -> None:
    events = (
        BatchEvent(1, at(3), TRAY_OFF, trays=1, mass=Mass(60.0)),
        BatchEvent(1, at(1), TRAY_IN, trays=1, mass=Mass(250.0)),
    )
    aside = aside_of(LOADED, (), events)
    assert [aside.grams(at(h)) for h in (0, 0.9, 1, 2.9, 3, 9)] == [250, 250, 0, 0, 60, 60]
    assert [aside.trays(at(h)) for h in (0.9, 2, 9)] == [1, 0, 1]
    assert not aside.supposed


def test_a_tray_that_was_not_weighed_is_its_share_of_the_load_and_said_to_be_supposed() -> None:
    aside = aside_of(LOADED, [read(2, 600)], [BatchEvent(1, at(3), TRAY_OFF, trays=1)])
    assert aside.grams(at(4)) == pytest.approx(150)
    assert aside.supposed
    again = [BatchEvent(1, at(3), TRAY_OFF, trays=1), BatchEvent(1, at(5), TRAY_OFF, trays=1)]
    assert aside_of(LOADED, [read(2, 600), read(4, 330)], again).grams(at(6)) == pytest.approx(150 + 110)


def test_trays_weighed_one_after_the_other_add_up_once_all_of_them_were() -> None:
    singles = [read(1 + n / 60, 200 + n, TRAY, f"tray {n}") for n in (1, 2, 3, 4)]
    (found,) = rounds_of(LOADED, singles, aside_of(LOADED, (), ()))
    assert (found.net_g, found.trays) == (810, 4)
    assert rounds_of(LOADED, singles[:3], aside_of(LOADED, (), ())) == ()
    late = [*singles[:3], read(3, 204, TRAY, "tray 4")]
    assert rounds_of(LOADED, late, aside_of(LOADED, (), ())) == ()


def test_a_round_needs_no_tray_that_is_off() -> None:
    events = [BatchEvent(1, at(2), TRAY_OFF, trays=1, mass=Mass(60.0))]
    aside = aside_of(LOADED, (), events)
    singles = [
        *(read(1 + n / 60, 200, TRAY, f"tray {n}") for n in (1, 2, 3, 4)),
        *(read(3 + n / 60, 100, TRAY, f"tray {n}") for n in (1, 2, 3)),
    ]
    assert [r.net_g + aside.grams(r.at) for r in rounds_of(LOADED, singles, aside)] == [800, 360]


def test_the_run_of_trays_weighed_in_rounds_is_the_run_of_the_load() -> None:
    whole, trays = Hands(), Hands()
    first, second = whole.start(), trays.start()
    for hour, grams in ((1, 800), (2, 640), (3, 520)):
        for hands in (whole, trays):
            hands.time = NOON + timedelta(hours=hour)
        whole.weigh(first, grams)
        for tray in range(1, 5):
            trays.weigh(second, grams / 4, vessel=f"tray {tray}")
    one, other = run_of(whole.kitchen, first), run_of(trays.kitchen, second)
    assert [p.net_g for p in other.points] == [p.net_g for p in one.points]
    assert other.moisture.value == pytest.approx(one.moisture.value)
    assert other.last_weighed == one.last_weighed


def test_one_tray_that_is_weighed_alone_stands_for_the_load_as_a_sample_does() -> None:
    hands = Hands()
    batch = hands.start()
    hands.weigh(batch, 250, vessel="tray 2")
    hands.wait(2)
    hands.weigh(batch, 160, vessel="tray 2")
    run = run_of(hands.kitchen, batch)
    assert run.scope == TRAY
    assert run.load.grams == 250
    assert run.verdict.of_sample


@pytest.mark.parametrize(
    ("trays", "off", "last", "grams", "supposed"),
    [
        (4, (1,), 600.0, (150.0,), True),
        (4, (3,), 600.0, (450.0,), True),
        (4, (None, None), 600.0, (150.0, 200.0), True),  # one of four, then one of the three that are left
        (4, (1,), None, (250.0,), True),  # of what was loaded
        (4, (4,), 600.0, (0.0,), True),  # all of it: nothing is left to share
        (None, (1,), 600.0, (0.0,), True),
    ],
)
def test_trays_that_were_not_weighed_take_their_share(trays, off, last, grams, supposed) -> None:
    batch = replace(LOADED, trays=trays)
    events = [BatchEvent(1, at(3 + n), TRAY_OFF, trays=count, id=n) for n, count in enumerate(off)]
    aside = aside_of(batch, [read(2, last)] if last else [], events)
    assert tuple(g for _, g, _ in aside.off) == pytest.approx(grams)
    assert [n for _, _, n in aside.off] == [count or 1 for count in off]
    assert aside.supposed is supposed
    assert aside_of(replace(batch, prepared_mass=None), [], events).grams(at(9)) == 0.0


def test_trays_put_in_later_are_counted_and_one_where_nobody_said_how_many() -> None:
    events = [
        BatchEvent(1, at(n), TRAY_IN, trays=count, mass=Mass(250.0), id=n) for n, count in ((1, None), (2, 2))
    ]
    assert [aside_of(LOADED, (), events).trays(at(h)) for h in (0, 1.5, 2)] == [3, 2, 0]


def test_a_round_takes_three_quarters_of_an_hour_at_most_and_stands_in_its_middle() -> None:
    nothing = aside_of(LOADED, (), ())
    for minutes, found in ((45, [(at(1.375), 802, 4)]), (46, [])):
        singles = [read(1 + n * minutes / 180, 200 + n / 3, TRAY, f"tray {n}") for n in (0, 1, 2, 3)]
        assert [(r.at, round(r.net_g, 9), r.trays) for r in rounds_of(LOADED, singles, nothing)] == found
    two = [read(1, 300, TRAY, "tray 1"), read(1.5, 320, TRAY, "tray 2")]
    assert [r.at for r in rounds_of(replace(LOADED, trays=None), two, nothing)] == [at(1.25)]


def test_what_is_off_counts_with_every_round_of_trays() -> None:
    hands = Hands()
    batch = hands.start()
    for hour, grams, trays in ((1, 200, (1, 2, 3, 4)), (3, 120, (1, 2, 3))):
        hands.time = at(hour)
        if hour == 3:
            add_event(hands.kitchen, batch, Happening(TRAY_OFF, trays=1, mass=Mass(60.0), at=at(2)))
        for tray in trays:
            hands.weigh(batch, grams, vessel=f"tray {tray}")
    assert [p.net_g for p in run_of(hands.kitchen, batch).points] == [1000, 800, 420]


def test_rounds_of_trays_are_points_of_the_load_alone_and_of_no_sample() -> None:
    bare, sampled = Hands(), Hands()
    first, second = bare.start(None), sampled.start(4000.0)
    for hour, grams in ((1, 250), (2, 200)):
        for hands, batch, each in ((bare, first, grams), (sampled, second, 4 * grams)):
            hands.time = at(hour)
            for tray in range(1, 5):
                hands.weigh(batch, each, vessel=f"tray {tray}")
        sampled.weigh(second, grams, scope=SAMPLE)
    sampled.wait(1)
    sampled.weigh(second, 160, scope=SAMPLE)
    rounds = [(p.hours, p.net_g, p.trays) for p in run_of(bare.kitchen, first).points]
    assert rounds == [(0.0, 1000.0, 0), (1.0, 1000.0, 4), (2.0, 800.0, 4)]
    run = run_of(sampled.kitchen, second)
    assert [(p.hours, p.net_g, p.trays) for p in run.points] == [(1.0, 250.0, 0), (2.0, 200.0, 0), (3.0, 160.0, 0)]
    assert len(run.others) == 8
