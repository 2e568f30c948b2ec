"""Weight, moisture, rate and air over one axis of time, for one run and for several."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from dryhouse.plots.curve_picture import CurvePicture, RunPicture
from dryhouse.plots.tokens import LIGHT
from tests.plots.days import RUN, drawn


def test_four_parts_stand_over_one_axis_and_a_pause_is_time_too() -> None:
    figure = drawn(CurvePicture((RUN,)))
    labels = [axes.get_ylabel() for axes in figure.axes]
    assert labels == ["Weight (g)", "Moisture (%)", "Rate (g/g/h)", "Dryer (°C)"]
    assert len({axes.get_xlim() for axes in figure.axes}) == 1
    weight = figure.axes[0].lines[0]
    assert list(weight.get_xdata()) == [0.0, 1.0, 4.0, 6.0]
    assert list(weight.get_ydata()) == [1000.0, 800.0, 650.0, 450.0]
    rate = figure.axes[2].lines[0]
    assert rate.get_ydata()[0] == pytest.approx(200 / 140)
    assert [t.get_text().strip() for t in figure.axes[0].texts] == ["apple", "turned"]


def test_what_was_not_recorded_has_no_part() -> None:
    bare = replace(RUN, air=((), ()), solids_g=None)
    assert [axes.get_ylabel() for axes in drawn(CurvePicture((bare,))).axes] == ["Weight (g)"]
    nothing = drawn(CurvePicture((RunPicture("apple", (), ()),)))
    assert [t.get_text() for t in nothing.axes[0].texts] == ["Nothing weighed yet."]


def test_several_runs_are_told_apart_by_name_dashes_and_marker_in_her_units() -> None:
    others = tuple(replace(RUN, name=f"batch {n}", grams=tuple(g - 10 * n for g in RUN.grams)) for n in (1, 2, 3))
    figure = drawn(CurvePicture((RUN, *others), unit="oz"))
    lines = figure.axes[0].lines[:4]
    assert len({(line.get_marker(), line.get_linestyle()) for line in lines}) == 4
    assert {t.get_text().strip() for t in figure.axes[0].texts} >= {"apple", "batch 1", "batch 2", "batch 3"}
    assert figure.axes[3].get_ylabel() == "Dryer (°F)"
    assert figure.axes[3].lines[0].get_ydata()[0] == pytest.approx(134.6)


def test_no_words_collide_and_none_are_cut_with_letters_twice_as_large() -> None:
    others = tuple(replace(RUN, name=f"26 Nov, batch {n}", marks=()) for n in (1, 2, 3))
    figure = drawn(CurvePicture((replace(RUN, marks=()), *others)), LIGHT.enlarged(2.0), (10.9, 7.6))
    figure.canvas.draw()
    said = [axes.yaxis.label for axes in figure.axes] + list(figure.axes[0].texts) + [figure.axes[-1].xaxis.label]
    boxes = [(text.get_text(), text.get_window_extent()) for text in said if text.get_text()]
    assert len(boxes) == 4 + 4 + 1
    for text, box in boxes:
        assert figure.bbox.containsx(box.x0), text
        assert figure.bbox.containsx(box.x1), text
        assert figure.bbox.containsy(box.y0), text
        assert figure.bbox.containsy(box.y1), text
    touching = [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if one.overlaps(other)]
    assert touching == []
