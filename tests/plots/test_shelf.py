"""The shelf along time."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from dryhouse.plots.shelf import ShelfBar, ShelfPicture, draw_shelf, say, table
from dryhouse.plots.tokens import DARK, LIGHT

TODAY = date(2026, 11, 25)


def bar(name: str, days: int, standing: str = "keeping") -> ShelfBar:
    return ShelfBar(name, TODAY + timedelta(days=days), standing, "80 g")


PICTURE = ShelfPicture(
    (bar("corn", 200), bar("turkey", 10, "use soon"), bar("apple", -5, "past keep-by")),
    TODAY,
    TODAY + timedelta(days=60),
    1,
)


def drawn(picture: ShelfPicture, tokens=LIGHT) -> Figure:
    figure = Figure(figsize=(9, 5), dpi=100)
    FigureCanvasAgg(figure)
    draw_shelf(figure, picture, tokens)
    figure.canvas.draw()
    return figure


def test_it_says_in_words_what_will_have_passed():
    assert (
        say(PICTURE)
        == "2 of 3 lots will have passed their keep-by on 24 Jan 2027, 1 of them already; 1 more has no keep-by"
    )


@pytest.mark.parametrize("tokens", [LIGHT, DARK])
def test_what_will_have_passed_is_hatched_and_each_bar_is_named(tokens):
    axes = drawn(PICTURE, tokens).axes[0]
    assert [bool(p.get_hatch()) for p in axes.patches] == [True, True, False]  # apple, turkey, corn
    assert [t.get_text() for t in axes.get_yticklabels()] == ["corn", "turkey", "apple"]
    told = [t.get_text() for t in axes.texts]
    assert "13 Jun 2027, keeping" in told
    assert "today" in told
    assert "24 Jan 2027" in told


def test_no_word_is_cut_by_the_edge():
    figure = drawn(
        ShelfPicture(tuple(bar(f"a rather long name of a food {n}", n) for n in range(24)), TODAY, TODAY)
    )
    edge = figure.bbox
    for text in (*figure.texts, *figure.axes[0].texts, *figure.axes[0].get_yticklabels()):
        box = text.get_window_extent()
        assert box.x0 >= edge.x0
        assert box.x1 <= edge.x1, text.get_text()


def test_many_lots_show_those_that_pass_first_and_say_how_many_are_not_shown():
    picture = ShelfPicture(tuple(bar(f"lot {n}", n) for n in range(100)), TODAY, TODAY)
    axes = drawn(picture).axes[0]
    assert len(axes.patches) == 19
    assert "81 lots" in axes.get_xlabel()
    assert len(table(picture)) == 25


def test_an_empty_shelf_is_drawn_too():
    assert drawn(ShelfPicture((), TODAY, TODAY)).axes[0].get_yticks().size == 0


def test_what_is_still_to_pass_comes_before_what_has_passed():
    bars = tuple(bar(f"lot {n}", n) for n in range(-30, 10))
    shown = ShelfPicture(bars, TODAY, TODAY).shown(12)
    assert [b.name for b in shown] == [f"lot {n}" for n in range(-2, 10)]
    assert len(ShelfPicture(bars[:3], TODAY, TODAY).shown(12)) == 3
