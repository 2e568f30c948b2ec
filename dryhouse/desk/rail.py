"""The list of places down the left side of the window, in words with a small picture each."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QFrame, QSizePolicy, QToolButton

from dryhouse.desk.icons import icon
from dryhouse.desk.measures import hold, hold_icon
from dryhouse.desk.place import PlaceSpec
from dryhouse.desk.theme import Theme, set_role
from dryhouse.desk.widgets.basics import column, text_label

_WIDE, _NARROW = 176, 64


class Rail(QFrame):
    """One button for each place; the arrows walk them, Enter or Space goes there."""

    chosen = Signal(str)

    def __init__(self, theme: Theme, specs: list[PlaceSpec]) -> None:
        super().__init__()
        self._theme, self._specs = theme, specs
        hold(self, wide=_WIDE)
        self.setAccessibleName("Places")
        set_role(self, "rail")
        self._inside = column(self, margin=10, space=4)
        self._title = text_label("Dryhouse", "heading", wrap=False)
        self._title.setContentsMargins(8, 6, 0, 8)
        self._inside.addWidget(self._title)
        self._group = QButtonGroup(self)
        self.buttons: dict[str, QToolButton] = {}
        for spec in specs:
            self._inside.addWidget(self._button(spec))
        self._inside.addStretch(1)
        self._journal = text_label("", "small")
        self._journal.setContentsMargins(8, 0, 0, 4)
        self._inside.addWidget(self._journal)
        theme.changed.connect(self._draw)
        self._draw()

    def mark(self, place: str) -> None:
        """Show which place is in view."""
        if place in self.buttons:
            self.buttons[place].setChecked(True)
        elif (checked := self._group.checkedButton()) is not None:
            self._group.setExclusive(False)
            checked.setChecked(False)
            self._group.setExclusive(True)

    def be_narrow(self, narrow: bool) -> None:
        """Show the pictures alone, where the window has no room for the words: they stay in the tooltips."""
        style = Qt.ToolButtonStyle.ToolButtonIconOnly if narrow else Qt.ToolButtonStyle.ToolButtonTextBesideIcon
        for made in self.buttons.values():
            made.setToolButtonStyle(style)
        for label in (self._title, self._journal):
            label.setVisible(not narrow)
        hold(self, wide=_NARROW if narrow else _WIDE)

    def set_journal(self, title: str) -> None:
        """Say at the foot which journal is open."""
        self._journal.setText(title)

    def set_usable(self, usable: bool) -> None:
        """Places can be gone to only while a journal is open."""
        for made in self.buttons.values():
            made.setEnabled(usable)

    def _button(self, spec: PlaceSpec) -> QToolButton:
        made = QToolButton()
        made.setText(spec.title)
        made.setAccessibleName(spec.title)
        made.setToolTip(f"{spec.title}: {spec.purpose}  {spec.shortcut}".strip())
        made.setCheckable(True)
        made.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        hold_icon(made, 22)
        made.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        set_role(made, "place")
        made.clicked.connect(lambda _on=False: self.chosen.emit(spec.id))
        self._group.addButton(made)
        self.buttons[spec.id] = made
        return made

    def _draw(self) -> None:
        t = self._theme.tokens
        for spec in self._specs:
            self.buttons[spec.id].setIcon(icon(spec.icon or spec.id, t.ink, t.on_accent))
