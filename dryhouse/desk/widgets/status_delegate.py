"""A status in a list: its shape in its color, and its word."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem, QWidget

from dryhouse.desk.icons import pixmap
from dryhouse.desk.measures import scaled
from dryhouse.desk.session import Session

_Index = QModelIndex | QPersistentModelIndex
_SIDE = 18


class StatusDelegate(QStyledItemDelegate):
    """Draws a cell that is a status, or begins with `prefix` and a colon; any other as it is."""

    def __init__(self, session: Session, parent: QWidget, prefix: str = "") -> None:
        super().__init__(parent)
        self.session, self.prefix = session, prefix

    def initStyleOption(self, option: QStyleOptionViewItem, index: _Index) -> None:
        super().initStyleOption(option, index)
        if self._word(index):
            option.text = ""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        super().paint(painter, option, index)
        word = self._word(index)
        if not word:
            return
        said = str(index.data())
        tint = self.session.theme.tokens.tint(word.casefold())
        box, side = option.rect, scaled(_SIDE)
        painter.save()
        painter.drawPixmap(
            QRect(box.left() + 8, box.center().y() - side // 2 + 1, side, side), pixmap(tint.shape, tint.ink, _SIDE)
        )
        painter.setPen(tint.ink)
        room = box.adjusted(side + 14, 0, -4, 0)
        said = option.fontMetrics.elidedText(said, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), said)
        painter.restore()

    def _word(self, index: _Index) -> str:
        """The status that is drawn; nothing where the cell says none."""
        said = str(index.data() or "")
        if not self.prefix:
            return said
        return self.prefix if said.startswith(f"{self.prefix}:") else ""
