"""Files of weighings: guessed columns, every way of writing times and numbers, errors by line."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from dryhouse.kitchen.dryer.drying import weighings_of
from dryhouse.kitchen.dryer.weighing_files import SheetWeighings, import_weighings, read_weighings
from dryhouse.kitchen.dryer.weighing_sheets import (
    HOURS,
    MINUTES,
    MOMENTS,
    guess,
    read_file,
    read_sheet,
)
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.batches import PLANNED
from dryhouse.kitchen.records.weighings import LOAD, SAMPLE
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.quantities import Mass, Temperature
from tests.kitchen.drying_room import NOON, Hands
from tests.rows import every_row


def after(hours: float) -> object:
    return NOON + timedelta(hours=hours)


def read(hands: Hands, batch: int, text: str, **change) -> SheetWeighings:
    sheet = read_sheet(text)
    return read_weighings(hands.kitchen, batch, sheet, replace(guess(sheet), **change))


@pytest.fixture
def hands() -> Hands:
    return Hands()


@pytest.fixture
def batch(hands: Hands) -> int:
    number = hands.start(1000.0)
    hands.wait(48)
    return number


def test_hours_and_grams(hands, batch) -> None:
    mapped = read(hands, batch, "hours,grams\n0.5,950\n1,900.5\n\n2,800\n")
    assert [(r.at, r.gross.si) for r in mapped.rows] == [(after(0.5), 950), (after(1), 900.5), (after(2), 800)]
    assert mapped.errors == ()


def test_semicolons_and_decimal_commas(hands, batch) -> None:
    mapped = read(hands, batch, "Time (h);Weight (oz)\n0,5;33,5\n1,25;31\n")
    assert [(r.at, round(r.gross.si, 1)) for r in mapped.rows] == [(after(0.5), 949.7), (after(1.25), 878.8)]


def test_minutes(hands, batch) -> None:
    assert guess(read_sheet("minutes\tkg\n30\t0.95\n")).time_kind == MINUTES
    mapped = read(hands, batch, "minutes\tkg\n30\t0.95\n")
    assert [(r.at, r.gross.si) for r in mapped.rows] == [(after(0.5), 950)]


def test_clock_times_roll_over_midnight(hands, batch) -> None:
    mapped = read(hands, batch, "time,reading\n22:30,800 g\n1:15 am,700 g\n9:00,500 g\n")
    assert [r.at for r in mapped.rows] == [after(10.5), after(13.25), after(21)]


def test_dates_with_times(hands, batch) -> None:
    text = "when,scale\n2026-08-14 14:00,900 g\n8/15/2026 6:00 am,1 lb 3 oz\n15.08.2026 12:30,500 g\n"
    mapped = read(hands, batch, text)
    assert [r.at for r in mapped.rows] == [after(2), after(18), after(24.5)]
    assert mapped.rows[1].gross.typed == "1 lb 3 oz"


def test_tare_and_dryer_temperature_columns(hands, batch) -> None:
    mapped = read(hands, batch, "hours,gross g,tare g,temp F\n1,1200,300,135\n2,1100,300,\n")
    row = mapped.rows[0]
    assert (row.gross.si, row.tare.si) == (1200, 300)
    assert row.temperature.si == pytest.approx(57.2, abs=0.05)
    assert mapped.rows[1].temperature is None


def test_a_guess_can_be_put_right(hands, batch) -> None:
    sheet = read_sheet("a,b\n900,1\n800,2\n")
    assert guess(sheet).mass is None
    right = replace(guess(sheet), time=1, mass=0, time_kind=HOURS)
    assert [r.gross.si for r in read_weighings(hands.kitchen, batch, sheet, right).rows] == [900, 800]
    with pytest.raises(InputProblem, match="which column"):
        read_weighings(hands.kitchen, batch, sheet, guess(sheet))


def test_a_file_without_a_header_is_time_then_weight(hands, batch) -> None:
    mapped = read(hands, batch, "0.5,950\n1,900\n")
    assert [r.line for r in mapped.rows] == [1, 2]


def test_what_is_wrong_is_said_by_line_and_the_rest_is_read(hands, batch) -> None:
    text = "hours,grams\n1,900\n2,heavy\n,700\n3,-5\n3.5,0\n4,600\n4,590\n3,580\n9000,500\n60,400\n-1,1000\n"
    mapped = read(hands, batch, text)
    assert [r.line for r in mapped.rows] == [2, 7]
    assert [e.line for e in mapped.errors] == [3, 4, 5, 6, 8, 9, 10, 11, 12]
    said = {e.line: e.sentence for e in mapped.errors}
    assert "missing" in said[4]
    assert "same as in line 7" in said[8]
    assert "earlier than in line 7" in said[9]
    assert "not come yet" in said[11]


def test_lines_keep_their_numbers_past_blank_lines(hands, batch) -> None:
    mapped = read(hands, batch, "# the kitchen scale\n\nhours,grams\n\n1,900\n\n2,?\n")
    assert [r.line for r in mapped.rows] == [5]
    assert [e.line for e in mapped.errors] == [7]


def test_what_is_brought_in_is_written_once(hands, batch) -> None:
    mapped = read(hands, batch, "hours,grams\n1,900\n2,800\n", scope=SAMPLE)
    done = import_weighings(hands.kitchen, batch, mapped)
    assert [(w.net_g, w.scope) for w in weighings_of(hands.kitchen, batch)] == [(900, SAMPLE), (800, SAMPLE)]
    more = read(hands, batch, "hours,grams\n1,900\n2,800\n3,700\n", scope=SAMPLE)
    import_weighings(hands.kitchen, batch, more)
    assert len(weighings_of(hands.kitchen, batch)) == 3
    with pytest.raises(InputProblem, match="recorded already"):
        import_weighings(hands.kitchen, batch, more)
    hands.journal.write(done.undone().changes)
    assert len(weighings_of(hands.kitchen, batch)) == 1


def test_nothing_readable_is_nothing_to_bring_in(hands, batch) -> None:
    with pytest.raises(InputProblem, match="no line"):
        import_weighings(hands.kitchen, batch, read(hands, batch, "hours,grams\n1,much\n2,less\n"))


def test_a_planned_batch_takes_no_weighings() -> None:
    hands = Hands(Batch("apple", state=PLANNED, started=NOON, id=7))
    hands.wait(9)
    mapped = read(hands, 7, "hours,grams\n1,900\n")
    with pytest.raises(InputProblem, match="not yet started"):
        import_weighings(hands.kitchen, 7, mapped)


@every_row("text", ["", "\n\n", "hours,grams\n", "# nothing\n"])
def test_an_empty_file_says_what_it_wants(text) -> None:
    with pytest.raises(InputProblem):
        read_sheet(text)


def test_files_as_they_lie_on_disk(tmp_path) -> None:
    path = tmp_path / "weighings.csv"
    path.write_bytes("\ufeffhours,grams\n1,900\n".encode())
    assert read_file(path).header == ("hours", "grams")
    path.write_bytes("Zeit (h);Gewicht (g) geschätzt\n1;900\n".encode("cp1252"))
    assert read_file(path).header[1] == "Gewicht (g) geschätzt"
    path.write_bytes(b"PK\x03\x04\x00\x00sheet")
    with pytest.raises(InputProblem, match="not a text file"):
        read_file(path)
    with pytest.raises(WorldProblem, match="Nothing was changed"):
        read_file(tmp_path / "gone.csv")


def test_the_kind_of_time_is_guessed_from_the_cells() -> None:
    assert guess(read_sheet("time,g\n14:05,900\n")).time_kind == MOMENTS
    assert guess(read_sheet("time,g\n0.5,900\n")).time_kind == HOURS


def test_a_line_past_any_tray_is_an_error_of_its_line(hands, batch) -> None:
    mapped = read(hands, batch, "hours,grams\n0.5,950\n1,900500\n2,800\n3,\n")
    assert [r.gross.si for r in mapped.rows] == [950, 800]
    assert [e.line for e in mapped.errors] == [3, 5]
    assert "number and its unit" in mapped.errors[0].sentence


def test_a_tare_of_nothing_is_one_and_a_tare_as_heavy_as_the_reading_is_an_error(hands, batch) -> None:
    mapped = read(hands, batch, "hours,gross g,tare g\n1,900,0\n2,800,799\n3,700,700\n")
    assert [(r.gross.si, r.tare.si) for r in mapped.rows] == [(900, 0), (800, 799)]
    assert [e.line for e in mapped.errors] == [4]


def test_a_file_of_one_column_has_no_weights() -> None:
    assert guess(read_sheet("900\n800\n")).mass is None
    assert (guess(read_sheet("0,900\n1,800\n")).time, guess(read_sheet("0,900\n1,800\n")).mass) == (0, 1)


def test_every_field_of_a_line_is_written_and_the_act_is_told(hands, batch) -> None:
    mapped = read(hands, batch, "hours,gross g,tare g,temp F\n1,1200,300,135\n2,1100,300,\n")
    done = import_weighings(hands.kitchen, batch, mapped)
    assert done.what == "Imported 2 weighings of apple"
    first, second = weighings_of(hands.kitchen, batch)
    heat = Temperature(pytest.approx((135 - 32) / 1.8), "135 F")
    assert replace(first, dryer_temperature=None) == Weighing(
        batch, after(1), Mass(1200.0, first.gross.typed), Mass(300.0, first.tare.typed), LOAD, id=1
    )
    assert first.dryer_temperature.si == heat.si
    assert (second.id, second.dryer_temperature, second.net_g) == (2, None, 800)
    one = read(hands, batch, "hours,grams\n3,700\n")
    assert import_weighings(hands.kitchen, batch, one).what == "Imported 1 weighing of apple"
    assert [w.id for w in weighings_of(hands.kitchen, batch)] == [1, 2, 3]


@every_row(
    ("text", "sentences"),
    [
        ("hours,g\n,900\n", ["The time is missing."]),
        ("hours,g\n-1,900\n", ["“-1” lies before the start."]),
        ("hours,g\n8785,900\n", ["“8785” is more than a year of hours."]),
        ("minutes,g\n527041,900\n", ["“527041” is more than a year of minutes."]),
        ("hours,g\n8784,900\n", ["The time has not come yet."]),
        ("hours,g\n48.09,900\n", ["The time has not come yet."]),
        ("hours,g\n48.08,900\n", []),  # her clock runs five minutes ahead
        ("when,g\n2026-08-14 11:59,900\n", ["The time lies before the start of the batch."]),
        ("when,g\n2026-08-14 12:00,900\n", []),
        ("hours,g,tare\n1,900,900\n", ["The tare is as heavy as the reading, which leaves nothing."]),
        ("hours,g\n1,900\n2,x\n1,800\n", [None, "The time is the same as in line 2."]),
        ("hours,g\n2,900\n1,800\n", ["The time is earlier than in line 2."]),
    ],
)
def test_each_thing_that_is_wrong_with_a_line_has_its_sentence(text, sentences) -> None:
    hands = Hands()
    batch = hands.start(1000.0)
    hands.wait(48)
    found = [error.sentence for error in read(hands, batch, text).errors]
    assert len(found) == len(sentences)
    assert all(said is None or said == told for said, told in zip(sentences, found, strict=True))


def test_a_mapping_that_says_nothing_is_refused_and_so_is_a_batch_without_a_start(hands, batch) -> None:
    for change in ({"scope": "half"}, {"time_kind": "weeks"}):
        with pytest.raises(InputProblem, match="Say what was weighed and how the times are written"):
            read(hands, batch, "hours,g\n1,900\n", **change)
    for change in ({"time": None}, {"mass": None}):
        with pytest.raises(InputProblem, match="Say which column holds the time and which the weight"):
            read(hands, batch, "hours,g\n1,900\n", **change)
    hands.journal.write([Change(None, Batch("apple", id=9))])
    with pytest.raises(InputProblem, match="This batch has no start"):
        read(hands, 9, "hours,g\n1,900\n")
