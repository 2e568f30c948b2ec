"""Two things beside each other, or one above the other where the width does not hold both."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QWidget

from dryhouse.desk.measures import scaled
from dryhouse.desk.widgets.basics import Scrolling, least_height

_ENOUGH = 200
"""Pixels, at our usual text, that each of two things one above the other is given at least: of a list its first
lines, so that what is said of the chosen one begins in view."""


class SideBySide(QSplitter):
    """Two things beside each other; one above the other where both do not fit the width."""

    def __init__(
        self,
        left: QWidget,
        right: QWidget,
        sizes: tuple[int, int],
        least: tuple[int, int],
        gap: int,
        enough: int,
    ) -> None:
        super().__init__()
        self._shares, self._told, self._enough = sizes, least, enough
        self._first_gone = self._put_away = False
        self.setChildrenCollapsible(False)
        self.setHandleWidth(gap)
        self._both = (left, right)
        for one in self._both:
            self.addWidget(one)
        self.setSizes(list(sizes))

    def minimumSizeHint(self) -> QSize:
        high, stacked = self._least_high(), self.orientation() == Qt.Orientation.Vertical
        wide = self._least_wide() if not stacked else tuple(one.minimumSizeHint().width() for one in self._both)
        if self._both[0].isHidden() and not self._first_gone:
            return QSize(wide[1], high[1])
        if stacked:
            return QSize(max(wide), high[1] if self._first_gone else sum(high) + self.handleWidth())
        return QSize(max(wide), max(high))

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._arrange()
        super().resizeEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self._arrange()
        return super().event(event)

    def give_way(self, gone: bool) -> None:
        """Where both do not fit beside each other, the first is put away while the second is worked in."""
        self._first_gone = gone
        self._arrange()
        self.updateGeometry()

    def _arrange(self) -> None:
        """Beside each other where both fit, each at least as large as it needs."""
        wide = self._least_wide()
        beside = self.width() >= sum(wide) + self.handleWidth()
        wanted = Qt.Orientation.Horizontal if beside else Qt.Orientation.Vertical
        turned = wanted != self.orientation()
        if (away := self._first_gone and not beside) != self._put_away:
            self._put_away = away
            self._both[0].setVisible(not away)
        if turned:
            self.setOrientation(wanted)
        if turned or not beside:
            for area in self.findChildren(Scrolling):
                area.be_whole(not beside and not away)
        for one, across, down in zip(self._both, wide, self._least_high(), strict=True):
            one.setMinimumSize(across if beside else 0, 0 if beside else down)
        if turned:
            self.setSizes(list(self._shares) if beside else [1000, 1000])
            self.updateGeometry()

    def _least_wide(self) -> tuple[int, int]:
        left, right = (
            max(one.minimumSizeHint().width(), scaled(told))
            for one, told in zip(self._both, self._told, strict=True)
        )
        return left, right

    def _least_high(self) -> tuple[int, int]:
        """What each needs at its width; one above the other it also has to be enough to work with."""
        stacked = self.orientation() == Qt.Orientation.Vertical
        enough = scaled(self._enough) if stacked else 0
        wide = [self.width() if stacked else one.width() for one in self._both]
        above, below = (max(least_height(one, w), enough) for one, w in zip(self._both, wide, strict=True))
        return above, below


def side_by_side(
    left: QWidget,
    right: QWidget,
    *,
    sizes: tuple[int, int],
    least: tuple[int, int],
    gap: int = 20,
    enough: int = _ENOUGH,
) -> SideBySide:
    """Two things beside each other, with a handle between them that neither can be pushed away with. `least` are
    the widths, at our usual text, below which the second goes under the first; there each is at least `enough`
    high, and what scrolls in them is as high as what it holds, so that one page scrolls and not three."""
    return SideBySide(left, right, sizes, least, gap, enough)
