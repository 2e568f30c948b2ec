"""A chart is read off by pointer and by arrows, told to a screen reader, and gone nearer to."""

from types import SimpleNamespace

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from dryhouse.desk.widgets import plot_pane
from dryhouse.desk.widgets.chart_reader import ChartPoint, Span, nearest
from dryhouse.desk.widgets.plot_pane import PlotPane
from dryhouse.plots.axes import dress

HOURS, PERCENT = (0.0, 2.0, 4.5), (85.0, 60.0, 31.5)


def draw(figure, _result, tokens) -> None:
    axes = figure.add_subplot()
    dress(axes, tokens, "Time (h)", "Moisture (%)")
    axes.plot(HOURS, PERCENT, marker="o", linestyle="none")
    axes.plot((0, 5), (20, 20))  # a line without marks is no reading
    axes.set_xlim(0, 5)


@pytest.fixture
def told(monkeypatch):
    said = []
    monkeypatch.setattr(plot_pane, "announce", lambda _widget, text: said.append(text))
    return said


@pytest.fixture
def canvas(session, qtbot, told):
    pane = PlotPane(session, "Drying curve")
    qtbot.addWidget(pane)
    pane.resize(640, 420)
    pane.show_plot(draw, object(), said="3 points.")
    pane.show()
    qtbot.waitUntil(lambda: len(pane.canvas.points) == 3)
    yield pane.canvas
    pane.close()


def test_the_arrows_read_off_point_by_point_and_say_it(canvas, told):
    QTest.keyClick(canvas, Qt.Key.Key_Right)
    QTest.keyClick(canvas, Qt.Key.Key_Right)
    assert told == ["Time (h): 0; Moisture (%): 85", "Time (h): 2; Moisture (%): 60"]
    QTest.keyClick(canvas, Qt.Key.Key_Left)
    assert told[-1] == told[0]


def test_the_pointer_reads_off_the_point_it_is_near_and_none_where_there_is_none(canvas, told, qtbot):
    point = canvas.points[2]
    QTest.mouseMove(canvas, point.at.toPoint())
    qtbot.waitUntil(lambda: canvas.reading == 2)
    assert told[-1] == "Time (h): 4.5; Moisture (%): 31.5"
    canvas.read(nearest(canvas.points, QPointF(2, 2)))
    assert canvas.reading is None


def test_plus_goes_nearer_and_nought_back_and_what_is_out_of_view_is_not_read(canvas, qtbot):
    for _ in range(4):
        QTest.keyClick(canvas, Qt.Key.Key_Plus)
    qtbot.waitUntil(lambda: len(canvas.points) == 1)
    QTest.keyClick(canvas, Qt.Key.Key_0)
    qtbot.waitUntil(lambda: len(canvas.points) == 3)


def test_tab_reaches_a_chart_and_it_says_what_it_shows(canvas):
    assert canvas.focusPolicy() & Qt.FocusPolicy.TabFocus
    assert canvas.accessibleName() == "Drying curve"
    assert canvas.accessibleDescription().startswith("3 points.")


def figure(low, high):
    axes = SimpleNamespace(limits=(low, high))
    axes.get_xlim = lambda: axes.limits
    axes.set_xlim = lambda low, high: setattr(axes, "limits", (low, high))
    return SimpleNamespace(axes=[axes])


def test_nearer_never_shows_what_lies_beyond_the_whole():
    span, shown = Span(), figure(0, 10)
    span.apply(shown)
    span.nearer(2, share=0.0)
    span.apply(figure(0, 10))
    assert span.part == (0, 5)
    span.move(-1)
    assert span.part == (0, 5)
    span.move(9)
    assert span.part == (5, 10)
    span.nearer(0.1)
    assert span.part is None


@pytest.mark.parametrize(("at", "found"), [((10, 12), 0), ((99, 100), 1), ((55, 55), None)])
def test_the_nearest_point_is_found_where_one_is_near(at, found):
    points = [ChartPoint(QPointF(10, 10), "one"), ChartPoint(QPointF(100, 100), "two")]
    assert nearest(points, QPointF(*at)) == found


def test_nothing_drawn_is_nothing_near():
    assert nearest([], QPointF(1, 1)) is None
