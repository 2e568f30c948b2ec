"""The chart pane: drawn when seen, drawn anew when the look changes, saved and copied on white."""

import pytest
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk.widgets.plot_pane import PlotPane
from dryhouse.plots.axes import dress
from dryhouse.plots.tokens import DARK, LIGHT

RESULT = [(0.0, 1.0), (1.0, 0.5)]


@pytest.fixture
def drawn():
    return []


@pytest.fixture
def pane(session, qtbot, drawn):
    def draw(figure, result, tokens):
        drawn.append(tokens)
        axes = figure.add_subplot()
        dress(axes, tokens, "Time (h)", "Mass (g)")
        axes.plot(*zip(*result, strict=True), color=tokens.series[0].colour)

    made = PlotPane(session, "Drying curve")
    qtbot.addWidget(made)
    made.resize(500, 400)
    made.show_plot(draw, RESULT, table=lambda r: [("hours", "grams"), *r], said="Mass falls from 1 to 0.5 g.")
    return made


def test_a_hidden_chart_is_not_drawn(pane, drawn):
    assert drawn == []
    pane.show()
    pane.grab()
    assert drawn[0] is LIGHT


def test_the_look_changes_with_the_theme(pane, drawn, session):
    pane.show()
    pane.grab()
    session.theme.choose("dark")
    image = pane.grab().toImage()
    assert drawn[-1] is DARK
    assert image.pixelColor(3, 3).name().upper() == DARK.surface
    session.theme.choose("light")


@pytest.mark.parametrize(("ending", "begins"), [("png", b"\x89PNG"), ("svg", b"<?xml"), ("pdf", b"%PDF")])
def test_it_is_saved_by_the_ending_of_the_name(pane, tmp_path, ending, begins, monkeypatch):
    path = tmp_path / f"chart.{ending}"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *a: (str(path), ""))
    pane.ask_save(ending)
    assert path.read_bytes().startswith(begins)


def test_a_folder_that_cannot_be_written_is_said(pane, tmp_path, monkeypatch, session):
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *a: (str(tmp_path / "no" / "chart.png"), ""))
    pane.ask_save("png")
    assert session.messages.latest.kind == "world"


def test_picture_and_data_can_be_copied(pane, qapp):
    pane.copy_picture()
    assert qapp.clipboard().image().width() == 1600
    pane.copy_data()
    assert qapp.clipboard().text() == "hours\tgrams\n0.0\t1.0\n1.0\t0.5"


def test_an_empty_pane_draws_nothing(pane, drawn):
    pane.clear()
    pane.show()
    pane.grab()
    assert drawn == []
    assert not pane.more.isEnabled()
