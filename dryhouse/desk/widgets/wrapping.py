"""Things side by side that go on in a further line where the width does not hold them all."""

from __future__ import annotations

from PySide6.QtCore import QMargins, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QSizePolicy, QSpacerItem, QWidget

from dryhouse.desk.measures import scaled
from dryhouse.desk.widgets.basics import text_label


class Wrapping(QLayout):
    """Each thing in its own width; what is left of a line goes to what can grow, or to a stretch (a number). With
    `middle` every line stands in the middle."""

    def __init__(self, *things: QWidget | int, space: int = 8, middle: bool = False) -> None:
        super().__init__()
        self._middle = middle
        self._items: list[QLayoutItem] = []
        self._heights: dict[int, int] = {}
        """The height at each width that was asked for since anything changed: Qt asks for it again and again."""
        self._space = space
        self.setContentsMargins(QMargins())
        for thing in things:
            if isinstance(thing, int):
                policy = QSizePolicy.Policy
                self.addItem(QSpacerItem(0, 0, policy.Expanding, policy.Minimum))
            else:
                self.addWidget(thing)

    # --- what Qt asks of a layout -----------------------------------------------------------------------

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)
        self._heights.clear()

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        self._heights.clear()
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation.Horizontal

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        if (high := self._heights.get(width)) is None:
            high = self._heights[width] = self._lay_out(QRect(0, 0, width, 0), place=False)
        return high

    def invalidate(self) -> None:
        self._heights.clear()
        super().invalidate()

    def minimumSize(self) -> QSize:
        """As wide as its widest thing; as high as its lines are at the width it has now."""
        wide = max((item.minimumSize().width() for item in self._shown()), default=0)
        return QSize(wide, self._height_now())

    def sizeHint(self) -> QSize:
        sides = [item.sizeHint() for item in self._shown()]
        across = sum(s.width() for s in sides) + self._space * max(len(sides) - 1, 0)
        return QSize(across, max((s.height() for s in sides), default=0))

    def setGeometry(self, rect: QRect) -> None:
        former = self._height_now()
        super().setGeometry(rect)
        if self._lay_out(rect, place=True) != former:
            self.update()

    def _height_now(self) -> int:
        """The height of all lines at the width there is; of one line before there is any."""
        if (wide := self.geometry().width()) > 0:
            return self.heightForWidth(wide)
        return max((item.minimumSize().height() for item in self._shown()), default=0)

    # --- lines ------------------------------------------------------------------------------------------

    def _shown(self) -> list[QLayoutItem]:
        return [item for item in self._items if item.spacerItem() is None and not item.isEmpty()]

    def _lines(self, width: int) -> list[list[tuple[QLayoutItem, int]]]:
        """The things of each line with their widths."""
        lines: list[list[tuple[QLayoutItem, int]]] = [[]]
        used = 0
        for item in self._items:
            spacer = item.spacerItem() is not None
            if not spacer and item.isEmpty():
                continue
            wide = 0 if spacer else min(max(item.sizeHint().width(), item.minimumSize().width()), _most(item))
            if used and not spacer and used + wide > width:
                lines.append([])
                used = 0
            lines[-1].append((item, wide))
            used += 0 if spacer else wide + self._space
        return [self._filled(line, width) for line in lines]

    def _filled(self, line: list[tuple[QLayoutItem, int]], width: int) -> list[tuple[QLayoutItem, int]]:
        """What is left of a line goes to what can grow."""
        things = sum(item.spacerItem() is None for item, _wide in line)
        left = width - sum(wide for _item, wide in line) - self._space * max(things - 1, 0)
        growing = [
            item
            for item, wide in line
            if item.expandingDirections() & Qt.Orientation.Horizontal and wide < _most(item)
        ]
        more = left // len(growing) if growing and left > 0 else 0
        return [(item, min(wide, width) + (more if item in growing else 0)) for item, wide in line]

    def _lay_out(self, rect: QRect, *, place: bool) -> int:
        """The height all of it takes; with `place` everything is put there."""
        down = rect.y()
        for line in self._lines(rect.width()):
            high = max((_height(item, wide) for item, wide in line), default=0)
            across = rect.x()
            if self._middle:
                across += (rect.width() - sum(wide for _item, wide in line) - self._space * (len(line) - 1)) // 2
            for item, wide in line:
                if place and item.spacerItem() is None:
                    item.setGeometry(QRect(across, down, wide, high))
                across += wide + (0 if item.spacerItem() is not None else self._space)
            down += high + self._space
        return max(down - self._space - rect.y(), 0)


def headed(title: str, *things: QWidget | int) -> Wrapping:
    """The head of a place or a page: its title, and what stands beside it."""
    return Wrapping(text_label(title, "title", wrap=False), *things)


class Tiles(Wrapping):
    """Things of one width, as many in a line as the width holds; each at least `least` wide, at our usual text."""

    def __init__(self, *things: QWidget, least: int, space: int = 8) -> None:
        self._least = least
        super().__init__(*things, space=space)

    def minimumSize(self) -> QSize:
        return QSize(self._least_wide(), self._height_now())

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def _least_wide(self) -> int:
        return max(scaled(self._least), *(item.minimumSize().width() for item in self._shown()), 0)

    def _lines(self, width: int) -> list[list[tuple[QLayoutItem, int]]]:
        shown = self._shown()
        fit = max((width + self._space) // (self._least_wide() + self._space), 1)
        rows = -(-len(shown) // fit)
        across = max(-(-len(shown) // rows), 1) if rows else 1
        wide = (width - self._space * (across - 1)) // across
        return [[(item, wide) for item in shown[at : at + across]] for at in range(0, len(shown), across)]


def _most(item: QLayoutItem) -> int:
    """The greatest width a thing may have."""
    return item.maximumSize().width()


def _height(item: QLayoutItem, width: int) -> int:
    return item.heightForWidth(width) if item.hasHeightForWidth() else item.sizeHint().height()
