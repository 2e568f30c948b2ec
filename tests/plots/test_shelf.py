"""Timeline of the shelf."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_hex
from matplotlib.figure import Figure

from dryhouse.plots.shelf import ShelfBar, ShelfPicture, draw_shelf, say, size_of, table
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


def names(axes) -> list[str]:
    """From the top down."""
    return [label.get_text() for label in reversed(axes.get_yticklabels())]


def test_it_says_in_words_what_will_have_passed():
    assert (
        say(PICTURE)
        == "2 of 3 lots will have passed their keep-by on 24 Jan 2027, 1 of them already; 1 more has no keep-by"
    )


@pytest.mark.parametrize("tokens", [LIGHT, DARK])
def test_the_gravest_stands_highest_with_a_full_bar_and_what_will_have_passed_is_hatched(tokens):
    axes = drawn(PICTURE, tokens).axes[0]
    assert names(axes) == ["beef", "apple", "turkey", "corn"]
    bars = [p for p in axes.patches if p.get_height() < 1]
    assert [bool(p.get_hatch()) for p in bars] == [False, True, True, False]
    fill = [to_hex(p.get_facecolor()).upper() for p in bars]
    tints = [tokens.tint(word) for word in ("do not eat", "past keep-by", "use soon", "keeping")]
    assert fill == [tints[0].ink.upper(), tints[1].ink.upper(), tints[2].ground.upper(), tints[3].ground.upper()]
    assert [label.get_fontweight() for label in reversed(axes.get_yticklabels())] == ["bold"] * 2 + ["normal"] * 2
    told = [t.get_text() for t in axes.texts]
    assert told[:4] == ["do not eat", "20 Nov 2026, past keep-by", "5 Dec 2026, use soon", "13 Jun 2027, keeping"]
    assert {"today", "24 Jan 2027", "lake circuit"} <= set(told)


def test_a_bar_runs_from_the_day_it_was_packed_to_its_keep_by():
    axes = drawn(PICTURE).axes[0]
    corn = [p for p in axes.patches if p.get_height() < 1][3]
    assert corn.get_width() == 240
    assert (TODAY - date(1970, 1, 1)).days - corn.get_x() == 40


def test_the_trip_stands_behind_the_lots_from_its_first_day_through_its_last():
    axes = drawn(PICTURE).axes[0]
    (span,) = [p for p in axes.patches if p.get_height() >= 1]
    assert span.get_width() == 9
    assert span.get_zorder() < min(p.get_zorder() for p in axes.patches if p is not span)


def test_every_one_of_sixty_lots_is_there_and_none_stands_on_another():
    figure = drawn(MANY)
    axes = figure.axes[0]
    assert len(names(axes)) == len(axes.patches) == 60
    assert names(axes)[0] == "lot 0"
    boxes = [label.get_window_extent() for label in reversed(axes.get_yticklabels())]
    assert all(upper.y0 >= lower.y1 for upper, lower in pairwise(boxes))
    assert len(table(MANY)) == 61


def test_no_word_is_cut_by_the_edge():
    lots = tuple(bar(f"a rather long name of a food {n}", n, "past keep-by") for n in range(24))
    figure = drawn(ShelfPicture(lots, TODAY, TODAY))
    edge = figure.bbox
    for text in (*figure.texts, *figure.axes[0].texts, *figure.axes[0].get_yticklabels()):
        box = text.get_window_extent()
        assert box.x0 >= edge.x0
        assert box.x1 <= edge.x1, text.get_text()


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
