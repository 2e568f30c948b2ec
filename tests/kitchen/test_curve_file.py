"""What a run kept in a file says, without the command line round it."""

from __future__ import annotations

import numpy as np
import pytest

from dryhouse.kitchen.curve_file import answer_json, read_run, said
from dryhouse.kitchen.curve_points import Points
from dryhouse.science.errors import InputProblem

HOURS = tuple(np.arange(0, 6.1, 0.5).tolist())
POINTS = Points(HOURS, tuple(np.round(77 + 423 * np.exp(-0.24 * np.array(HOURS) ** 1.15)).tolist()))


def test_moistures_given_make_curves_and_a_finish() -> None:
    answer = read_run(POINTS, start_moisture_pct=85, target_moisture_pct=15)
    assert answer.forecast is not None
    assert answer.curves.chosen is not None
    assert "from 85 % starting moisture" in " ".join(answer.workings)
    keys = answer_json(answer)
    assert keys["chosen"] == answer.curves.chosen.name
    assert keys["target_g"] == pytest.approx(75 / 0.85)
    lines = said(answer)
    assert lines[0] == answer.forecast.sentence
    assert sum(line.startswith("* ") for line in lines) == 1


@pytest.mark.parametrize(
    ("start", "target", "missing"), [(85.0, None, "--until-moisture"), (None, 15.0, "--start-moisture")]
)
def test_what_is_missing_is_named(start, target, missing) -> None:
    answer = read_run(POINTS, start_moisture_pct=start, target_moisture_pct=target)
    assert answer.forecast is None
    assert missing in answer.amiss
    assert answer.amiss in said(answer)
    assert answer.curves.fits


def test_a_target_above_the_start_is_refused() -> None:
    with pytest.raises(InputProblem) as problem:
        read_run(POINTS, start_moisture_pct=15, target_moisture_pct=85)
    assert problem.value.field == "until_moisture"


def test_a_run_that_ends_below_its_dry_matter_keeps_the_crossing_it_showed_and_says_what_to_doubt() -> None:
    run = Points(tuple(float(h) for h in range(10)), (500, 420, 350, 280, 210, 150, 110, 85, 70, 62))
    answer = read_run(run, start_moisture_pct=85, target_moisture_pct=20)
    assert answer.forecast is not None
    assert 6 < answer.forecast.reached_at < 7
    assert "don't add up" in answer.amiss
    assert answer.amiss in said(answer)


def test_a_run_below_its_dry_matter_before_the_target_has_no_finish() -> None:
    run = Points((0.0, 1.0, 2.0, 3.0), (500, 300, 120, 60))
    answer = read_run(run, start_moisture_pct=85, target_moisture_pct=0.5)
    assert answer.forecast is None
    assert "don't add up" in answer.amiss
