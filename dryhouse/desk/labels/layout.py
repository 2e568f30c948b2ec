"""A label's words fitted into its rectangle: wrapped, then smaller, then on a second label; never cut.

Title, lines, stops and what must always be said of food to be heated through are always there, on a second label
where they need it. The other cautions follow while there is room; where some stay off, the label says how many.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from PySide6.QtCore import QPointF
from PySide6.QtGui import QFont, QPaintDevice, QPainter, QTextDocument, QTextOption

from dryhouse.kitchen.shelf.labels import Label

LARGEST_PT, SMALLEST_PT = 14.0, 6.0
"""What is smaller than 6 points is not read off a jar: our own choice of a usual least."""
_COMFORTABLE_PT = 8.0
"""Cautions that are no stops do not make the words smaller than this."""
_TITLE_SCALE = 1.35
_PADDING_MM = 2.0
_PARAGRAPHS = {
    "title": "<p style='margin:0;color:#000;font-size:{title}pt;font-weight:700'>{}</p>",
    "line": "<p style='margin:0;color:#000'>{}</p>",
    "stop": "<p style='margin:0;color:#000;font-weight:700'>"
    "<span style='background-color:#000;color:#fff'>\u00a0STOP\u00a0</span> {}</p>",
    "caution": "<p style='margin:0;color:#000;font-weight:700'>• {}</p>",
    "further": "<p style='margin:0;color:#000'>• {}</p>",
}


@dataclass(frozen=True, slots=True)
class Piece:
    """One paragraph of a label."""

    text: str
    kind: str
    """`title`, `line`, `stop`, `caution` (always there) or `further` (while there is room)."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """What stands on one label, and how large."""

    pieces: tuple[Piece, ...]
    points: float


def pieces_of(label: Label, others: int | None = None) -> tuple[Piece, ...]:
    """The paragraphs of a label, with so many of its other cautions (all, where not said)."""
    shown = label.others if others is None else label.others[:others]
    left = len(label.others) - len(shown)
    more = (more_words(left),) if left else ()
    return (
        Piece(label.title, "title"),
        *(Piece(text, "stop") for text in label.stops),
        *(Piece(text, "line") for text in label.lines),
        *(Piece(text, "caution") for text in label.musts),
        *(Piece(text, "further") for text in (*shown, *more)),
    )


def more_words(count: int) -> str:
    """How many cautions stay off a label, and where they are."""
    return f"{count} more {'caution' if count == 1 else 'cautions'} in Dryhouse"


def fit(label: Label, size_mm: tuple[float, float], device: QPaintDevice) -> tuple[Fitted, ...]:
    """The label laid out for labels of this size: one, or as many as it takes at the smallest type."""
    width, height = _room(size_mm, device)
    bare = pieces_of(label, 0) if label.others else pieces_of(label)
    points = _largest(bare, width, height, device)
    if points is None:
        return _spread(label, width, height, device)
    for count in range(len(label.others), 0, -1):
        pieces = pieces_of(label, count)
        larger = _largest(pieces, width, height, device)
        if larger is not None and larger >= min(points, _COMFORTABLE_PT):
            return (Fitted(pieces, larger),)
    return (Fitted(bare, points),)


def paint(
    painter: QPainter, fitted: Fitted, corner: QPointF, size_mm: tuple[float, float], device: QPaintDevice
) -> None:
    """Draw one label with its upper left corner there, black on white, in the dots of the device it is laid out
    for (the painter may draw them smaller, as a preview does)."""
    pad = _PADDING_MM * device.logicalDpiX() / 25.4
    width, _ = _room(size_mm, device)
    painter.save()
    painter.translate(corner + QPointF(pad, pad))
    document_of(fitted.pieces, fitted.points, width, device).drawContents(painter)
    painter.restore()


def _room(size_mm: tuple[float, float], device: QPaintDevice) -> tuple[float, float]:
    across, down = device.logicalDpiX() / 25.4, device.logicalDpiY() / 25.4
    return (size_mm[0] - 2 * _PADDING_MM) * across, (size_mm[1] - 2 * _PADDING_MM) * down


def _largest(pieces: Sequence[Piece], width: float, height: float, device: QPaintDevice) -> float | None:
    """The largest type, in half points, at which the pieces fit; None where not even the smallest does."""
    steps = round((LARGEST_PT - SMALLEST_PT) * 2)
    low, high = -1, steps
    while low < high:
        middle = (low + high + 1) // 2
        if _height(pieces, SMALLEST_PT + middle / 2, width, device) <= height:
            low = middle
        else:
            high = middle - 1
    return None if low < 0 else SMALLEST_PT + low / 2


def _spread(label: Label, width: float, height: float, device: QPaintDevice) -> tuple[Fitted, ...]:
    """At the smallest type, on as many labels as it takes; each repeats the title. Stops come first,
    and further cautions fill what room the last one has."""
    title, *rest = [piece for piece in pieces_of(label, 0) if piece.kind != "further"]
    labels: list[list[Piece]] = [[title]]
    for piece in rest:
        if len(labels[-1]) > 1 and _height([*labels[-1], piece], SMALLEST_PT, width, device) > height:
            labels.append([Piece(f"{label.title}, continued", "title")])
        labels[-1].append(piece)
    for count in range(len(label.others), -1, -1):
        further = [piece for piece in pieces_of(label, count) if piece.kind == "further"]
        if _height([*labels[-1], *further], SMALLEST_PT, width, device) <= height:
            labels[-1] += further
            break
    return tuple(Fitted(tuple(pieces), SMALLEST_PT) for pieces in labels)


def _height(pieces: Sequence[Piece], points: float, width: float, device: QPaintDevice) -> float:
    return document_of(pieces, points, width, device).size().height()


def document_of(pieces: Sequence[Piece], points: float, width: float, device: QPaintDevice) -> QTextDocument:
    """The words of a label, wrapped to a width in dots of the device they are for."""
    made = QTextDocument()
    made.setUndoRedoEnabled(False)
    made.documentLayout().setPaintDevice(device)
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    made.setDefaultTextOption(option)
    made.setDocumentMargin(0)
    font = QFont()
    font.setPointSizeF(points)
    made.setDefaultFont(font)
    made.setHtml("".join(_PARAGRAPHS[p.kind].format(escape(p.text), title=points * _TITLE_SCALE) for p in pieces))
    made.setTextWidth(width)
    return made
