"""Small pictures of our own, drawn on a field of 24 by 24: the places of the rail and the shapes beside words."""

from __future__ import annotations

import math
from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap, QPolygonF

from dryhouse.desk.measures import scaled

Draw = Callable[[QPainter, QColor], None]


def pixmap(name: str, colour: str, size: int = 24, ratio: float = 2.0) -> QPixmap:
    """One picture in one colour, as large as our usual text asks for. An unknown name is a plain ring."""
    size = scaled(size)
    made = QPixmap(round(size * ratio), round(size * ratio))
    made.fill(Qt.GlobalColor.transparent)
    painter = QPainter(made)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(size * ratio / 24, size * ratio / 24)
    ink = QColor(colour)
    painter.setPen(QPen(ink, 2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin))
    _PICTURES.get(name, _ring)(painter, ink)
    painter.end()
    made.setDevicePixelRatio(ratio)
    return made


def icon(name: str, colour: str, chosen: str = "") -> QIcon:
    """The picture as an icon; `chosen` is its colour where the button is checked."""
    made = QIcon(pixmap(name, colour))
    if chosen:
        made.addPixmap(pixmap(name, chosen), QIcon.Mode.Normal, QIcon.State.On)
    return made


def _polygon(painter: QPainter, *points: tuple[float, float], filled: QColor | None = None) -> None:
    if filled is not None:
        painter.setBrush(filled)
    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in points]))
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _lines(painter: QPainter, *points: tuple[float, float]) -> None:
    painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in points]))


def _journal(p: QPainter, ink: QColor) -> None:
    p.drawRoundedRect(QRectF(5, 3, 14, 18), 2, 2)
    _lines(p, (9, 3), (9, 21))
    _lines(p, (12, 8), (16, 8))
    _lines(p, (12, 12), (16, 12))


def _drying(p: QPainter, ink: QColor) -> None:
    for y in (12, 16.5, 21):
        _lines(p, (3, y), (21, y))
    for x in (7, 12, 17):
        _lines(p, (x, 8), (x - 1.2, 6.2), (x + 1.2, 4.2), (x, 2.4))


def _yields(p: QPainter, ink: QColor) -> None:
    _polygon(p, (2, 5), (11, 5), (9.6, 20), (3.4, 20))
    _polygon(p, (15, 12), (22, 12), (21, 20), (16, 20))


def _shelf(p: QPainter, ink: QColor) -> None:
    _lines(p, (2, 21), (22, 21))
    p.drawRoundedRect(QRectF(4, 8, 7, 13), 1.5, 1.5)
    p.drawRoundedRect(QRectF(14, 11, 6, 10), 1.5, 1.5)
    _lines(p, (5, 5), (10, 5))
    _lines(p, (15, 8), (19, 8))


def _meals(p: QPainter, ink: QColor) -> None:
    p.drawChord(QRectF(3, 3, 18, 18), 180 * 16, 180 * 16)
    _lines(p, (8, 8), (8, 4))
    _lines(p, (12, 8), (12, 3))
    _lines(p, (16, 8), (16, 4))


def _handbook(p: QPainter, ink: QColor) -> None:
    _polygon(p, (12, 6), (3, 4), (3, 18), (12, 20))
    _polygon(p, (12, 6), (21, 4), (21, 18), (12, 20))


def _ring(p: QPainter, ink: QColor) -> None:
    p.drawEllipse(QRectF(4, 4, 16, 16))


def _disc(p: QPainter, ink: QColor) -> None:
    p.drawEllipse(QRectF(3, 3, 18, 18))
    _lines(p, (12, 11), (12, 16.5))
    p.drawPoint(QPointF(12, 7.3))


def _octagon(p: QPainter, ink: QColor) -> None:
    turn = math.pi / 4
    corners = [(12 + 10 * math.cos((i + 0.5) * turn), 12 + 10 * math.sin((i + 0.5) * turn)) for i in range(8)]
    _polygon(p, *corners)
    _lines(p, (8.5, 8.5), (15.5, 15.5))
    _lines(p, (15.5, 8.5), (8.5, 15.5))


def _triangle(p: QPainter, ink: QColor) -> None:
    _polygon(p, (12, 3), (22, 21), (2, 21))
    _lines(p, (12, 10), (12, 14.5))
    p.drawPoint(QPointF(12, 18))


def _tick(p: QPainter, ink: QColor) -> None:
    _ring(p, ink)
    _lines(p, (8, 12.5), (11, 15.5), (16, 9))


def _half(p: QPainter, ink: QColor) -> None:
    _ring(p, ink)
    p.setBrush(ink)
    p.drawChord(QRectF(4, 4, 16, 16), -90 * 16, 180 * 16)
    p.setBrush(Qt.BrushStyle.NoBrush)


def _eye(p: QPainter, ink: QColor) -> None:
    p.drawChord(QRectF(1, 6, 22, 22), 28 * 16, 124 * 16)
    p.drawArc(QRectF(1, -5, 22, 22), 208 * 16, 124 * 16)
    p.drawEllipse(QRectF(9.5, 8.5, 5, 5))


def _clock(p: QPainter, ink: QColor) -> None:
    _ring(p, ink)
    _lines(p, (12, 7.5), (12, 12.5), (15.5, 14.5))


def _cross(p: QPainter, ink: QColor) -> None:
    _ring(p, ink)
    _lines(p, (9, 9), (15, 15))
    _lines(p, (15, 9), (9, 15))


_PICTURES: dict[str, Draw] = {
    "journal": _journal,
    "drying": _drying,
    "yields": _yields,
    "shelf": _shelf,
    "meals": _meals,
    "handbook": _handbook,
    "ring": _ring,
    "disc": _disc,
    "octagon": _octagon,
    "triangle": _triangle,
    "tick": _tick,
    "half": _half,
    "eye": _eye,
    "clock": _clock,
    "cross": _cross,
}
