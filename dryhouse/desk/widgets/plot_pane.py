"""A chart in the window. matplotlib is read for the first chart, part by part, and only then.

The pane draws to an image of its own size, once, when it is seen; again when its result, its size or the
look changes. Saved and printed pictures are drawn anew on white.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QPoint, QSize, Qt, QTimer
from PySide6.QtGui import QGuiApplication, QImage, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFileDialog, QMenu, QSizePolicy, QWidget

from dryhouse.desk.drawing_library import drawing_library, loaded
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, calling, column, row
from dryhouse.plots.tokens import LIGHT, Tokens

if TYPE_CHECKING:
    from matplotlib.figure import Figure

Draw = Callable[["Figure", Any, Tokens], None]
Table = Callable[[Any], Iterable[Sequence[object]]]

_DOTS_PER_INCH = 100.0
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
        self.setMinimumSize(280, 200)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        session.theme.changed.connect(self.stale)

    def sizeHint(self) -> QSize:
        return QSize(640, 400)

    def stale(self) -> None:
        """Draw anew when next seen."""
        self._image = None
        self.update()

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
        painter.end()

    def _await_library(self) -> None:
        """The place is painted before its first picture: that is drawn once the library is there."""
        library = drawing_library(self.session)
        library.ready.connect(self.update, Qt.ConnectionType.UniqueConnection)
        library.begin()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._settle.start()

    def _render(self) -> QImage:
        ratio = self.devicePixelRatioF()
        inches = (self.width() / _DOTS_PER_INCH, self.height() / _DOTS_PER_INCH)
        assert self.draw is not None, "an empty canvas is not rendered"
        return render(self.draw, self.result, self.session.theme.tokens, inches, _DOTS_PER_INCH * ratio)


class PlotPane(QWidget):
    """A chart with its one button: save, copy the picture, copy the data behind it."""

    canvas_type: type[PlotCanvas] = PlotCanvas

    def __init__(self, session: Session, name: str) -> None:
        super().__init__()
        self.session, self.name = session, name
        self._table: Table | None = None
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
        self.canvas.setAccessibleDescription(said)
        self.canvas.stale()

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
        figure = _figure(self.canvas.draw, self.canvas.result, LIGHT, _PAPER_INCHES, 200.0)
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
    canvas: Any = _figure(draw, result, tokens, inches, dots).canvas  # matplotlib gives its canvases no types
    canvas.draw()
    pixels = canvas.buffer_rgba()
    height, width = pixels.shape[:2]
    return QImage(bytes(pixels), width, height, 4 * width, QImage.Format.Format_RGBA8888).copy()


def _figure(draw: Draw, result: Any, tokens: Tokens, inches: tuple[float, float], dots: float) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=inches, dpi=dots, facecolor=tokens.surface, layout="constrained")
    FigureCanvasAgg(figure)
    draw(figure, result, tokens)
    return figure
