"""Preferences on one page: units, clock, decimal sign, colors and the size of the text. Each works at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QCheckBox, QDialog, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.theme import CHOICES, ZOOMS
from dryhouse.desk.widgets.basics import button, column, inner_key, row, scrolling, text_label
from dryhouse.desk.widgets.fields import ChoiceField, TextField
from dryhouse.kitchen.cards.alarms import QUIET_KEY, read_quiet_hours
from dryhouse.kitchen.settings import COMMA_KEY, UNITS_KEY, preference, set_preference
from dryhouse.science.display import METRIC, US

if TYPE_CHECKING:
    from dryhouse.desk.session import Session
    from dryhouse.desk.window import DeskWindow

UNITS = ((US, "US: ounces, cups, °F"), (METRIC, "Metric: grams, milliliters, °C"))
COLORS = {"system": "Same as system", "light": "Light", "dark": "Dark", "contrast": "High contrast"}


class QuietField(TextField):
    """When nothing is said: `22:00-7:00`; empty means always."""

    def __init__(self, session: Session) -> None:
        super().__init__(session, "&No notices between", hint="such as 22:00-7:00; empty: always", name=QUIET_KEY)

    def read(self, text: str) -> str:
        read_quiet_hours(text)
        return text


class Preferences(QDialog):
    """What is kept in the journal goes with it; the look stays on this machine."""

    def __init__(self, window: DeskWindow, session: Session) -> None:
        super().__init__(window)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Preferences")
        self.desk, self.session = window, session
        self.units = ChoiceField(session, "&Units", UNITS)
        self.comma = QCheckBox("Decimal &comma: 1,5 in place of 1.5")
        self.colors = ChoiceField(session, "C&olors", [(c, COLORS[c]) for c in CHOICES])
        self.zoom = ChoiceField(session, "&Text size", [(z, f"{z} %") for z in ZOOMS])
        self.quiet = QuietField(session)
        page = QWidget()
        inside = column(page, space=8)
        inside.addWidget(text_label("In this journal", "heading"))
        inside.addWidget(self.units)
        inside.addWidget(self.comma)
        inside.addWidget(self.quiet)
        inside.addWidget(text_label("On this computer", "heading"))
        inside.addWidget(self.colors)
        inside.addWidget(self.zoom)
        inside.addWidget(
            text_label("Clock and text follow your system; the size here is in percent of it.", "small")
        )
        inside.addStretch(1)
        outer = column(self, margin=16, space=12)
        area = scrolling(page)
        outer.addWidget(area, 1)
        outer.addLayout(row(1, button("C&lose", self.accept, "primary", hint="Esc")))
        hold(self, least_wide=360)
        self.tell()
        whole = self.sizeHint() + QSize(0, max(page.sizeHint().height() - area.sizeHint().height(), 0))
        self.resize(whole.expandedTo(self.minimumSizeHint()).boundedTo(self.screen().availableSize()))
        self.units.changed.connect(self._told(UNITS_KEY, lambda: str(self.units.value())))
        self.quiet.accepted.connect(self._keep_quiet)
        self.finished.connect(lambda _how: self._keep_quiet())
        self.comma.toggled.connect(self._told(COMMA_KEY, lambda: "yes" if self.comma.isChecked() else "no"))
        self.colors.changed.connect(self._look)
        self.zoom.changed.connect(self._size)
        session.style_changed.connect(self.tell)
        inner_key(self, "Esc", self.accept)

    def tell(self) -> None:
        """Show what holds now; an undone choice shows here too."""
        style, theme = self.session.style, self.desk.theme
        for field, value in ((self.units, style.system), (self.colors, theme.choice), (self.zoom, theme.zoom)):
            field.box.blockSignals(True)
            field.set_value(value)
            field.box.blockSignals(False)
        if not self.quiet.edit.hasFocus():
            self.quiet.edit.setText(preference(self.session.kitchen, QUIET_KEY))
        self.comma.blockSignals(True)
        self.comma.setChecked(style.decimal_comma)
        self.comma.blockSignals(False)

    def _told(self, key: str, value: Callable[[], str]) -> Callable[..., None]:
        def told(*_signal: object) -> None:
            self.session.act(set_preference, key, value())

        return told

    def _keep_quiet(self) -> None:
        text = self.quiet.text()
        if self.desk.session is not self.session:  # the journal was closed under it
            return
        if self.quiet.problem is None and text != preference(self.session.kitchen, QUIET_KEY):
            self.session.act(set_preference, QUIET_KEY, text)

    def _look(self) -> None:
        self.desk.theme.choose(self.colors.value())
        self.desk.settings.setValue("window/theme", self.desk.theme.choice)

    def _size(self) -> None:
        theme = self.desk.theme
        theme.enlarge(ZOOMS.index(self.zoom.value()) - ZOOMS.index(theme.zoom) or 0)
        self.desk.settings.setValue("window/zoom", theme.zoom)


def show_preferences(window: DeskWindow, session: Session) -> Preferences:
    """Open the page."""
    made = Preferences(window, session)
    made.show()
    made.units.setFocus()
    return made
