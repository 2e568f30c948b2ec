"""Cautions in the window: every stop in full, what matters now, and one line that opens the rest."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QWidget

from dryhouse.desk.cautions import SAID, more_words, said
from dryhouse.desk.icons import pixmap
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.announce import announce
from dryhouse.desk.widgets.basics import column, fill, row, tab_before, text_label
from dryhouse.desk.widgets.fold import Fold
from dryhouse.desk.widgets.pressable import Pressable
from dryhouse.science.safety.unfolded import OF_A_PLANT, unfolded
from dryhouse.science.values import Caution, Moment, gravest_first

_SHAPE = 20


class CautionRow(Pressable):
    """One caution in full. F8, Enter or a click opens its reason and source beside the place."""

    opens = "&Why, and where this comes from"

    def __init__(self, session: Session, caution: Caution, *, sourced: bool = True) -> None:
        super().__init__(session)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setObjectName("caution")
        self.setToolTip("F8 or click: why, and where this comes from")
        self._shape = QLabel()
        self._shape.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._text, self._source = text_label(""), text_label("", "small")
        beside = column(space=2)
        fill(beside, self._text, self._source)
        across = row(self._shape, space=8)
        across.addLayout(beside, 1)
        self._inside = column(self, margin=8)
        self._inside.addLayout(across)
        self._dressed: tuple[str, str] | None = None
        self.set_caution(caution, sourced=sourced)

    def set_caution(self, caution: Caution, *, sourced: bool = True, brief: bool = False) -> None:
        """Say another caution in this row, with its source below it or one action away; `brief` in a few words."""
        self.caution = caution
        self._text.setText(f"{SAID[caution.severity]}: {caution.brief}" if brief else said(caution))
        self._source.setText(caution.source)
        self._source.setVisible(sourced)
        above = 4 if brief else 8
        self._inside.setContentsMargins(8, above, 8, above)
        self.setAccessibleName(f"{said(caution)} Source: {caution.source}")
        tokens = self.session.theme.tokens
        if self._dressed != (tokens.name, caution.severity):
            self._dressed = (tokens.name, caution.severity)
            tint = tokens.tint(caution.severity)
            self._shape.setPixmap(pixmap(tint.shape, tint.ink, _SHAPE))
            self.setStyleSheet(
                f"#caution {{ background: {tint.ground}; border: 1px solid {tint.ink}; border-radius: 6px; }}"
                f"#caution QLabel {{ color: {tint.ink}; }}"
            )

    def press(self) -> None:
        """Open the side sheet with the reason and the source."""
        self.session.show_caution(self.caution)


class CautionsFold(Fold):
    """The line that stands for the folded cautions. F8, Enter or a click shows them, and folds them again."""

    def count(self, number: int, shown: int, *, is_open: bool) -> None:
        """Stand for so many cautions beside those that are shown."""
        label = "Show fewer cautions" if is_open else more_words(number, shown)
        self.say(label, is_open=is_open, hint="" if is_open else "F8 or click: read them, with their sources")


class CautionsView(QWidget):
    """Each caution once. Hidden only where there is none at all.

    Every stop stands in full. At most `most` others stand below, those of this moment first: one alone of this
    moment in full; several, or one of another moment, in a few words each. The rest is counted on one line that
    opens it, with the sources. Opened it stays so for whatever is shown next, until it is folded again.
    """

    seen = Signal(bool)
    """Whether there is anything to see."""

    def __init__(
        self, session: Session, cautions: Iterable[Caution] = (), *, most: int = OF_A_PLANT, moment: Moment = "now"
    ) -> None:
        super().__init__()
        self.session = session
        self.most, self.moment = most, moment
        self.is_open = False
        self.cautions: tuple[Caution, ...] = ()
        self.rows: list[CautionRow] = []
        self.fold = CautionsFold(session, self.turn)
        self.fold.count(0, 0, is_open=False)
        self._column = column(self, space=4)
        self._column.addWidget(self.fold)
        session.theme.changed.connect(self._show)
        self.set_cautions(cautions)
        if not self.cautions:
            self.hide()

    @property
    def shown(self) -> tuple[Caution, ...]:
        """What stands in full while the rest is folded."""
        return unfolded(self.cautions, self.most, self.moment)[0]

    @property
    def rest(self) -> tuple[Caution, ...]:
        """What the line stands for."""
        return unfolded(self.cautions, self.most, self.moment)[1]

    def set_cautions(self, cautions: Iterable[Caution], most: int | None = None) -> None:
        """Say these cautions; the same again costs nothing, and rows are used again."""
        wanted, most = gravest_first(cautions), self.most if most is None else most
        if (wanted, most) == (self.cautions, self.most):
            return
        new = [c for c in wanted if c.severity == "stop" and c not in self.cautions]
        self.cautions, self.most = wanted, most
        self._show()
        announce(self, " ".join(said(c) for c in new))

    def tab_stops(self) -> tuple[QWidget, ...]:
        """What Tab comes to, in order, for a form that puts its entries in order anew."""
        return (*self.rows, self.fold)

    def _show(self) -> None:
        shown, rest = unfolded(self.cautions, self.most, self.moment)
        inside = (*shown, *rest) if self.is_open else shown
        while len(self.rows) < len(inside):
            self.rows.append(CautionRow(self.session, inside[len(self.rows)]))
            self._column.insertWidget(self._column.count() - 1, self.rows[-1])
            tab_before(self.fold, self.rows[-1])
        for n, line in enumerate(self.rows):
            line.setVisible(n < len(inside))
            if n < len(inside):
                in_full = self.is_open or inside[n].severity == "stop"
                in_full = in_full or (self.most <= OF_A_PLANT and inside[n].moment == self.moment)
                line.set_caution(inside[n], sourced=self.is_open, brief=not in_full)
        self.fold.count(len(rest), len(shown), is_open=self.is_open)
        self.fold.setVisible(bool(rest))
        if (
            self.parentWidget() is not None or not self.cautions
        ):  # shown before it has a place, it would be a window
            self.setVisible(bool(self.cautions))
        self.seen.emit(bool(self.cautions))
        self.setAccessibleName(f"Cautions: {len(self.cautions)}")

    def turn(self) -> None:
        """Show the rest, or fold it; the keyboard goes from the line to the first caution that came."""
        first, from_line = len(self.shown), self.fold.hasFocus()
        self.is_open = not self.is_open
        self._show()
        if self.is_open and from_line and first < len(self.rows):
            self.rows[first].setFocus()


def open_reason_in(page: QWidget) -> bool:
    """Open the reason of the caution in focus, else of the first one shown on a page. False where none is.

    What is folded in view is shown as well.
    """
    rows = [r for r in page.findChildren(CautionRow) if r.isVisible()]
    rows.sort(key=lambda r: (not r.hasFocus(), r.mapTo(page, r.rect().topLeft()).y()))
    folded = [v for v in page.findChildren(CautionsView) if v.fold.isVisible() and not v.is_open]
    for view in folded:
        view.turn()
    if rows:
        rows[0].press()
    return bool(rows or folded)
