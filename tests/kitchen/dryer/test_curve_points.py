"""Points of a run from a file of hours and grams."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.kitchen.dryer.curve_points import points_of, read_points
from dryhouse.kitchen.dryer.weighing_sheets import read_sheet
from dryhouse.science.errors import InputProblem
from tests.rows import every_row
from tests.told import told


def test_other_masses_are_turned_into_grams() -> None:
    points = points_of(read_sheet("hours,oz\n0,10\n2,8"))
    assert points.grams == pytest.approx((283.495, 226.796), abs=0.01)
    written = points_of(read_sheet("hours,grams\n0,1 kg\n2,800 g"))
    assert written.grams == (1000.0, 800.0)


def test_a_file_without_a_header_is_hours_and_grams() -> None:
    assert points_of(read_sheet("0,500\n1,400")).hours == (0.0, 1.0)


@given(st.lists(st.tuples(st.integers(0, 400), st.integers(1, 999)), min_size=2, max_size=20))
def test_points_always_ascend_from_zero(rows: list[tuple[int, int]]) -> None:
    text = "hours,grams\n" + "\n".join(f"{h / 10},{g}" for h, g in rows)
    points = points_of(read_sheet(text))
    assert points.hours[0] == 0.0
    assert list(points.hours) == sorted(set(points.hours))
    assert len(points.grams) == len(points.hours)


def test_hours_and_minutes_are_read_as_such() -> None:
    assert points_of(read_sheet("hours,grams\n0:00,500\n1:15,420\n2h30,380")).hours == (0.0, 1.25, 2.5)


def test_a_unit_that_is_no_mass_is_refused_with_its_line() -> None:
    with pytest.raises(InputProblem, match="Line 3"):
        points_of(read_sheet("hours,grams\n0,500\n1,400 cups"))


def test_a_missing_file_is_said(tmp_path) -> None:
    with pytest.raises(InputProblem, match="no file"):
        read_points(tmp_path / "none.csv")


def test_moments_of_some_day_are_hours_from_the_first() -> None:
    points = points_of(read_sheet("time,grams\n2026-11-20 18:00,500\n2026-11-20 19:30,420\n2026-11-21 02:00,250"))
    assert points.hours == (0.0, 1.5, 8.0)
    assert points.grams == (500.0, 420.0, 250.0)
    assert points.notes == ()


@every_row(
    "text",
    [
        "when,g\n2026-11-20T18:00,500\n2026-11-20T19:30:00,420",
        "when,g\n2026-11-20T18:00Z,500\n2026-11-20T20:30+01:00,420",
        "when;g\n20.11.2026 18:00;500\n20.11.2026 19:30;420",
        "when,g\n11/20/2026 6:00 pm,500\n11/20/2026 7:30 pm,420",
        "when,g\n2026-11-20 23:00,500\n0:30,420",
        "when,g\n2026-11-20 19:30,420\n2026-11-20 18:00,500",
    ],
    ids=["t", "zones", "day first", "month first", "past midnight", "unsorted"],
)
def test_moments_as_scales_and_people_write_them(text: str) -> None:
    points = points_of(read_sheet(text))
    assert points.hours == (0.0, 1.5)
    assert points.grams == (500.0, 420.0)


@every_row(
    ("cell", "word"),
    [("2026-11-31 18:00", "Line 3"), ("", "Line 3: the time is missing"), ("2028-11-20 18:00", "more than a year")],
)
def test_a_moment_that_cannot_be_is_refused_with_its_line(cell: str, word: str) -> None:
    with pytest.raises(InputProblem, match=word):
        points_of(read_sheet(f"time,grams\n2026-11-20 18:00,500\n{cell},400"))


def test_weighings_within_half_a_second_of_another_count_as_one_and_it_is_said() -> None:
    points = points_of(read_sheet("hours,grams\n0,500\n1,401\n1.0001,399\n2,300\n"))
    assert points.hours == (0.0, 1.0, 2.0)
    assert points.grams == (500.0, 400.0, 300.0)
    assert points.notes == (
        "Weighings less than half a second apart (first at 1 h) count as one; the mean of their weights is used.",
    )
    minutes = points_of(read_sheet("minutes,grams\n0,500\n0.5,499\n1,498\n"))
    assert len(minutes.hours) == 3
    assert minutes.notes == ()


@every_row(
    ("text", "hours", "grams", "note"),
    [
        ("0,500\n1,410\n1,390\n2,300", (0, 1, 2), (500, 400, 300), "One time stands more than once (first at 1 h)"),
        ("0,500\n0,490\n1,410\n1,390", (0, 1), (495, 400), "2 times stand more than once (first at 0 h)"),
    ],
)
def test_a_time_that_stands_more_than_once_counts_with_the_mean_of_its_weights(text, hours, grams, note) -> None:
    points = points_of(read_sheet(f"hours,grams\n{text}\n"))
    assert (points.hours, points.grams) == (hours, grams)
    assert points.notes == (f"{note}; the mean of the weights is used.",)


def test_a_log_that_goes_on_every_second_stays_as_it_is() -> None:
    rows = "\n".join(f"{s / 3600!r},{500 - s}" for s in range(60))
    points = points_of(read_sheet(f"hours,grams\n{rows}"))
    assert len(points.hours) == 60


@every_row(
    ("text", "words"),
    [
        ("hours,x,grams\n0,1\n1,2\n", "weight"),
        ("hours,grams\n0,1000\n" + "5" + ",1" * 300 + "\n", "has 301 cells"),
        ("hours" + ",x" * 300 + "\n0,1000\n", "names 301 columns"),
    ],
)
def test_a_line_that_is_too_short_or_too_long_is_said(text, words):
    with told(InputProblem, words):
        points_of(read_sheet(text))


@every_row("grams", ["20000000", "1e9", "1e400"])
def test_a_weight_no_load_has_is_refused_with_its_line(grams):
    with told(InputProblem, "Line 3.*larger than a weight can be"):
        points_of(read_sheet(f"hours,grams\n0,1000\n1,{grams}\n"))


def test_commas_to_the_edge_of_the_sheet_are_nothing():
    wide = "," * 30_000
    points = points_of(read_sheet(f"hours,grams{wide}\n0,1000{wide}\n2,900{wide}\n{wide}\n4,800\n"))
    assert points.grams == (1000.0, 900.0, 800.0)


RUN = "20:00,1000\n22:00,700\n{midnight},500\n1:30,410\n5:00,300\n"


@pytest.mark.parametrize("midnight", ["0:00", "00:00"])
def test_a_clock_that_passes_midnight_goes_on(midnight: str) -> None:
    points = points_of(read_sheet("time,grams\n" + RUN.format(midnight=midnight)))
    assert points.hours == (0, 2, 4, 5.5, 9)
    assert points.grams == (1000, 700, 500, 410, 300)
    assert any("midnight" in note for note in points.notes)


def test_hours_and_minutes_out_of_order_are_no_clock() -> None:
    points = points_of(read_sheet("elapsed,grams\n14:00,400\n0:00,1000\n1:00,900\n"))
    assert points.hours == (0, 1, 14)
    assert points.grams == (1000, 900, 400)


def test_heats_go_past_midnight_with_their_weighings() -> None:
    points = points_of(read_sheet("time,grams,temperature_c\n22:00,1000,50\n23:00,800,55\n1:00,600,60\n"))
    assert points.heats == ((0, 50), (1, 55), (3, 60))


@pytest.mark.parametrize(
    "text",
    [
        "date,time,grams\n2026-11-20,22:00,1000\n2026-11-21,00:30,700\n",
        "Date;Time;Grams\n11/20/2026;10:00 PM;1000\n11/21/2026;12:30 AM;700\n",
        "sep=;\nhours;grams\n0;1000\n2,5;700\n",
        "sep=;\r\nhours;grams\r\n0;1000\r\n2,5;700\r\n",
        "time,weight\n0 h,1000 g\n2.5 h,700 g\n",
        "time,weight\n0 min,1000 g\n150 min,0.7 kg\n",
        "time,weight\n0h,1000\n2h30,700\n",
    ],
)
def test_a_run_as_a_spreadsheet_may_keep_it(text: str) -> None:
    points = points_of(read_sheet(text))
    assert points.hours == (0, 2.5)
    assert points.grams == (1000, 700)


def test_a_time_with_a_unit_of_something_else_is_refused_with_its_line() -> None:
    with pytest.raises(InputProblem, match="Line 3"):
        points_of(read_sheet("time,weight\n0 h,1000\n2 lb,700\n"))


@pytest.mark.parametrize(("column", "said"), [("temperature_c", "135"), ("temperature_f", "250")])
def test_fahrenheit_in_a_column_of_celsius_is_asked_about(column: str, said: str) -> None:
    with pytest.raises(InputProblem, match="is it °C or °F"):
        points_of(read_sheet(f"hours,grams,{column}\n0,1000,{said}\n2,700,{said}\n"))
    warm = points_of(read_sheet("hours,grams,temperature_f\n0,1000,135\n2,700,135\n")).heats
    assert warm[0][1] == pytest.approx(57.2, abs=0.1)


@every_row(
    ("text", "read"),
    [
        ("hours,grams\n0,1e7\n1,9e6\n", True),
        ("hours,grams\n0,1.00001e7\n1,9e6\n", False),
        ("hours,grams\n0,1000\n8784,900\n", True),
        ("hours,grams\n0,1000\n8785,900\n", False),
        ("hours,grams\n0,1000\n1,0\n", False),
        ("hours,grams\n0,1000\n1,-5\n", False),
        ("hours,grams\n0,1000\n1,\n", False),
        ("hours,grams\n0,1000\n1,nan\n", False),
        ("hours,grams\n0,1000\n1,inf\n", False),
    ],
)
def test_a_weight_or_an_hour_no_run_has_is_refused(text: str, read: bool) -> None:
    if read:
        assert len(points_of(read_sheet(text)).hours) == 2
        return
    with told(InputProblem, "Line [23]"):
        points_of(read_sheet(text))


@every_row(
    ("later", "hours"),
    [
        ("14:00,1000\n2:00,700", (0, 12)),  # half a day back, and lighter: it went on
        ("14:00,1000\n2:00,1000", (0, 12)),
        ("14:00,1000\n2:06,700", None),  # less than half a day back: the lines are out of order
        ("14:00,1000\n13:00,700", None),
        ("14:00,1000\n2:00,1001", None),  # nothing gets heavier overnight
        ("23:30,1000\n1:00,700", (0, 1.5)),
        ("24:00,1000\n1:00,700", None),  # hours since the start: no clock shows 24:00
        ("22:00,1000\n22:00,990\n1:00,600", (0, 3)),
        ("22:00,1000\n1:00,900\n23:00,800\n2:00,700", (0, 3, 25, 28)),
    ],
)
def test_a_clock_goes_past_midnight_where_it_falls_back_half_a_day_and_the_load_gets_no_heavier(
    later, hours
) -> None:
    points = points_of(read_sheet(f"time,grams\n{later}\n"))
    assert ("The clock goes past midnight in this file; its times are read as times of day." in points.notes) == (
        hours is not None
    )
    if hours is None:
        assert points.notes[0].startswith("The lines were not in order of time")
    else:
        assert points.hours == pytest.approx(hours)


@every_row(("cell", "heat"), [("0", 0.0), ("0.5", 0.5), ("110", 110.0), ("110.5", None)])
def test_a_dryer_is_between_freezing_and_110_degrees(cell: str, heat: float | None) -> None:
    sheet = read_sheet(f"hours,grams,temperature_c\n0,500,{cell}\n1,400,{cell}\n")
    if heat is not None:
        assert points_of(sheet).heats == ((0, heat), (1, heat))
        return
    with pytest.raises(InputProblem, match="Line 2"):
        points_of(sheet)


def test_a_year_and_a_day_after_the_first_is_the_last_moment_of_a_run() -> None:
    text = "time,grams\n2026-11-20 18:00,500\n2027-11-21 18:{},400\n"
    assert points_of(read_sheet(text.format("00"))).hours == (0, 8784)
    with pytest.raises(InputProblem, match="Line 3"):
        points_of(read_sheet(text.format("01")))


def test_the_column_of_times_may_stand_anywhere() -> None:
    for text in (
        "grams,when\n500,2026-11-20 18:00\n420,2026-11-20 19:30\n",
        "grams,time\n500,14:00\n420,15:30\n",
        "grams,minutes\n500,30\n420,120\n",
    ):
        points = points_of(read_sheet(text))
        assert (points.hours, points.grams) == ((0, 1.5), (500, 420)), text
