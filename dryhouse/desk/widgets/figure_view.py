"""One computed figure: the number large, its interval and basis in a line, its workings one key away."""

from __future__ import annotations

import re

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent

from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import column, row, text_label
from dryhouse.desk.widgets.pressable import Pressable
from dryhouse.science.display import Style
from dryhouse.science.values import Basis, Figure
from dryhouse.words.bases import basis_source, basis_text, kind_and_source

BASIS_ROOM = 56
"""Letters of a source that a card says (0: what kind it is, and no more); the whole of it is in the tooltip and in
the workings."""


def basis_line(bases: tuple[Basis, ...], style: Style) -> str:
    """Every basis in a few words, separated by semicolons."""
    return "; ".join(basis_text(b, style) for b in bases)


def basis_short(bases: tuple[Basis, ...], style: Style, room: int = BASIS_ROOM) -> str:
    """The bases for a card: the first of each kind, with how many more there are of it; two kinds at most. What
    kind it is and how many records are always said whole; a long source is cut."""
    kinds = list(dict.fromkeys(b.kind for b in bases))
    share = room // min(max(len(kinds), 1), 2)
    said = []
    for kind in kinds[:2]:
        first, *more = [b for b in bases if b.kind == kind]
        source = cut(basis_source(first, style), share) if room else ""
        said.append(kind_and_source(first, source) + (f" +{len(more)}" if more and room else ""))
    return "; ".join(said) + (" and more" if len(kinds) > 2 else "")


def cut(text: str, room: int) -> str:
    """The text, cut between two words where it is longer than the room."""
    if len(text) <= room:
        return text
    return text[: max(text.rfind(" ", 0, room), room // 2)].rstrip(" ,;:(") + "…"


def also_by_measure(style: Style, figure: Figure) -> str:
    """`or 1½ cups`, where the household measure says something the figure does not."""
    if figure.measure is None:
        return ""
    said = style.amount(figure.measure.value, figure.measure.unit)
    return "" if said == style.figure(figure) else f"or {said}"


def unbroken(text: str) -> str:
    """The text with every number held together with its unit, pounds with their ounces, hours with minutes."""
    held = re.sub(r"(?<=[\d½⅓⅔¼¾⅛⅜⅝⅞]) (?=[^\W\d_]|%|°)(?!to )", "\u00a0", text)
    return re.sub(r"(\u00a0(?:lb|h|days)) (?=\d)", "\\1\u00a0", held)


def in_one_unit(between: str) -> str:
    """`4 to 5½ cups` for `4 cups to 5½ cups`: the unit once, where both ends have the same."""
    return re.sub(r"^(\S+)[ \u00a0](cups?|\w+|%) to (\S+)[ \u00a0]((?:\2|cups))$", r"\1 to \3 \4", between)


class FigureView(Pressable):
    """Shows a `Figure` under its title. Enter, Space or a click opens its workings beside the place.

    `set_figure(None, why)` shows that the figure is missing, and why. A `brief` one leaves where it comes from to
    the workings, the tooltip and the screen reader.
    """

    opened = Signal()
    opens = "See the &workings"

    def __init__(
        self,
        session: Session,
        title: str,
        figure: Figure | None = None,
        *,
        compact: bool = False,
        brief: bool = False,
        room: int = BASIS_ROOM,
    ) -> None:
        super().__init__(session)
        self.title = title
        self.figure: Figure | None = None
        compact = compact or brief
        self._why, self._room, self._brief = "", 0 if compact else room, brief
        set_role(self, "card")
        self._title = text_label(title, "muted")
        self._value = text_label("", "heading" if compact else "figure")
        self._beside = text_label("", "muted", wrap=False)
        self._interval = text_label("", "muted")
        self._basis = text_label("", "small")
        inside = column(self, margin=12, space=2)
        inside.addWidget(self._title)
        value = row(self._value, space=12)
        value.setStretch(0, 1)
        inside.addLayout(value)
        for label in (self._beside, self._interval, self._basis):
            inside.addWidget(label)
        inside.addStretch(1)
        session.style_changed.connect(self._show)
        self.set_figure(figure)

    def set_figure(self, figure: Figure | None, why: str = "", *, title: str = "") -> None:
        """Show another figure, or that there is none and why."""
        former, self.figure, self._why = self.figure, figure, why
        self.title = title or self.title
        self._show()
        if former is not None and former is not figure:
            self.session.figure_replaced.emit(former, self.title, figure)

    def _show(self) -> None:
        figure, style = self.figure, self.session.style
        self._title.setText(unbroken(self.title))
        if figure is None:
            texts = ("—", "", "", self._why)
            self.setCursor(Qt.CursorShape.ArrowCursor)
            self.setToolTip("")
        else:
            between = style.interval(figure)
            texts = (
                style.figure(figure),
                also_by_measure(style, figure),
                f"{'' if self._brief else 'likely '}{in_one_unit(between)}" if between else "",
                "" if self._brief else basis_short(figure.basis, style, self._room),
            )
            self.setCursor(Qt.CursorShape.PointingHandCursor if figure.workings else Qt.CursorShape.ArrowCursor)
            hint = "Enter or click: see the workings" if figure.workings else ""
            whole = basis_line(figure.basis, style)
            self.setToolTip("\n".join(t for t in ("" if whole == texts[-1] else whole, hint) if t))
        for label, text in zip((self._value, self._beside, self._interval, self._basis), texts, strict=True):
            label.setText(unbroken(text))
            label.setVisible(bool(text))
        likely = texts[2] if texts[2].startswith("likely ") or not texts[2] else f"likely {texts[2]}"
        whole = basis_line(figure.basis, style) if figure is not None else self._why
        said = ", ".join(t for t in (*texts[:2], likely, whole) if t)
        self.setAccessibleName(f"{self.title}: {said}")
        self.setAccessibleDescription(self.toolTip())

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        if self.figure is not None and not event.spontaneous():
            self.session.figure_replaced.emit(self.figure, self.title, None)

    def press(self) -> None:
        self.open_workings()

    def open_workings(self) -> None:
        """Open the side sheet."""
        if self.figure is not None:
            self.session.show_workings(self.title, self.figure)
            self.opened.emit()
