"""A run as numbers: every axis from the same grams."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from dryhouse.plots.curve_picture import DRY, MASS, RATIO, WET, CurvePicture, RunPicture, table

RUN = RunPicture(
    "apple", (0.0, 2.0), (1000.0, 280.0), solids_g=140.0, start_g=1000.0,
    started=datetime(2026, 8, 14, 8, 0, tzinfo=UTC), pauses=((1.0, 3.0),),
)  # fmt: skip


def test_wet_basis_dry_basis_and_ratio_agree_with_hand_arithmetic() -> None:
    assert float(RUN.on(WET, 280.0)) == pytest.approx(50.0)
    assert float(RUN.on(DRY, 280.0)) == pytest.approx(1.0)
    assert float(RUN.on(RATIO, 280.0)) == pytest.approx(140 / 860)
    assert float(RUN.on(MASS, 28.349523125, "oz")) == pytest.approx(1.0)


def test_the_clock_counts_pauses() -> None:
    assert RUN.elapsed((0.5, 2.0)).tolist() == [0.5, 5.0]


def test_the_copied_table_has_a_heading_and_a_row_for_each_weighing() -> None:
    rows = list(table(CurvePicture((RUN,))))
    assert rows[0][:4] == ("run", "time", "hours", "grams")
    assert rows[2] == ("apple", "2026-08-14T13:00:00+00:00", 2.0, 280.0, 50.0, 1.0, 0.1628)


def test_a_run_without_dry_matter_has_weights_alone() -> None:
    bare = RunPicture("sorrel", (0.0,), (100.0,))
    assert not bare.can_show(WET)
    assert list(table(CurvePicture((bare,))))[1] == ("sorrel", None, 0.0, 100.0, None, None, None)
