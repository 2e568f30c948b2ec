"""A scale that reports by itself, played through a pseudo-terminal, and what of it comes into the journal."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest

from dryhouse.kitchen.dryer.drying import take_off, weighings_of
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.instruments.follower import Following, Instrument, Kept, record_kept
from dryhouse.kitchen.instruments.lines import Sample, Way
from dryhouse.kitchen.instruments.serial_port import SerialPort
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from dryhouse.science.quantities import Temperature
from tests.kitchen.drying_room import NOON, Hands
from tests.kitchen.instruments.played_scale import LOAD_G, PlayedScale, Ticking, true_g
from tests.rows import every_row


@pytest.fixture
def hands() -> Hands:
    hands = Hands()
    hands.start(LOAD_G)
    return hands


def instrument(path, **more) -> Instrument:
    return replace(Instrument("the pantry scale", str(path), 1, serial=True), **more)


class Pantry:
    """A scale, its port, and who follows it."""

    def __init__(self, hands: Hands, path) -> None:
        self.hands, self.clock = hands, Ticking(NOON)
        self.scale = PlayedScale(path)
        self.instrument = instrument(path)
        self.port = SerialPort(str(path))
        self.following = Following(hands.kitchen, self.instrument)
        self.said: list[str] = []

    def run(self, seconds: int, *, every: int = 1, silent: bool = False, **shown) -> None:
        """So many seconds, a line every few."""
        for _ in range(0, seconds, every):
            self.hands.time = self.clock.tick(every)
            if not silent:
                self.scale.show(self.clock.hours, **shown)
            self.look()

    def look(self) -> None:
        kept, said = self.following.take(self.port.lines(self.clock.time), self.clock.time)
        self.said += said
        if kept:
            record_kept(self.hands.kitchen, self.instrument, kept)

    def count(self, words: str) -> int:
        return sum(words in sentence for sentence in self.said)


@pytest.fixture
def pantry(hands, tmp_path):
    pantry = Pantry(hands, tmp_path / "ttyScale")
    yield pantry
    pantry.port.close()
    pantry.scale.unplug()


def test_a_day_of_noise_drift_lifted_trays_garbage_and_unplugging_gives_the_true_curve(pantry, hands) -> None:
    pantry.run(7200, every=2)
    pantry.run(300, off=-260.0)
    pantry.run(1800, every=2)
    pantry.run(30, off=900.0)
    pantry.run(1800, every=2)
    for _ in range(60):
        pantry.scale.send(b"\xff\x00@@##\r\n")
        hands.time = pantry.clock.tick()
        pantry.look()
    pantry.run(1800, every=2)
    pantry.run(900, unit="oz")
    pantry.run(900)
    pantry.scale.unplug()
    pantry.run(600, silent=True)
    pantry.scale.plug_in()
    pantry.run(3600, every=2)
    found = weighings_of(hands.kitchen, 1)
    assert len(found) > 25
    assert all(w.instrument == "the pantry scale" and not w.left_out for w in found)
    off = [abs(w.net_g - true_g((w.at - NOON).total_seconds() / 3600)) for w in found]
    assert max(off) < 0.01 * LOAD_G
    gaps = [(b.at - a.at).total_seconds() for a, b in pairwise(found)]
    assert min(gaps) >= 300
    assert max(gaps) < 2500
    run = run_of(hands.kitchen, 1)
    for hour in (0.5, 1.0, 2.0, 3.0, 4.0):
        fitted = run.load.solids + (LOAD_G - run.load.solids) * float(run.curves.chosen.at([hour])[0])
        assert abs(fitted - true_g(hour)) < 0.01 * LOAD_G
    assert pantry.count("a tray was lifted") == 2
    assert pantry.count("is back; readings go on") == 2
    assert pantry.count("hold no weight") == 1
    assert pantry.count("another unit") == 2
    assert pantry.count("Nothing comes") == 1
    assert pantry.count("reports again") == 1
    assert pantry.count("drifts") == 0


def test_a_scale_that_climbs_is_said_to_drift_and_not_believed(pantry, hands) -> None:
    pantry.run(1200)
    before = len(weighings_of(hands.kitchen, 1))
    for minute in range(30):
        pantry.run(60, every=4, off=2.0 * minute + 40.0 * min(minute, 10) / 10)
    assert pantry.count("drifts") == 1
    assert len(weighings_of(hands.kitchen, 1)) <= before + 1


def test_a_weight_that_stays_away_is_taken_as_it_is_when_she_says_so(pantry, hands) -> None:
    pantry.run(1200)
    pantry.run(1200, every=2, off=-250.0)
    before = len(weighings_of(hands.kitchen, 1))
    pantry.following.begin_again()
    pantry.run(600, every=2, off=-250.0)
    assert len(weighings_of(hands.kitchen, 1)) > before


def test_another_unit_that_is_not_named_is_said_and_nothing_is_recorded(hands, tmp_path) -> None:
    following = Following(hands.kitchen, instrument("x", way=Way("last", "g")))
    now, kept, said = NOON, [], []
    for second in range(900):
        now += timedelta(seconds=1)
        shown = 990.0 if second < 600 else 990.0 / 28.349523125
        more, words = following.take([f"{shown:.1f}"], now)
        kept += more
        said += words
    assert {round(k.grams) for k in kept} == {990}
    assert any("another unit" in sentence for sentence in said)


def test_an_open_door_is_seen_by_the_air_and_the_air_is_kept(hands) -> None:
    following = Following(hands.kitchen, instrument("x", way=Way("table")))
    lines = ["time,grams,dryer temp C,kitchen temp C,kitchen humidity,dryer humidity"]
    for minute in range(60):
        air = 57.0 if minute < 30 or minute > 40 else 40.0
        at = NOON + timedelta(minutes=minute + 1)
        lines.append(f"{at:%Y-%m-%dT%H:%M:%S}Z,{true_g(minute / 60):.1f},{air},21.5,48,17.5")
    hands.wait(2)
    kept, said = following.take(lines, hands.time)
    record_kept(hands.kitchen, instrument("x"), kept)
    assert sum("door" in sentence for sentence in said) == 1
    first = weighings_of(hands.kitchen, 1)[0]
    assert (first.dryer_temperature.si, first.dryer_humidity_pct) == (57.0, 17.5)
    batch = hands.journal.get(Batch, 1)
    assert (batch.kitchen_temperature.si, batch.kitchen_humidity_pct) == (21.5, 48)


def test_air_that_is_half_recorded_is_filled_up_and_a_broken_sensor_stops_nothing(hands) -> None:
    edit = replace(hands.journal.get(Batch, 1), kitchen_temperature=Temperature(19.0, "19 C"))
    hands.journal.write([Change(hands.journal.get(Batch, 1), edit)])
    following = Following(hands.kitchen, instrument("x", way=Way("table")))
    lines = ["time,grams,dryer rh,kitchen rh,kitchen °C"]
    for minute in range(60):
        damp = 300 if minute < 20 else 100 if minute < 40 else 52
        lines.append(
            f"{NOON + timedelta(minutes=minute + 1):%Y-%m-%dT%H:%M:%S}Z,{true_g(minute / 60):.1f},120,{damp},90"
        )
    hands.wait(2)
    kept, _ = following.take(lines, hands.time)
    record_kept(hands.kitchen, instrument("x"), kept)
    found = weighings_of(hands.kitchen, 1)
    assert len(found) > 5
    assert {w.dryer_humidity_pct for w in found} == {None}
    batch = hands.journal.get(Batch, 1)
    assert (batch.kitchen_temperature.si, batch.kitchen_humidity_pct) == (19.0, 52)


def test_what_was_recorded_before_a_restart_is_not_recorded_again(hands) -> None:
    rows = [f"{NOON + timedelta(minutes=m):%Y-%m-%dT%H:%M:%SZ},{true_g(m / 60):.1f}" for m in range(1, 200)]
    hands.wait(4)
    of_table = instrument("x", way=Way("table"))
    for _ in range(3):
        following = Following(hands.kitchen, of_table)
        kept, _ = following.take(["time,grams", *rows], hands.time)
        record_kept(hands.kitchen, of_table, kept)
    times = [w.at for w in weighings_of(hands.kitchen, 1)]
    assert len(times) == len(set(times))
    once = Following(Hands_again().kitchen, of_table)
    kept, _ = once.take(["time,grams", *rows], hands.time)
    assert len(times) <= len(kept) + 2


def Hands_again() -> Hands:
    hands = Hands()
    hands.start(LOAD_G)
    hands.wait(4)
    return hands


def test_nothing_is_recorded_of_a_batch_that_was_taken_off(hands) -> None:
    following = Following(hands.kitchen, instrument("x", way=Way("table")))
    rows = [f"{NOON + timedelta(minutes=m):%Y-%m-%dT%H:%M:%SZ},{true_g(m / 60):.1f}" for m in range(1, 60)]
    hands.wait(2)
    kept, _ = following.take(["time,grams", *rows], hands.time)
    take_off(hands.kitchen, 1)
    assert kept
    assert not record_kept(hands.kitchen, instrument("x"), kept).changes


def test_the_port_is_let_go_at_once_and_an_absent_one_waits_without_blocking(tmp_path) -> None:
    scale = PlayedScale(tmp_path / "ttyScale")
    port = SerialPort(str(scale.path))
    assert port.lines(NOON) == []
    scale.show(0.0)
    assert len(port.lines(NOON)) == 1
    port.close()
    again = SerialPort(str(scale.path))
    assert again.lines(NOON) == []
    scale.show(0.0)
    assert len(again.lines(NOON)) == 1
    again.close()
    scale.unplug()
    absent = SerialPort(str(tmp_path / "nothing"))
    assert absent.lines(NOON) == []
    assert absent.gone


def kept(minutes: float, grams: float, **more) -> Kept:
    return Kept(NOON + timedelta(minutes=minutes), grams, Sample(grams, **more))


@every_row(
    ("before", "now", "recorded"),
    [
        ((None, None), (21.54, 48.06), (21.5, 48.1)),
        ((19.0, None), (21.54, 48.06), (19.0, 48.1)),
        ((None, 60.0), (21.54, 48.06), (21.5, 60.0)),
        ((None, None), (None, 48.0), (None, 48.0)),
        ((None, None), (21.5, None), (21.5, None)),
        ((None, None), (None, None), (None, None)),
    ],
)
def test_the_air_of_the_kitchen_is_recorded_to_the_tenth_where_nobody_wrote_it_down(before, now, recorded) -> None:
    hands = Hands()
    heat = Temperature(before[0]) if before[0] is not None else None
    hands.start(LOAD_G, kitchen_temperature=heat, kitchen_humidity_pct=before[1])
    hands.wait(1)
    readings = [kept(10, 990.0), kept(20, 980.0, kitchen_c=now[0], kitchen_pct=now[1])]
    record_kept(hands.kitchen, instrument("x"), [*readings, kept(30, 970.0, kitchen_c=30.0, kitchen_pct=9.0)][:2])
    batch = hands.journal.get(Batch, 1)
    warmth = batch.kitchen_temperature.si if batch.kitchen_temperature else None
    assert (warmth, batch.kitchen_humidity_pct) == recorded


def test_steady_readings_are_written_down_with_the_tare_and_what_cannot_be_is_left_out(hands) -> None:
    hands.wait(2)
    tared = instrument("x", tare_g=300.0)
    readings = [
        kept(10, 1290.004),
        kept(20, 1190.0),
        kept(30, 300.0),
        kept(35, 300.5),
        kept(40, 1280.0),
        kept(50, 1150.0),
    ]
    done = record_kept(hands.kitchen, tared, readings)
    assert done.what.startswith("the pantry scale read 6 weights of ")
    found = weighings_of(hands.kitchen, 1)
    assert [(w.net_g, w.left_out) for w in found] == [
        (pytest.approx(990.0), False), (890.0, False), (0.5, True), (980.0, True), (850.0, False),
    ]  # fmt: skip
    assert len({w.id for w in found}) == 5
    assert not record_kept(hands.kitchen, tared, readings[:2]).changes, "the same moments are known already"
    sample = replace(tared, scope="sample", tare_g=0.0)
    assert record_kept(hands.kitchen, sample, [kept(10, 250.0)]).changes


@every_row(
    ("steps", "opened"),
    [
        (((0, 57.0), (1, 49.1)), []),
        (((0, 57.0), (1, 49.0)), [1]),
        (((0, 57.0), (5, 49.0)), [1]),
        (((0, 57.0), (5.1, 49.0)), []),
        (((0, 57.0), (1, 40.0), (2, 40.0)), [1]),
        (((0, 57.0), (1, 40.0), (2, 57.0), (3, 40.0)), [1, 3]),
        (((0, 40.0), (1, 57.0)), []),
    ],
)
def test_a_fall_of_eight_degrees_within_five_minutes_is_an_open_door_and_said_once(steps, opened) -> None:
    hands = Hands()
    hands.start(LOAD_G)
    following = Following(hands.kitchen, instrument("x", way=Way("table")))
    following.take(["time,grams,dryer °C"], NOON)
    seen = []
    for number, (minute, celsius) in enumerate(steps):
        at = NOON + timedelta(minutes=minute + 1)
        _, said = following.take([f"{at.isoformat()},1000,{celsius}"], at)
        seen += [number for sentence in said if "door" in sentence]
    assert seen == opened


def test_silence_of_more_than_a_minute_is_said_once_and_so_is_its_end(hands) -> None:
    following = Following(hands.kitchen, instrument("x"))
    said = []
    for second in (30, 60, 61, 90, 200):
        said.append(following.take([], NOON + timedelta(seconds=second))[1])
    assert [len(words) for words in said] == [0, 0, 1, 0, 0]
    assert "Nothing comes" in said[2][0]
    assert "reports again" in following.take(["1000 g"], NOON + timedelta(seconds=210))[1][0]
    assert following.take(["1000 g"], NOON + timedelta(seconds=240))[1] == []
    assert following.take([], NOON + timedelta(seconds=300))[1] == []
    assert len(following.take([], NOON + timedelta(seconds=301))[1]) == 1


def test_twenty_lines_in_a_row_without_a_weight_are_said_once(hands) -> None:
    following = Following(hands.kitchen, instrument("x"))
    for lines, told in ((["##"] * 19, 0), (["1000 g"], 0), (["##"] * 19, 0), (["##"], 1), (["##"] * 30, 0)):
        said = following.take(lines, NOON + timedelta(seconds=1))[1]
        assert sum("hold no weight" in words for words in said) == told


def test_another_unit_that_is_named_is_said_when_it_changes(hands) -> None:
    following = Following(hands.kitchen, instrument("x"))
    lines = ["1000 g", "1000 g", "35.3 oz", "35.3 oz", "1000 g"]
    told = [sum("another unit" in w for w in following.take([line], NOON + timedelta(seconds=n))[1])
            for n, line in enumerate(lines, 1)]  # fmt: skip
    assert told == [0, 0, 1, 0, 1]
    assert following.latest is not None
    assert following.latest.grams == 1000.0


@every_row(
    ("first", "unit", "shown", "meant"),
    [
        (1000.0, "g", 35.0, True),
        (1000.0, "g", 2.2, True),
        (1000.0, "g", 1.0, True),
        (1000.0, "g", 500.0, False),
        (1000.0, "g", 37.5, False),
        (1000.0, "g", 33.6, True),  # 952.5 g: within a twentieth
        (1000.0, "g", 33.4, False),
        (35.3, "oz", 1000.0, True),
        (35.3, "oz", 28.0, False),
    ],
)
def test_a_number_that_would_be_the_last_weight_in_another_unit_is_said_to_be(first, unit, shown, meant) -> None:
    hands = Hands()
    hands.start(LOAD_G)
    following = Following(hands.kitchen, instrument("x", way=Way("last", unit)))
    said = []
    for second in range(1, 301):
        number = first if second < 150 else shown
        said += following.take([f"{number:.1f}"], NOON + timedelta(seconds=second))[1]
    assert any("another unit" in sentence for sentence in said) is meant
    assert any("lifted" in sentence for sentence in said) is not meant


def test_lines_without_a_time_are_spread_over_the_time_since_the_last_look_and_those_of_before_are_known(
    hands,
) -> None:
    following = Following(hands.kitchen, instrument("x"))
    kept_now, _ = following.take(["1000 g"] * 600, NOON + timedelta(seconds=600))
    assert [k.at for k in kept_now] == sorted(k.at for k in kept_now)
    assert NOON < kept_now[0].at <= NOON + timedelta(seconds=120)
    table = Following(hands.kitchen, instrument("x", way=Way("table")))
    rows = [f"{(NOON + timedelta(minutes=m)).isoformat()},1000" for m in range(-60, 1)]
    assert table.take(rows, NOON + timedelta(minutes=1))[0] == [], "before the batch went on"
    assert table.latest is None
