"""A run with everything a day can show, and the day drawn."""

from __future__ import annotations

from matplotlib.figure import Figure

from dryhouse.plots.curve_picture import CurvePicture, RunPicture
from dryhouse.plots.day import draw_day
from dryhouse.plots.tokens import LIGHT, Tokens

RUN = RunPicture(
    "apple", (0.0, 1.0, 2.0, 4.0), (1000.0, 800.0, 650.0, 450.0), solids_g=140.0, start_g=1000.0,
    pauses=((1.5, 2.0),), air=((0.0, 2.0), (57.0, 60.0)), marks=((1.0, "turned"),),
)  # fmt: skip


def drawn(picture: CurvePicture, tokens: Tokens = LIGHT, size: tuple[float, float] = (8, 7)) -> Figure:
    figure = Figure(figsize=size)
    draw_day(figure, picture, tokens)
    return figure
