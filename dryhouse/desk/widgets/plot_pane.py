"""A chart in the window. matplotlib is read for the first chart, part by part, and only then.

The pane draws to an image of its own size, once, when it is seen; again when its result, its size or the
look changes. Saved and printed pictures are drawn anew on white.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QPoint, QSize, Qt, QTimer
from PySide6.QtGui import (
    QColor,
    QGuiApplication,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QFileDialog, QMenu, QSizePolicy, QWidget

from dryhouse.desk.drawing_library import drawing_library, loaded
from dryhouse.desk.measures import hold
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.announce import announce
from dryhouse.desk.widgets.basics import button, calling, column, row
from dryhouse.desk.widgets.chart_reader import STEP, ChartPoint, Span, nearest, points_of
from dryhouse.plots.tokens import LIGHT, Tokens

if TYPE_CHECKING:
    from matplotlib.figure import Figure

Draw = Callable[["Figure", Any, Tokens], None]
Table = Callable[[Any], Iterable[Sequence[object]]]

DOTS_PER_INCH = 100.0
_PAPER_INCHES = (8.0, 5.0)
_FORMATS = {"PNG picture": "png", "SVG drawing": "svg", "PDF page": "pdf"}
_SETTLE_MS = 60
_NOT_YET = "The charts are getting ready…"


class PlotCanvas(QWidget):
    """The picture alone."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.draw: Draw | None = None
        self.result: Any = None
        self._image: QImage | None = None
        self._settle = QTimer(self, singleShot=True, interval=_SETTLE_MS)
        self._settle.timeout.connect(self.stale)
        self.span = Span()
        self._read_from: Figure | None = None
        self._points: list[ChartPoint] | None = []
        self.reading: int | None = None
        """The point that is read off now."""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(280, 200)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        session.theme.changed.connect(self.stale)

    def sizeHint(self) -> QSize:
        return QSize(640, 400)

    def stale(self) -> None:
        """Draw anew when next seen."""
        self._image = None
        self.reading = None
        self.update()

    @property
    def awaited(self) -> bool:
        """Whether it is seen and still to be drawn."""
        return self.draw is not None and self._image is None and not self.visibleRegion().isEmpty()

    # --- reading ---------------------------------------------------------------------------------------

    @property
    def points(self) -> list[ChartPoint]:
        """What can be read off the figure that was drawn last; worked out once somebody reads."""
        if self._points is None and self._read_from is not None:
            self._points = points_of(self._read_from, self.session.style, self.devicePixelRatioF())
        return self._points or []

    def read(self, point: int | None) -> None:
        """Read off a point: its words stand in the chart, and a screen reader says them."""
        if point != self.reading:
            self.reading = point
            self.update()
            if point is not None:
                announce(self, self.points[point].said)

    def step(self, by: int) -> None:
        """The next point, or the one before."""
        if self.points:
            first = 0 if by > 0 else len(self.points) - 1
            now = self.reading
            self.read(first if now is None else min(max(now + by, 0), len(self.points) - 1))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if event.buttons() & Qt.MouseButton.LeftButton and self._held is not None:
            self.span.move((self._held - event.position().x()) / max(self.width(), 1))
            self._held = event.position().x()
            self.stale()
        else:
            self.read(nearest(self.points, event.position()))

    _held: float | None = None
    """Where the chart is held with the mouse."""

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._held = event.position().x()

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        self._held = None

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:
        self.span.reset()
        self.stale()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Nearer or farther, once the chart has the keyboard: else the page scrolls."""
        if not self.hasFocus():
            event.ignore()
            return
        factor = STEP if event.angleDelta().y() > 0 else 1 / STEP
        self.span.nearer(factor, event.position().x() / max(self.width(), 1))
        self.stale()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        shifted = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        key, keys = event.key(), Qt.Key
        if key in (keys.Key_Right, keys.Key_Left) and not shifted:
            self.step(1 if key == keys.Key_Right else -1)
            return
        if key in (keys.Key_Right, keys.Key_Left):
            self.span.move(0.2 if key == keys.Key_Right else -0.2)
        elif key in (keys.Key_Plus, keys.Key_Equal):
            self.span.nearer(STEP)
        elif key == keys.Key_Minus:
            self.span.nearer(1 / STEP)
        elif key == keys.Key_0:
            self.span.reset()
        else:
            super().keyPressEvent(event)
            return
        self.stale()

    # --- painting --------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.draw is None:
            return
        painter = QPainter(self)
        if self._image is None and not loaded():
            self._await_library()
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, _NOT_YET)
        else:
            self._image = self._image or self._render()
            painter.drawImage(self.rect(), self._image)
            self._paint_reading(painter)
        painter.end()

    def _paint_reading(self, painter: QPainter) -> None:
        tokens = self.session.theme.tokens
        if self.hasFocus():
            painter.setPen(QPen(QColor(tokens.accent), 2))
            painter.drawRoundedRect(self.rect().adjusted(1, 1, -2, -2), tokens.radius, tokens.radius)
        if self.reading is None or self.reading >= len(self.points):
            return
        point = self.points[self.reading]
        painter.setPen(QPen(QColor(tokens.ink), 2))
        painter.drawEllipse(point.at, 8, 8)
        box = painter.fontMetrics().boundingRect(point.said).adjusted(-8, -4, 8, 4)
        box.moveTo(max((self.width() - box.width()) // 2, 4), 4)
        painter.fillRect(box, QColor(tokens.surface))
        painter.drawRect(box)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, point.said)

    def _note_points(self, figure: Figure) -> None:
        """This figure was just drawn: it can be read off."""
        self._read_from, self._points = figure, None

    def _await_library(self) -> None:
        """The place is painted before its first picture: that is drawn once the library is there."""
        library = drawing_library(self.session)
        library.ready.connect(self.update, Qt.ConnectionType.UniqueConnection)
        library.begin(self.session.theme.tokens, DOTS_PER_INCH * self.devicePixelRatioF())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._settle.start()

    def _render(self) -> QImage:
        ratio = self.devicePixelRatioF()
        inches = (self.width() / DOTS_PER_INCH, self.height() / DOTS_PER_INCH)
        assert self.draw is not None, "an empty canvas is not rendered"
        tokens = self.session.theme.tokens
        figure = _figure(self.draw, self.result, tokens, inches, DOTS_PER_INCH * ratio)
        self.span.apply(figure)
        image = as_image(figure)
        self._note_points(figure)
        return image


class PlotPane(QWidget):
    """A chart with its one button: save, copy the picture, copy the data behind it."""

    canvas_type: type[PlotCanvas] = PlotCanvas

    def __init__(self, session: Session, name: str) -> None:
        super().__init__()
        self.session, self.name = session, name
        self._table: Table | None = None
        self._paper = _PAPER_INCHES
        self.canvas = self.canvas_type(session)
        self.canvas.setAccessibleName(name)
        self.more = button("Save or copy", lambda: None, "quiet", name=f"Save or copy: {name}")
        menu = QMenu(self.more)
        for title, ending in _FORMATS.items():
            menu.addAction(f"Save as {title}…", calling(self.ask_save, ending))
        menu.addAction("Copy the picture", self.copy_picture)
        self._copy_data = menu.addAction("Copy the data", self.copy_data)
        self.more.setMenu(menu)
        self.canvas.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.canvas.customContextMenuRequested.connect(self._pop_up)
        inside = column(self, space=0)
        inside.addWidget(self.canvas, 1)
        inside.addLayout(row(1, self.more))
        self.clear()

    def show_plot(self, draw: Draw, result: Any, *, table: Table | None = None, said: str = "") -> None:
        """Draw a result. `table` gives the rows behind it (headings first); `said` is the chart in words."""
        self.canvas.draw, self.canvas.result, self._table = draw, result, table
        self._copy_data.setEnabled(table is not None)
        self.more.setEnabled(True)
        self.canvas.setAccessibleDescription(f"{said} The arrow keys read off its points.".strip())
        self.canvas.stale()

    def tall(self, inches: tuple[float, float]) -> None:
        """How large the chart must be at least, so that all of it can be read: in the window it scrolls."""
        self._paper = (max(inches[0], _PAPER_INCHES[0]), max(inches[1], _PAPER_INCHES[1]))
        hold(self.canvas, least_wide=280, least_high=round(inches[1] * DOTS_PER_INCH))

    def _pop_up(self, where: QPoint) -> None:
        menu = self.more.menu()
        if menu is not None and self.more.isEnabled():
            menu.popup(self.canvas.mapToGlobal(where))

    def clear(self) -> None:
        """Show no chart."""
        self.canvas.draw = self.canvas.result = self._table = None
        self.more.setEnabled(False)
        self.canvas.stale()

    def save(self, path: Path) -> None:
        """Write the chart on white to a PNG, SVG or PDF file, by the ending of its name."""
        assert self.canvas.draw is not None, "there is no chart to save"
        figure = _figure(self.canvas.draw, self.canvas.result, LIGHT, self._paper, 200.0)
        figure.savefig(path, dpi=200)

    def ask_save(self, ending: str) -> None:
        """Ask where to, and write the chart there."""
        title = next(t for t, e in _FORMATS.items() if e == ending)
        path, _ = QFileDialog.getSaveFileName(
            self, "Save the chart", f"{self.name}.{ending}", f"{title} (*.{ending})"
        )
        if not path:
            return
        try:
            self.save(Path(path))
        except OSError as problem:
            self.session.say(
                f"The chart was not saved: {problem.strerror or problem}. Choose another folder.", "world"
            )
            return
        self.session.say(f"Saved the chart to {path}", "done")

    def picture(self) -> QImage:
        """The chart on white, sharp enough to paste into a letter or to print."""
        assert self.canvas.draw is not None, "there is no chart to copy"
        return render(self.canvas.draw, self.canvas.result, LIGHT, _PAPER_INCHES, 200.0)

    def copy_picture(self) -> None:
        """Put the chart on the clipboard."""
        QGuiApplication.clipboard().setImage(self.picture())
        self.session.say("The picture is on the clipboard.")

    def copy_data(self) -> None:
        """Put the numbers behind the chart on the clipboard, tab-separated."""
        if self._table is not None:
            rows = self._table(self.canvas.result)
            text = "\n".join("\t".join("" if cell is None else str(cell) for cell in line) for line in rows)
            QGuiApplication.clipboard().setText(text)
            self.session.say("The data is on the clipboard.")


def render(draw: Draw, result: Any, tokens: Tokens, inches: tuple[float, float], dots: float) -> QImage:
    """A result drawn to an image."""
    return as_image(_figure(draw, result, tokens, inches, dots))


def as_image(figure: Figure) -> QImage:
    """A figure, drawn."""
    figure.canvas.draw()
    return drawn_image(figure)


def drawn_image(figure: Figure) -> QImage:
    """What a figure has drawn on its canvas."""
    canvas: Any = figure.canvas  # matplotlib gives its canvases no types
    pixels = canvas.buffer_rgba()
    height, width = pixels.shape[:2]
    return QImage(pixels, width, height, 4 * width, QImage.Format.Format_RGBA8888).copy()


def _figure(draw: Draw, result: Any, tokens: Tokens, inches: tuple[float, float], dots: float) -> Figure:
    from matplotlib.figure import Figure

    from dryhouse.plots.words_canvas import WordsCanvas

    figure = Figure(figsize=inches, dpi=dots, facecolor=tokens.surface, layout="constrained")
    WordsCanvas(figure)
    draw(figure, result, tokens)
    return figure
