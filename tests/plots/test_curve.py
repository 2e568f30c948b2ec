"""The chart of drying runs, judged by what stands on it."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from datetime import datetime

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text

from dryhouse.plots.curve import CurveChart, draw_curve
from dryhouse.plots.curve_picture import DRY, MASS, RATIO, WET, Band, CurvePicture, RunPicture
from dryhouse.plots.curve_places import spread
from dryhouse.plots.tokens import DARK, LIGHT
from dryhouse.words.charts import BAND_50, BAND_80
from tests.rows import every_row

HOURS = (0.0, 1.0, 2.0, 4.0)
GRAMS = (1000.0, 800.0, 650.0, 400.0)
AHEAD = tuple(np.linspace(4, 16, 20).tolist())


def fall(to: float) -> tuple[float, ...]:
    return tuple((to + (400 - to) * np.exp(-np.linspace(0, 4, 20))).tolist())


RUN = RunPicture(
    "apple",
    HOURS,
    GRAMS,
    solids_g=140.0,
    start_g=1000.0,
    started=datetime(2026, 8, 14, 8, 0),  # noqa: DTZ001
    curve_name="Page",
    curve_hours=tuple(np.linspace(0, 4, 50).tolist()),
    curve_grams=tuple((140 + 860 * np.exp(-0.3 * np.linspace(0, 4, 50))).tolist()),
    residual_grams=(0.0, 4.0, -3.0, 1.0),
    band=Band(AHEAD, fall(120), fall(140), fall(155), fall(170), fall(200)),
    finish=(9.0, 10.0, 11.0, 12.5, 15.0),
    target_g=175.0,
    now=4.5,
)


def drawn(picture: CurvePicture, tokens=LIGHT) -> Figure:
    figure = Figure(figsize=(7.6, 4.2), dpi=100)
    FigureCanvasAgg(figure)
    draw_curve(figure, picture, tokens)
    figure.canvas.draw()
    return figure


def words(figure: Figure) -> list[str]:
    return [t.get_text().strip() for axes in figure.axes for t in axes.texts]


def line(figure: Figure, x, y):
    wanted = np.asarray(y, dtype=float)
    visible = [li for axes in figure.axes for li in axes.lines if li.get_visible()]
    for found in visible:
        same = np.shape(found.get_ydata()) == wanted.shape and np.allclose(found.get_ydata(), wanted)
        if same and np.allclose(found.get_xdata(), x):
            return found
    raise AssertionError("no such line is drawn")


@every_row(
    ("axis", "values", "label"),
    [
        (WET, (86.0, 82.5, 78.4615, 65.0), "Moisture (%)"),
        (DRY, (6.142857, 4.714286, 3.642857, 1.857143), "Moisture, dry basis (g/g)"),
        (RATIO, (1.0, 0.767442, 0.593023, 0.302326), "Moisture ratio"),
        (MASS, GRAMS, "Weight (g)"),
    ],
)
def test_the_weighings_stand_where_the_axis_says(axis, values, label) -> None:
    figure = drawn(CurvePicture((RUN,), axis=axis))
    assert (
        line(figure, HOURS, np.round(values, 4) if axis == WET else values).get_marker() == LIGHT.series[0].marker
    )
    assert figure.axes[0].get_ylabel() == label
    assert figure.axes[0].get_xlabel() == "Hours of drying (h)"


def test_the_weight_is_shown_in_the_persons_unit() -> None:
    figure = drawn(CurvePicture((RUN,), axis=MASS, unit="oz"))
    line(figure, HOURS, np.array(GRAMS) / 28.349523125)
    assert figure.axes[0].get_ylabel() == "Weight (oz)"


def test_everything_is_named_beside_it() -> None:
    said = set(words(drawn(CurvePicture((RUN,)))))
    assert {BAND_80, BAND_50, "target 20 %", "now"} <= said
    assert "Page curve" not in said
    models = drawn(CurvePicture((RUN,), models=True))
    assert "Page curve" in words(models)
    assert models.axes[0].get_ylabel() == "Moisture, wet basis (%)"


def test_both_bands_are_filled_and_edged() -> None:
    axes = drawn(CurvePicture((RUN,), axis=MASS)).axes[0]
    assert len(axes.collections) == 2
    line(axes.figure, AHEAD, RUN.band.low80)
    line(axes.figure, AHEAD, RUN.band.high80)


def test_the_finish_is_a_bar_on_the_target_line() -> None:
    figure = drawn(CurvePicture((RUN,), axis=MASS))
    assert (
        line(figure, (9.0, 15.0), (175, 175)).get_linewidth()
        < line(figure, (10.0, 12.5), (175, 175)).get_linewidth()
    )
    line(figure, (11.0,), (175,))


def test_a_finish_with_no_latest_time_ends_at_the_edge() -> None:
    open_ended = replace(RUN, finish=(9.0, 10.0, 11.0, 20.0, math.inf))
    figure = drawn(CurvePicture((open_ended,), axis=MASS))
    edge = figure.axes[0].get_xlim()[1]
    line(figure, (9.0, edge), (175, 175))
    assert edge < 25


def test_runs_laid_over_each_other_differ_without_colour() -> None:
    others = tuple(replace(RUN, name=f"apple {n}", band=None, finish=None, now=None) for n in range(2))
    figure = drawn(CurvePicture((RUN, *others), axis=RATIO))
    points = [li for li in figure.axes[0].lines if li.get_marker() not in ("None", "D", "none", None)]
    assert len({li.get_marker() for li in points}) == 3
    assert {"apple", "apple 0", "apple 1"} <= set(words(figure))


def test_labels_at_the_right_do_not_touch() -> None:
    others = tuple(replace(RUN, name=f"apple {n}", band=None, finish=None, now=None) for n in range(3))
    figure = drawn(CurvePicture((RUN, *others), axis=RATIO))
    boxes = sorted(
        (
            Text.get_window_extent(t)
            for t in figure.axes[0].texts
            if t.get_rotation() == 0 and t.get_text().strip() != "now"
        ),
        key=lambda b: b.y0,
    )
    assert all(upper.y0 >= lower.y1 - 1 for lower, upper in itertools.pairwise(boxes))
    assert all(b.x1 <= figure.bbox.x1 for b in boxes)


def test_pauses_move_the_clock_and_not_the_hours() -> None:
    paused = replace(RUN, pauses=((1.5, 6.0),))
    by_clock = drawn(CurvePicture((paused,), axis=MASS, by_clock=True))
    x = next(li for li in by_clock.axes[0].lines if li.get_marker() == "o").get_xdata()
    assert np.allclose((np.asarray(x) - x[0]) * 24, (0, 1, 8, 10))
    line(drawn(CurvePicture((paused,), axis=MASS)), HOURS, GRAMS)
    assert by_clock.axes[0].get_xlabel() == "Time of day"


def test_residuals_on_demand_stand_below() -> None:
    figure = drawn(CurvePicture((RUN,), residuals=True))
    assert len(figure.axes) == 2
    line(figure, HOURS, RUN.residual_grams)
    assert "Residual (g)" in [a.get_ylabel() for a in figure.axes]


def test_what_happened_is_marked() -> None:
    assert "turned" in words(drawn(CurvePicture((replace(RUN, marks=((2.0, "turned"),)),))))


def test_without_dry_matter_only_the_weight_can_be_drawn() -> None:
    stranger = replace(RUN, solids_g=None, start_g=None, curve_hours=(), curve_grams=(), band=None, target_g=None)
    assert "Without the starting moisture only the weight can be drawn." in words(drawn(CurvePicture((stranger,))))
    line(drawn(CurvePicture((stranger,), axis=MASS)), HOURS, GRAMS)


def test_nothing_weighed_says_so() -> None:
    assert "Nothing weighed yet." in words(drawn(CurvePicture((RunPicture("apple", (), ()),))))


def test_one_more_weighing_moves_what_is_there_and_builds_nothing_anew() -> None:
    figure = Figure(figsize=(7.6, 4.2), dpi=100)
    FigureCanvasAgg(figure)
    chart = CurveChart(figure, LIGHT)
    chart.show(CurvePicture((RUN,), axis=MASS))
    axes, lines, others = figure.axes[0], list(figure.axes[0].lines), len(figure.axes[0].texts)
    more = replace(RUN, hours=(*HOURS, 6.0), grams=(*GRAMS, 300.0), now=6.5)
    chart.show(CurvePicture((more,), axis=MASS))
    assert figure.axes[0] is axes
    assert list(axes.lines) == lines
    assert len(axes.texts) == others
    assert len(axes.collections) == 2
    line(figure, more.hours, more.grams)


def test_what_is_gone_from_the_next_picture_is_gone_from_the_chart() -> None:
    figure = Figure()
    FigureCanvasAgg(figure)
    chart = CurveChart(figure, DARK)
    chart.show(CurvePicture((RUN,), axis=MASS))
    chart.show(CurvePicture((replace(RUN, band=None, finish=None, target_g=None),), axis=MASS))
    assert BAND_80 not in words(figure)
    assert not figure.axes[0].collections
    with pytest.raises(AssertionError):
        line(figure, (9.0, 15.0), (175, 175))


@pytest.mark.parametrize("tokens", [LIGHT, DARK])
def test_both_looks_use_their_own_colours(tokens) -> None:
    figure = drawn(CurvePicture((RUN,), axis=MASS), tokens)
    assert line(figure, HOURS, GRAMS).get_color() == tokens.series[0].colour
    assert figure.axes[0].get_facecolor()[:3] == pytest.approx(
        tuple(int(tokens.surface[i : i + 2], 16) / 255 for i in (1, 3, 5))
    )


@given(st.lists(st.floats(0, 1), min_size=1, max_size=12), st.floats(0.01, 0.3))
def test_spread_keeps_order_and_distance_within_the_axis(places, gap) -> None:
    placed = spread(sorted(places), gap)
    room = min(gap, 1 / max(len(places) - 1, 1))
    assert all(b - a >= room - 1e-9 for a, b in itertools.pairwise(placed))
    assert min(placed) >= -1e-9
    assert max(placed) <= 1 + 1e-9


def pixels(chart: CurveChart) -> np.ndarray:
    chart.paint()
    return np.asarray(chart.figure.canvas.buffer_rgba()).copy()


def new_chart() -> CurveChart:
    figure = Figure(figsize=(7.6, 4.2), dpi=100)
    FigureCanvasAgg(figure)
    return CurveChart(figure, LIGHT)


def test_axes_that_stay_are_drawn_once_and_the_picture_is_the_same_as_one_drawn_anew(monkeypatch) -> None:
    chart, drawn_whole = new_chart(), []
    draw = chart.figure.canvas.draw
    monkeypatch.setattr(chart.figure.canvas, "draw", lambda: drawn_whole.append(draw()))
    chart.show(CurvePicture((RUN,), axis=MASS))
    before = pixels(chart)
    more = replace(RUN, hours=(*HOURS, 6.0), grams=(*GRAMS, 300.0), now=6.5)
    chart.show(CurvePicture((more,), axis=MASS))
    after = pixels(chart)
    assert len(drawn_whole) == 1
    assert not np.array_equal(before, after)
    fresh = new_chart()
    fresh.show(CurvePicture((RUN,), axis=MASS))
    fresh.show(CurvePicture((more,), axis=MASS))
    assert np.array_equal(after, pixels(fresh))
    chart.show(CurvePicture((more,), axis=RATIO))
    pixels(chart)
    assert len(drawn_whole) == 2


def test_the_time_axis_stays_while_the_run_fills_it_and_grows_when_it_must() -> None:
    chart = new_chart()
    chart.show(CurvePicture((RUN,), axis=MASS))
    first = chart.axes.get_xlim()
    sooner = tuple(0.95 * h for h in RUN.finish)
    chart.show(CurvePicture((replace(RUN, finish=sooner),), axis=MASS))
    assert chart.axes.get_xlim() == first
    later = tuple(1.6 * h for h in RUN.finish)
    chart.show(CurvePicture((replace(RUN, finish=later),), axis=MASS))
    assert chart.axes.get_xlim()[1] > first[1]
    chart.show(CurvePicture((replace(RUN, name="another batch"),), axis=MASS))
    assert chart.axes.get_xlim() == first
