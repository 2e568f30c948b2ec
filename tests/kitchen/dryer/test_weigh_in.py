"""Writing down what one line says, or several; and saying how they were understood."""

from __future__ import annotations

from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.doubts import DoubtfulWeight
from dryhouse.kitchen.dryer.drying import weighings_of
from dryhouse.kitchen.dryer.typed_readings import read_readings
from dryhouse.kitchen.dryer.weigh_in import record_readings, understood
from dryhouse.kitchen.records.weighings import LOAD, SAMPLE, TRAY
from dryhouse.science.display import METRIC, Style
from tests.kitchen.drying_room import Hands
from tests.rows import every_row


@pytest.fixture
def hands() -> Hands:
    return Hands()


def record(hands: Hands, batch: int, text: str, **more: object):
    return record_readings(hands.kitchen, batch, read_readings(hands.kitchen, text), **more)


def test_the_tare_is_remembered_for_each_tray_and_jar(hands) -> None:
    batch = hands.start()
    record(hands, batch, "tray 1 650 g tare 400 g")
    record(hands, batch, "tray 2 550 g tare 300 g")
    hands.wait(1)
    record(hands, batch, "tray 1 610 g")
    record(hands, batch, "tray 2 510 g")
    assert [w.net_g for w in weighings_of(hands.kitchen, batch)] == [250, 250, 210, 210]
    said = understood(
        hands.kitchen,
        weighings_of(hands.kitchen, batch),
        read_readings(hands.kitchen, "tray 2 500 g"),
        Style(METRIC),
    )
    assert said == "200 g net, tare 300 g as before, tray 2"


def test_a_tray_that_is_named_is_a_tray_of_its_own_and_the_load_stays_the_load(hands) -> None:
    batch = hands.start()
    record(hands, batch, "950 g")
    record(hands, batch, "tray 1 240 g")
    hands.wait(1)
    record(hands, batch, "900 g")
    record(hands, batch, "sample tray 3 oz (the top one)")
    assert [w.scope for w in weighings_of(hands.kitchen, batch)] == [LOAD, TRAY, LOAD, SAMPLE]
    assert weighings_of(hands.kitchen, batch)[-1].note == "the top one"


def test_one_line_that_can_t_be_true_keeps_all_of_them_back_and_names_itself(hands) -> None:
    batch = hands.start()
    hands.wait(4)
    lines = "13:00 800 g\n14:00 80 g\n15:00 600 g"
    with pytest.raises(DoubtfulWeight, match="Line 2: "):
        record(hands, batch, lines)
    assert weighings_of(hands.kitchen, batch) == ()
    done = record(hands, batch, lines, keep=True)
    assert "1 of them left out" in done.what
    assert [w.left_out for w in weighings_of(hands.kitchen, batch)] == [False, True, False]


def test_what_is_pasted_is_one_act_to_take_back(hands) -> None:
    batch = hands.start()
    hands.wait(4)
    done = record(hands, batch, "13:00 800 g\n14:00 700 g")
    assert done.what.startswith("Recorded 2 weighings")
    hands.journal.write(done.undone().changes)
    assert weighings_of(hands.kitchen, batch) == ()


def test_a_line_is_said_back_with_its_day_and_its_remark(hands) -> None:
    hands.wait(2)
    readings = read_readings(hands.kitchen, "yesterday 22:10 860 g at 57 C (windy)")
    assert understood(hands.kitchen, (), readings, Style(METRIC)) == "860 g, yesterday 22:10, dryer 57 °C, “windy”"
    several = read_readings(hands.kitchen, "13:00 860\n14:00 800")
    assert understood(hands.kitchen, (), several, Style(METRIC)) == "2 readings: 860 g, 13:00 … 800 g, 14:00"
    assert readings[0].at is not None
    assert hands.kitchen.now() - readings[0].at < timedelta(days=1)


@every_row(
    ("line", "said"),
    [
        ("860 g", "860 g"),
        ("860 g tare 350 g", "510 g net, tare 350 g"),
        ("860 g tare 0 g", "860 g"),
        ("860 g tare 0.5 g", "860 g net, tare 0.5 g"),
        ("340 g tare 350 g", "0 g net, tare 350 g"),
        ("tray 3 240 g", "240 g, tray 3"),
        ("sample tray 240 g", "240 g, sample tray"),
        ("load 860 g", "860 g, whole load"),
        ("13:00 860 g", "860 g, 13:00"),
        ("12 Aug 13:00 860 g", "860 g, Wed 12 Aug 13:00"),
    ],
)
def test_a_reading_is_said_back_as_it_was_understood(line, said) -> None:
    hands = Hands()
    hands.wait(2)
    assert understood(hands.kitchen, (), read_readings(hands.kitchen, line), Style(METRIC)) == said


def test_lines_that_are_pasted_are_numbered_from_the_next_free_number_in_order(hands) -> None:
    batch = hands.start()
    hands.weigh(batch, 950)
    hands.wait(4)
    record(hands, batch, "13:00 800 g\n14:00 700 g\n15:00 600 g")
    assert [(w.id, w.net_g) for w in weighings_of(hands.kitchen, batch)] == [(1, 950), (2, 800), (3, 700), (4, 600)]
    with pytest.raises(DoubtfulWeight, match="Line 1: "):
        record(hands, batch, "15:10 900 g\n15:20 580 g")


def test_a_second_reading_in_a_minute_of_several_names_no_weighing_to_take_the_place_of(hands) -> None:
    batch = hands.start()
    hands.wait(2)
    with pytest.raises(DoubtfulWeight, match=r"Line 2: .*within a minute") as asked:
        record(hands, batch, "13:00 800 g\n13:00:30 700 g")
    assert asked.value.doubt.replaces == 0
