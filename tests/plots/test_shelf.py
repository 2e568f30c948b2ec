"""Timeline of the shelf."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date, timedelta
from itertools import chain, pairwise
from typing import NamedTuple

import matplotlib
import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_hex, to_rgb
from matplotlib.figure import Figure
from matplotlib.transforms import Bbox

from dryhouse.plots import words_canvas
from dryhouse.plots.first_strokes import first_strokes
from dryhouse.plots.rows_of_words import RowsOfWords, Said, font
from dryhouse.plots.shelf import draw_shelf, said_of
from dryhouse.plots.shelf_picture import ShelfBar, ShelfPicture, say, size_of, table
from dryhouse.plots.tokens import DARK, LIGHT
from dryhouse.words.dates import day_words

TODAY = date(2026, 11, 25)
LATER = TODAY + timedelta(days=60)


def bar(name: str, days: int | None, standing: str = "keeping", packed: int = -40) -> ShelfBar:
    keep_by = None if days is None else TODAY + timedelta(days=days)
    until = "" if keep_by is None else day_words(keep_by)
    return ShelfBar(name, TODAY + timedelta(days=packed), keep_by, standing, "80 g", until)


PICTURE = ShelfPicture(
    (
        bar("corn", 200),
        bar("turkey", 10, "use soon"),
        bar("apple", -5, "past keep-by"),
        bar("beef", None, "do not eat"),
    ),
    TODAY,
    LATER,
    (("lake circuit", date(2027, 2, 1), date(2027, 2, 9)),),
)
MANY = ShelfPicture(tuple(bar(f"lot {n}", 10 * n - 40) for n in range(60)), TODAY, TODAY)


def drawn(picture: ShelfPicture, tokens=LIGHT) -> Figure:
    figure = Figure(figsize=size_of(picture), dpi=100)
    FigureCanvasAgg(figure)
    draw_shelf(figure, picture, tokens)
    figure.canvas.draw()
    return figure


def words(axes, *, to_left: bool) -> list[tuple[Said, Bbox]]:
    """The names of the lots, or what is said of them, with the boxes they take, from the top down."""
    renderer = axes.figure.canvas.get_renderer()
    (rows,) = (a for a in axes.artists if isinstance(a, RowsOfWords) and a.to_left is to_left)
    return [(said, box) for said, box, _ in rows.placed(renderer)]


def names(axes) -> list[str]:
    """From the top down."""
    return [said.text for said, _ in words(axes, to_left=True)]


class Bar(NamedTuple):
    middle: float
    begin: float
    end: float
    fill: str
    hatched: bool


def bars(axes) -> list[Bar]:
    """From the top down."""
    drawn = [
        Bar(
            box.y0 + box.height / 2,
            box.x0,
            box.x1,
            to_hex(alike.get_facecolor()[0]).upper(),
            bool(alike.get_hatch()),
        )
        for alike in axes.collections
        for box in (path.get_extents() for path in alike.get_paths())
    ]
    return sorted(drawn, reverse=True)


def test_it_says_in_words_what_will_have_passed():
    assert (
        say(PICTURE)
        == "2 of 3 lots will have passed their keep-by on 24 Jan 2027, 1 of them already; 1 more has no keep-by"
    )


@pytest.mark.parametrize("tokens", [LIGHT, DARK])
def test_the_gravest_stands_highest_with_a_full_bar_and_what_will_have_passed_is_hatched(tokens):
    axes = drawn(PICTURE, tokens).axes[0]
    assert names(axes) == ["beef", "apple", "turkey", "corn"]
    assert [bar.hatched for bar in bars(axes)] == [False, True, True, False]
    tints = [tokens.tint(word) for word in ("do not eat", "past keep-by", "use soon", "keeping")]
    assert [bar.fill for bar in bars(axes)] == [tints[0].ink, tints[1].ink, tints[2].ground, tints[3].ground]
    assert [said.bold for said, _ in words(axes, to_left=True)] == [True] * 2 + [False] * 2
    told = [said.text for said, _ in words(axes, to_left=False)]
    assert told == ["do not eat", "20 Nov 2026, past keep-by", "5 Dec 2026, use soon", "13 Jun 2027, keeping"]
    assert {"today", "24 Jan 2027", "lake circuit"} <= {t.get_text() for t in axes.texts}


def test_a_bar_runs_from_the_day_it_was_packed_to_its_keep_by():
    axes = drawn(PICTURE).axes[0]
    corn = bars(axes)[3]
    assert corn.end - corn.begin == 240
    assert (TODAY - date(1970, 1, 1)).days - corn.begin == 40


def test_the_trip_stands_behind_the_lots_from_its_first_day_through_its_last():
    axes = drawn(PICTURE).axes[0]
    (span,) = axes.patches
    assert span.get_width() == 9
    assert span.get_zorder() < min(alike.get_zorder() for alike in axes.collections)


def test_every_one_of_sixty_lots_is_there_and_none_stands_on_another():
    figure = drawn(MANY)
    axes = figure.axes[0]
    assert len(names(axes)) == len(bars(axes)) == 60
    assert names(axes)[0] == "lot 0"
    boxes = [box for _, box in words(axes, to_left=True)]
    assert all(upper.y0 >= lower.y1 for upper, lower in pairwise(boxes))
    assert len(table(MANY)) == 61


def test_a_saved_timeline_holds_the_name_and_the_status_of_every_lot():
    page = io.StringIO()
    with matplotlib.rc_context({"svg.fonttype": "none"}):
        drawn(MANY).savefig(page, format="svg")
    assert all(f">lot {n}<" in page.getvalue() for n in range(60))
    assert page.getvalue().count(", keeping<") == 60


def test_no_word_is_cut_by_the_edge():
    lots = tuple(bar(f"a rather long name of a food {n}", n, "past keep-by") for n in range(24))
    figure = drawn(ShelfPicture(lots, TODAY, TODAY))
    edge = figure.bbox
    axes = figure.axes[0]
    boxes = [text.get_window_extent() for text in (*figure.texts, *axes.texts)]
    boxes += [box for to_left in (True, False) for _, box in words(axes, to_left=to_left)]
    assert len(boxes) == 1 + 1 + 2 * 24
    assert min(box.x0 for box in boxes) >= edge.x0
    assert max(box.x1 for box in boxes) <= edge.x1


def test_names_end_before_the_bars_begin_and_what_is_said_of_a_lot_stands_beside_its_bar():
    axes = drawn(PICTURE).axes[0]
    assert max(box.x1 for _, box in words(axes, to_left=True)) < axes.bbox.x0
    for bar, (_, box) in zip(bars(axes), words(axes, to_left=False), strict=True):
        x, y = axes.transData.transform((bar.end, bar.middle))
        assert 0 < box.x0 - x < 12
        assert box.y0 < y < box.y1


def test_years_in_a_narrow_picture_have_few_marks():
    lots = tuple(bar(f"lot {n}", 60 * n) for n in range(10))
    picture = ShelfPicture(lots, TODAY, TODAY)
    figure = Figure(figsize=(6.0, 4.0), dpi=100)
    FigureCanvasAgg(figure)
    draw_shelf(figure, picture, LIGHT)
    figure.canvas.draw()
    axes = figure.axes[0]
    marks = [label.get_window_extent() for label in axes.get_xticklabels() if label.get_text()]
    inside = [box for box in marks if axes.bbox.x0 <= (box.x0 + box.x1) / 2 <= axes.bbox.x1]
    assert inside
    assert all(left.x1 <= right.x0 for left, right in pairwise(inside))


def test_an_empty_shelf_is_drawn_too():
    assert drawn(ShelfPicture((), TODAY, TODAY)).axes[0].get_yticks().size == 0


def test_words_set_ahead_are_not_set_again_when_the_timeline_is_drawn():
    lots = tuple(replace(lot, name=f"{lot.name} set ahead {n}") for n, lot in enumerate(PICTURE.bars))
    picture = replace(PICTURE, bars=lots)
    for said in chain(*said_of(picture, LIGHT)):
        words_canvas.set_ahead(said.text, font(LIGHT.small, said.bold), 100.0, said.colour)
    names = {said.text for said in chain(*said_of(picture, LIGHT))}
    known = words_canvas._drawn.cache_info()
    figure = Figure(figsize=size_of(picture), dpi=100)
    words_canvas.WordsCanvas(figure)
    draw_shelf(figure, picture, LIGHT)
    figure.canvas.draw()
    assert words_canvas._drawn.cache_info().hits - known.hits >= len(names)


@pytest.mark.parametrize("larger", [1.0, 2.0])
def test_the_first_strokes_are_drawn_in_letters_of_every_size(larger):
    assert sum(1 for _step in first_strokes(LIGHT.enlarged(larger), 100.0)) >= 4


def test_no_line_runs_through_what_is_said_of_a_lot():
    """The line of today crosses the words of what has passed; where they stand there is nothing but words."""
    figure = drawn(ShelfPicture((bar("apple", -5, "past keep-by"),), TODAY, TODAY))
    ((_said, box),) = words(figure.axes[0], to_left=False)
    line = figure.axes[0].transData.transform(((TODAY - date(1970, 1, 1)).days, 0.0))[0]
    assert box.x0 < line < box.x1
    pixels = np.asarray(figure.canvas.buffer_rgba())[::-1, :, :3].astype(int)
    inside = pixels[int(box.y0) : int(box.y1) + 1, int(box.x0) : int(box.x1) + 1].reshape(-1, 3)
    accent = np.round(255 * np.asarray(to_rgb(LIGHT.accent)))
    assert np.abs(inside - accent).sum(axis=1).min() > 30
