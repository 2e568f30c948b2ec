"""What a run kept in a file says, without the command line round it."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from dryhouse.kitchen.dryer import curve_file
from dryhouse.kitchen.dryer.curve_file import answer_json, heating_in, lines_of, model_lines, read_run, said
from dryhouse.kitchen.dryer.curve_points import Points, read_points
from dryhouse.kitchen.dryer.drying import CameOff, take_off
from dryhouse.science.display import METRIC, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.forecast import Beforehand
from dryhouse.science.forecast.pace import SAME_HEAT_C
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Fact
from tests.kitchen.drying_room import APPLE, STRANGER, Hands
from tests.rows import every_row
from tests.workings import read

HOURS = tuple(np.arange(0, 6.1, 0.5).tolist())
POINTS = Points(HOURS, tuple(np.round(77 + 423 * np.exp(-0.24 * np.array(HOURS) ** 1.15)).tolist()))


def test_moistures_given_make_curves_and_a_finish() -> None:
    answer = read_run(POINTS, start_moisture_pct=85, target_moisture_pct=15)
    assert answer.forecast is not None
    assert answer.curves.chosen is not None
    assert "from 85 % starting moisture" in read(answer.workings)
    keys = answer_json(answer)
    assert keys["chosen"] == answer.curves.chosen.name
    assert keys["target_g"] == pytest.approx(75 / 0.85)
    lines = said(answer)
    assert lines[0].startswith("Dry after about ")
    assert sum(line.startswith("* ") for line in model_lines(answer)) == 1


@pytest.mark.parametrize(
    ("start", "target", "missing", "named"),
    [(85.0, None, "until_moisture", "the target is not known"),
     (None, 15.0, "start_moisture", "the starting moisture is not known")],
)  # fmt: skip
def test_what_is_missing_is_named(start, target, missing, named) -> None:
    answer = read_run(POINTS, start_moisture_pct=start, target_moisture_pct=target)
    assert answer.forecast is None
    assert answer.missing == (missing,)
    assert named in answer.doubt
    assert answer.doubt in said(answer)
    assert answer.curves.fits


def test_a_target_above_the_start_is_refused() -> None:
    with pytest.raises(InputProblem) as problem:
        read_run(POINTS, start_moisture_pct=15, target_moisture_pct=85)
    assert problem.value.field == "until_moisture"


def test_a_run_that_ends_below_its_dry_matter_keeps_the_crossing_it_showed_and_says_what_to_doubt() -> None:
    run = Points(tuple(float(h) for h in range(10)), (500, 420, 350, 280, 210, 150, 110, 85, 70, 55))
    answer = read_run(run, start_moisture_pct=85, target_moisture_pct=20)
    assert answer.forecast is not None
    assert 6 < answer.forecast.reached_at < 7
    assert "don't add up" in answer.doubt
    assert answer.doubt in said(answer)


def test_a_run_below_its_dry_matter_before_the_target_has_no_finish() -> None:
    run = Points((0.0, 1.0, 2.0, 3.0), (500, 300, 120, 60))
    answer = read_run(run, start_moisture_pct=85, target_moisture_pct=0.5)
    assert answer.forecast is None
    assert "don't add up" in answer.doubt


SCALES = st.sampled_from([0.01, 0.25, 2.0, 28.35, 453.6])


@st.composite
def runs(draw: st.DrawFn, past_the_target: bool = False) -> Points:
    """Weighings along Page's curve, with a scale's noise, of 500 g at 85 % moisture."""
    rate, power = draw(st.floats(0.15, 0.6)), draw(st.floats(0.8, 1.4))
    count = draw(st.integers(6, 14))
    last = ((6.0 if past_the_target else draw(st.floats(0.4, 6.0))) / rate) ** (1 / power)
    hours = np.linspace(0.0, last, count)
    noise = draw(st.lists(st.integers(-2, 2), min_size=count, max_size=count))
    grams = 75 + 425 * np.exp(-rate * hours**power) + np.array(noise)
    return Points(tuple(hours.tolist()), (500.0, *np.round(grams[1:], 1).tolist()))


@settings(max_examples=25, deadline=None)
@given(runs(), SCALES)
def test_another_unit_of_mass_changes_nothing_but_the_masses(run: Points, scale: float) -> None:
    one = read_run(run, start_moisture_pct=85, target_moisture_pct=12)
    other = read_run(
        Points(run.hours, tuple(g * scale for g in run.grams)), start_moisture_pct=85, target_moisture_pct=12
    )
    assert [f.name for f in other.curves.fits] == [f.name for f in one.curves.fits]
    for mine, theirs in zip(one.curves.fits, other.curves.fits, strict=True):
        # two terms of a run that is one exponential lie in a flat valley: the last digit of a mass decides how
        # far down the fit gets
        valley = 1e-3 if mine.name == "two-term" else 1e-6
        assert theirs.sse == pytest.approx(mine.sse, rel=valley, abs=1e-12)
    assert (one.forecast is None) == (other.forecast is None)
    if one.forecast is not None and other.forecast is not None:
        assert other.forecast.target_g == pytest.approx(one.forecast.target_g * scale)


@settings(max_examples=60, deadline=None)
@given(runs(past_the_target=True))
def test_the_target_is_reached_between_the_weighings_it_lies_between(run: Points) -> None:
    answer = read_run(run, start_moisture_pct=85, target_moisture_pct=20)
    assert answer.forecast is not None
    reached, target = answer.forecast.reached_at, 75 / 0.8
    assert answer.forecast.target_g == pytest.approx(target)
    assert reached is not None
    first = next(i for i, g in enumerate(run.grams) if g <= target)
    assert run.hours[first - 1] <= reached <= run.hours[first]


@settings(max_examples=200, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 200), st.floats(0.1, 1e6)), min_size=1, max_size=12, unique_by=lambda p: p[0]),
    st.none() | st.floats(1, 99),
    st.none() | st.floats(1, 99),
)
@example([(0.0, 2.0), (1e-310, 1.0), (1.0, 1.0), (2.0, 1.0), (3.0, 1.0), (4.0, 1.0)], 50.0, None)
@example([(0.0, 2.0), (1e-9, 1.0)], 50.0, 10.0)
def test_whatever_the_file_says_the_answer_is_plain_json_or_a_sentence(
    rows: list[tuple[float, float]], start: float | None, target: float | None
) -> None:
    rows.sort()
    run = Points(tuple(h - rows[0][0] for h, _ in rows), tuple(g for _, g in rows))
    try:
        answer = read_run(run, start_moisture_pct=start, target_moisture_pct=target)
    except InputProblem:
        assert start is not None
        assert target is not None
        assert target >= start
        return
    json.dumps(answer_json(answer), allow_nan=False)
    assert all(line.strip() for line in said(answer))
    if start is None or target is None:
        assert answer.forecast is None


def test_her_own_finished_runs_of_the_food_count_before_what_is_published() -> None:
    hands = Hands()
    for _ in range(2):
        batch = hands.start(1000.0)
        hands.dry(batch, (1, 2, 3, 5, 7, 9), k=0.25)
        take_off(hands.kitchen, batch, CameOff(Mass(170.0, "170 g")))
        hands.wait(10)
    run = Points((0.0, 1.0, 2.0), (1000.0, 830.0, 690.0))
    own = read_run(run, kitchen=hands.kitchen, food=APPLE)
    published = read_run(run, kitchen=Hands().kitchen, food=APPLE)
    assert [basis.n for basis in own.basis if basis.kind == "own"] == [2]
    assert not any(basis.kind == "own" for basis in published.basis)
    assert own.forecast is not None
    assert published.forecast is not None
    assert own.forecast.finish.high80 - own.forecast.finish.low80 < (
        published.forecast.finish.high80 - published.forecast.finish.low80
    )


def test_a_change_of_heat_in_the_file_is_followed_and_said(tmp_path) -> None:
    hours = [0, 1, 2, 3]
    grams = [round(78 + 422 * math.exp(-0.2 * h)) for h in hours]
    found = {}
    for heats in (("57", "57", "57.4", "57"), ("45", "45", "", "65")):
        rows = [f"{h},{g},{heat}" for h, g, heat in zip(hours, grams, heats, strict=True)]
        file = tmp_path / "run.csv"
        file.write_text("hours,grams,temperature_c\n" + "\n".join(rows) + "\n", encoding="utf-8")
        answer = read_run(read_points(file), start_moisture_pct=85, target_moisture_pct=15)
        found[heats[-1]] = answer
    assert found["65"].forecast.finish.median < found["57"].forecast.finish.median
    followed = [line for line in lines_of(found["65"], Style(METRIC)) if "65 °C" in line]
    assert len(followed) == 1
    assert not any("°C" in line for line in lines_of(found["57"], Style(METRIC)))


@every_row("cell", ["warm", "400", "-20"])
def test_a_temperature_that_no_dryer_has_is_refused_with_its_line(cell, tmp_path) -> None:
    file = tmp_path / "run.csv"
    file.write_text(f"hours,grams,temperature_c\n0,500,57\n1,400,{cell}\n", encoding="utf-8")
    with pytest.raises(InputProblem, match="Line 3"):
        read_points(file)


def test_a_dryer_that_stood_still_is_asked_about_in_the_answer() -> None:
    run = Points((0.0, 1.0, 2.0, 3.0, 6.0, 7.0), (500.0, 407.0, 334.0, 277.0, 277.0, 233.0))
    answer = read_run(run, start_moisture_pct=85, target_moisture_pct=15)
    asked = "between 3 h and 6 h, and the forecast leaves that time out. Was the dryer off?"
    assert any(asked in line for line in said(answer))


@every_row(
    ("heats", "told"),
    [
        ((), None),
        (((0.0, 57.0),), ((0.0,), (57.0,))),
        (((1.5, 57.0),), ((0.0,), (57.0,))),  # what it was before is what was read first
        (((0.0, 57.0), (2.0, 57.0 + SAME_HEAT_C)), ((0.0,), (57.0,))),
        (((0.0, 57.0), (2.0, 57.0 + 1.01 * SAME_HEAT_C)), ((0.0, 2.0), (57.0, 57.0 + 1.01 * SAME_HEAT_C))),
        (((0.0, 57.0), (2.0, 49.0), (4.0, 57.0)), ((0.0, 2.0, 4.0), (57.0, 49.0, 57.0))),
        (((0.0, 57.0), (0.0, 68.0)), ((0.0, 1e-3), (57.0, 68.0))),
    ],
)
def test_heats_that_hardly_differ_are_one(heats, told) -> None:
    found = heating_in(Points((0.0, 1.0), (1000.0, 900.0), heats=heats), None)
    assert (None if found is None else (found.hours, found.celsius)) == told


def test_of_a_food_without_a_kitchen_or_a_name_nothing_own_is_looked_up() -> None:
    hands = Hands()
    for _ in range(2):
        batch = hands.start(1000.0)
        hands.dry(batch, (1, 2, 3, 5, 7, 9))
        take_off(hands.kitchen, batch, CameOff(Mass(170.0)))
        hands.wait(9)
    early = Points((0.0, 1.0), (1000.0, 880.0))
    alone, with_runs = (read_run(early, kitchen=kitchen, food=APPLE) for kitchen in (None, hands.kitchen))
    assert with_runs.forecast is not None
    assert any("earlier runs" in basis.source for basis in with_runs.basis)
    assert not any("earlier runs" in basis.source for basis in alone.basis)
    assert with_runs.cautions
    assert not alone.cautions


@every_row(
    ("start", "target", "refused"),
    [
        (100.0, 15.0, "start_moisture"), (0.0, 15.0, "start_moisture"), (85.0, 0.0, "until_moisture"),
        (85.0, 100.0, "until_moisture"), (85.0, 85.0, "until_moisture"), (85.0, 84.9, ""),
    ],
)  # fmt: skip
def test_moistures_lie_between_nothing_and_all_and_the_target_below_the_start(start, target, refused) -> None:
    if not refused:
        assert read_run(POINTS, start_moisture_pct=start, target_moisture_pct=target).curves.fits
        return
    with pytest.raises(InputProblem) as problem:
        read_run(POINTS, start_moisture_pct=start, target_moisture_pct=target)
    assert problem.value.field == refused


def test_both_moistures_missing_are_named_together() -> None:
    answer = read_run(POINTS)
    assert answer.missing == ("start_moisture", "until_moisture")
    assert " and " in answer.doubt
    assert "are not known" in answer.doubt
    assert answer_json(answer)["finish"] is None


def test_hours_are_counted_from_the_first_weighing_only_where_a_finish_is_told() -> None:
    counted = "Hours count from the first weighing."
    assert any(counted in line for line in said(read_run(POINTS, start_moisture_pct=85, target_moisture_pct=15)))
    assert not any(counted in line for line in said(read_run(POINTS)))


def test_without_a_starting_moisture_the_curves_are_of_the_weight_over_the_first_weight() -> None:
    hours = tuple(float(h) for h in range(8))
    answer = read_run(Points(hours, tuple(500 * math.exp(-0.2 * h) for h in hours)))
    lewis = answer.curves.fits[0]
    assert (lewis.name, lewis.parameters["k"][0]) == ("Lewis", pytest.approx(0.2, rel=1e-6))
    assert answer.periods == ""


def test_the_periods_are_told_last_and_in_json() -> None:
    answer = read_run(POINTS, start_moisture_pct=85, target_moisture_pct=15)
    assert answer.periods.startswith("Constant rate for the first ")
    assert said(answer)[-1] == answer.periods == answer_json(answer)["periods"]


def test_why_there_is_no_finish_is_told_where_the_weights_add_up() -> None:
    still = read_run(Points((0.0, 1.0, 2.0), (500.0, 500.0, 500.0)), start_moisture_pct=85, target_moisture_pct=15)
    assert still.forecast is None
    assert still.doubt.startswith("The weight has hardly moved over 3 weighings")
    assert still.doubt in said(still)


def test_a_food_without_figures_leaves_both_moistures_open() -> None:
    answer = read_run(POINTS, kitchen=Hands().kitchen, food=STRANGER)
    assert answer.missing == ("start_moisture", "until_moisture")


def test_before_own_runs_a_file_is_expected_to_take_the_published_hours(monkeypatch) -> None:
    told: list[Beforehand] = []
    whole = curve_file.forecast

    def forecast(hours: object, grams: object, before: Beforehand, **more: object) -> object:
        told.append(before)
        return whole(hours, grams, before, **more)

    monkeypatch.setattr(curve_file, "forecast", forecast)
    timed = replace(APPLE, facts={**APPLE.facts, "drying_hours": Fact(8.0, "h", "a test's own table")})
    read_run(Points((0.0, 1.0), (1000.0, 830.0)), kitchen=Hands().kitchen, food=timed)
    prior = told[0].prior
    # from 86 % down to 20 % of the weight: 86/14 to 20/80 grams of water for a gram of dry matter
    assert math.exp(-prior.k * 8.0**prior.n) == pytest.approx(0.25 / (86 / 14))
    assert prior.basis.source == "a test's own table"
