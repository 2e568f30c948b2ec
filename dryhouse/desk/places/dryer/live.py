"""A chart pane that moves its lines instead of building the chart anew, so that a weighing shows at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtGui import QImage

from dryhouse.desk.widgets.plot_pane import DOTS_PER_INCH, PlotCanvas, PlotPane, drawn_image
from dryhouse.plots.curve_picture import CurvePicture
from dryhouse.plots.tokens import Tokens

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def draw_runs(figure: Figure, picture: CurvePicture, tokens: Tokens) -> None:
    """The curves of a picture; matplotlib is imported here, when the first chart is drawn."""
    from dryhouse.plots.curve import draw_curve

    draw_curve(figure, picture, tokens)


def draw_rates(figure: Figure, picture: CurvePicture, tokens: Tokens) -> None:
    """The drying rates of a picture."""
    from dryhouse.plots.drying_rate import draw_rate

    draw_rate(figure, picture, tokens)


def draw_days(figure: Figure, picture: CurvePicture, tokens: Tokens) -> None:
    """Weight, moisture, rate and air of a picture, one below the other."""
    from dryhouse.plots.day import draw_day

    draw_day(figure, picture, tokens)


class LiveCanvas(PlotCanvas):
    """Keeps the figure of the curves while its size and look stay the same."""

    _chart: Any = None
    _made_for: tuple[Any, ...] = ()

    def _render(self) -> QImage:
        if self.draw is not draw_runs:
            return super()._render()
        from matplotlib.figure import Figure

        from dryhouse.plots.curve import CurveChart
        from dryhouse.plots.words_canvas import WordsCanvas

        tokens, ratio = self.session.theme.tokens, self.devicePixelRatioF()
        made_for = (tokens, ratio, self.width(), self.height())
        if self._chart is None or made_for != self._made_for:
            inches = (self.width() / DOTS_PER_INCH, self.height() / DOTS_PER_INCH)
            figure = Figure(figsize=inches, dpi=DOTS_PER_INCH * ratio, facecolor=tokens.surface)
            WordsCanvas(figure)
            self._chart, self._made_for = CurveChart(figure, tokens), made_for
        self._chart.show(self.result)
        self.span.apply(self._chart.figure)
        self._chart.paint()
        image = drawn_image(self._chart.figure)
        self._note_points(self._chart.figure)
        return image


class LivePlotPane(PlotPane):
    """The shared pane with the live canvas."""

    canvas_type = LiveCanvas
