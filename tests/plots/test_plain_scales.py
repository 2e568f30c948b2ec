"""Numbers and labels of the parts of a day: all there, beside what they number, also in what is saved."""

from __future__ import annotations

import io
import re
from xml.etree import ElementTree

import matplotlib
import pytest
from matplotlib.figure import Figure

from dryhouse.plots.curve_picture import CurvePicture
from dryhouse.plots.plain_scales import PlainScales
from tests.plots.days import RUN, drawn


def test_a_saved_day_holds_every_number_and_label_and_the_numbers_follow_the_part_in_view() -> None:
    figure = drawn(CurvePicture((RUN,)))
    assert all(any(isinstance(artist, PlainScales) for artist in axes.artists) for axes in figure.axes)
    told = set(words_of(figure))
    assert {"1000", "100", "0", "2", "4", "6", "apple", "turned"} <= {word.strip() for word in told}
    assert {"Weight (g)", "Moisture (%)", "Dryer (°C)", "Hours since the start (h)"} <= told
    for axes in figure.axes:
        axes.set_xlim(4.0, 5.0)
    assert {"4.2", "4.8"} <= set(words_of(figure))
    assert "6" not in words_of(figure)


def test_numbers_stand_beside_what_they_number() -> None:
    figure = drawn(CurvePicture((RUN,)))
    weight = figure.axes[0]
    page = svg_of(figure)
    across = {word: x for word, x, _ in page}
    up = {word: y for word, _, y in page}
    per_hour = (weight.transData.transform((6, 0)) - weight.transData.transform((0, 0)))[0] * 72 / figure.dpi
    assert across["6"] - across["2"] == pytest.approx(per_hour * 4 / 6, abs=0.5)
    per_gram = (weight.transData.transform((0, 1000)) - weight.transData.transform((0, 0)))[1] * 72 / figure.dpi
    assert up["500"] - up["1000"] == pytest.approx(per_gram / 2, abs=0.5)


def words_of(figure: Figure) -> list[str]:
    return [word for word, _, _ in svg_of(figure)]


def svg_of(figure: Figure) -> list[tuple[str, float, float]]:
    """Every word of a saved drawing, and where it begins."""
    page = io.StringIO()
    with matplotlib.rc_context({"svg.fonttype": "none"}):
        figure.savefig(page, format="svg")
    found = []
    for text in ElementTree.fromstring(page.getvalue()).iter("{http://www.w3.org/2000/svg}text"):
        place = re.search(r"translate\(([-\d.]+)[ ,]+([-\d.]+)\)", text.get("transform", ""))
        x, y = place.groups() if place else (text.get("x"), text.get("y"))
        found.append((text.text or "", float(x or 0), float(y or 0)))
    return found
