"""The chart of a yield: what it draws, in numbers and in words."""

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from dryhouse.plots.tokens import DARK, LIGHT
from dryhouse.plots.yields import Dot, Way, YieldPicture, draw_yields, in_words, table_of
from dryhouse.words.charts import percent

HANDBOOK, OWN, JOINED = (
    Way("Handbook", 29, 19, 45),
    Way("Your batches (4)", 25, 22, 28),
    Way("Joined", 25.6, 22, 29),
)
DOTS = (Dot(24, "batch 1"), Dot(26, "batch 2", same=False), Dot(27, "batch 3"), Dot(23, "batch 4"))
WHOLE = YieldPicture("sweet corn", (HANDBOOK, OWN, JOINED), DOTS)


def drawn(picture, tokens=LIGHT, size=(5, 3)):
    figure = Figure(figsize=size)
    FigureCanvasAgg(figure)
    draw_yields(figure, picture, tokens)
    figure.canvas.draw()
    return figure.axes[0]


def texts(axes):
    return [t.get_text() for t in axes.texts] + [t.get_text() for t in axes.get_yticklabels()]


@pytest.mark.parametrize("tokens", [LIGHT, DARK])
def test_every_bar_spans_its_interval_and_is_named_where_it_stands(tokens):
    axes = drawn(WHOLE, tokens)
    assert [(b.get_x(), b.get_x() + b.get_width()) for b in axes.patches] == [(19, 45), (22, 28), (22, 29)]
    assert {"Handbook", "Your batches (4)", "Joined", "Each batch", "last: 23 %"} <= set(texts(axes))
    assert len({b.get_hatch() for b in axes.patches}) == 3


@pytest.mark.parametrize("larger", [1.0, 2.0])
def test_no_word_is_cut_or_stands_on_another_at_any_size_of_text(larger):
    axes = drawn(WHOLE, LIGHT.enlarged(larger), (8, 5))
    numbers, names, label = axes.get_xticklabels(), axes.get_yticklabels(), axes.xaxis.label.get_window_extent()
    assert min(name.get_window_extent().x0 for name in names) >= 0
    assert 0 <= label.y0 < label.y1 <= min(number.get_window_extent().y0 for number in numbers)


def test_every_own_batch_is_a_dot_and_other_forms_have_another_mark():
    axes = drawn(WHOLE)
    marks = {line.get_marker(): list(line.get_xdata()) for line in axes.lines if line.get_linestyle() == "None"}
    assert marks["x"] == [26]
    assert "× another form" in texts(axes)


def test_the_handbook_alone_and_a_way_without_interval_can_be_drawn():
    assert len(drawn(YieldPicture("apple", (HANDBOOK,))).patches) == 1
    assert len(drawn(YieldPicture("apple", (Way("Your batches (1)", 15.0),), DOTS[:1])).patches) == 0


def test_many_batches_are_thinned_and_the_last_one_kept():
    many = YieldPicture("corn", (OWN,), (*(Dot(20 + i % 7, str(i)) for i in range(5000)), Dot(99, "last")))
    axes = drawn(many)
    points = [line for line in axes.lines if line.get_linestyle() == "None" and len(line.get_xdata()) > 1]
    assert sum(len(line.get_xdata()) for line in points) <= 400
    assert "last: 99 %" in texts(axes)


def test_the_table_and_the_words_say_the_same_as_the_picture():
    rows = table_of(WHOLE)
    assert rows[1] == ("Handbook", 29, 19, 45)
    assert len(rows) == 1 + 3 + 4
    assert in_words(WHOLE) == (
        "Dried weight of sweet corn in per cent of the prepared: Handbook 29 %, likely 19 % to 45 %; "
        "Your batches (4) 25 %, likely 22 % to 28 %; Joined 26 %, likely 22 % to 29 %; last batch 23 %."
    )
    assert percent(5.43) == "5.4 %"
