"""From tokens to Qt: the palette, the style sheet, and following the system's colours, contrast and text size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QColor, QPalette

from dryhouse.plots.tokens import BLACK_ON_WHITE, DARK, LIGHT, WHITE_ON_BLACK, Tokens

if TYPE_CHECKING:
    from PySide6.QtCore import QSettings
    from PySide6.QtWidgets import QApplication, QWidget

CHOICES = ("system", "light", "dark", "contrast")
BAR = 12
"""Pixels that a scroll bar is wide."""
_DRESSED = "dressed"
_STYLE = "fusion"
ZOOMS = (80, 90, 100, 110, 125, 150, 175, 200)
"""Sizes of the text, in percent of the system's."""


class Theme(QObject):
    """The look in use. `changed` fires after the whole application has been dressed anew.

    With `whole` unset there are colours alone, for a first paint that does not wait for letters and styles, until
    `finish`.
    """

    changed = Signal()

    def __init__(self, app: QApplication, choice: str = "system", *, whole: bool = True, zoom: int = 100) -> None:
        super().__init__(app)
        self._app = app
        self._whole = False
        self.choice = choice if choice in CHOICES else "system"
        self.zoom = zoom if zoom in ZOOMS else 100
        self.tokens: Tokens = self._at_first()
        if whole:
            self.finish()
        else:
            app.setPalette(palette(self.tokens))

    def finish(self) -> None:
        """Dress whole, and follow the system from now on."""
        if self._whole:
            return
        self._whole = True
        self.tokens = self._wanted()
        if self._app.style().name() != _STYLE:  # a style that is set asks every widget there is anew
            self._app.setStyle(_STYLE)
        self._dress()
        hints = self._app.styleHints()
        hints.colorSchemeChanged.connect(self._follow)
        hints.accessibility().contrastPreferenceChanged.connect(self._follow)

    def dress(self, window: QWidget) -> None:
        """Give a window the style sheet, now and whenever the look changes; what is put into it follows.

        The sheet belongs to windows and not to the application: an application's is asked anew for every widget,
        with all that is in it, each time one is put into another, and a place takes six times as long to build.
        """
        if not window.property(_DRESSED):
            window.setProperty(_DRESSED, True)
            if self._whole:
                window.setStyleSheet(style_sheet(self.tokens))

    def choose(self, choice: str) -> None:
        """`system`, `light`, `dark` or `contrast`."""
        self.choice = choice if choice in CHOICES else "system"
        self._follow()

    def enlarge(self, steps: int) -> int:
        """Make every text so many sizes larger, or smaller; 0 goes back to the system's own. Answers the zoom."""
        at = ZOOMS.index(self.zoom) + steps
        self.zoom = ZOOMS[min(max(at, 0), len(ZOOMS) - 1)] if steps else 100
        self._follow()
        return self.zoom

    def _follow(self) -> None:
        wanted = self._wanted()
        if wanted != self.tokens:
            self.tokens = wanted
            self._dress()
            self.changed.emit()

    def _at_first(self) -> Tokens:
        """The look by the system's own colours: its word for light and dark takes longer to load than to paint."""
        dark = self._app.palette().color(QPalette.ColorRole.Window).lightness() < 128
        if self.choice == "contrast":
            return WHITE_ON_BLACK if dark else BLACK_ON_WHITE
        return DARK if self.choice == "dark" or (dark and self.choice == "system") else LIGHT

    def _wanted(self) -> Tokens:
        from PySide6.QtCore import Qt

        hints = self._app.styleHints()
        dark = hints.colorScheme() == Qt.ColorScheme.Dark
        strong = hints.accessibility().contrastPreference() == Qt.ContrastPreference.HighContrast
        if self.choice == "contrast" or (strong and self.choice == "system"):
            look = WHITE_ON_BLACK if dark else BLACK_ON_WHITE
        else:
            look = DARK if self.choice == "dark" or (dark and self.choice == "system") else LIGHT
        return look.enlarged(system_enlargement() * self.zoom / 100)

    def _dress(self) -> None:
        from PySide6.QtGui import QFont

        from dryhouse.desk.measures import measure_again

        font = QFont(self._app.font())
        font.setPointSizeF(self.tokens.body)
        self._app.setFont(font)
        self._app.setPalette(palette(self.tokens))
        for widget in self._app.topLevelWidgets():
            if widget.property(_DRESSED):
                widget.setStyleSheet(style_sheet(self.tokens))
        measure_again(self._app, self.tokens.body / LIGHT.body)


def theme_of(app: QApplication, kept: QSettings) -> Theme:
    """The look that is kept on this machine, of colours alone until the first paint."""
    zoom = str(kept.value("window/zoom", 100))
    return Theme(
        app, str(kept.value("window/theme", "system")), whole=False, zoom=int(zoom) if zoom.isdecimal() else 100
    )


def system_enlargement() -> float:
    """How many times our own size of text the system's is; never less than once."""
    from PySide6.QtGui import QFontDatabase, QFontInfo

    system = QFontInfo(QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont)).pointSizeF()
    return max(1.0, system / LIGHT.body)


def palette(t: Tokens) -> QPalette:
    """The tokens as Qt's own colour roles."""
    roles = QPalette.ColorRole
    made = QPalette()
    for role, colour in {
        roles.Window: t.ground,
        roles.WindowText: t.ink,
        roles.Base: t.surface,
        roles.AlternateBase: t.ground,
        roles.Text: t.ink,
        roles.Button: t.surface,
        roles.ButtonText: t.ink,
        roles.BrightText: t.ink,
        roles.ToolTipBase: t.surface,
        roles.ToolTipText: t.ink,
        roles.PlaceholderText: t.hint,
        roles.Highlight: t.accent_soft,
        roles.HighlightedText: t.ink,
        roles.Link: t.accent,
        roles.LinkVisited: t.accent,
        roles.Light: t.surface,
        roles.Midlight: t.ground,
        roles.Mid: t.line,
        roles.Dark: t.edge,
        roles.Shadow: t.edge,
        roles.Accent: t.accent,
    }.items():
        made.setColor(role, QColor(colour))
    for role in (roles.WindowText, roles.Text, roles.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, role, QColor(t.edge))
    return made


def style_sheet(t: Tokens) -> str:
    """What the palette cannot say. Widgets ask for a look with the property `role` (see `set_role`)."""
    s, r = t.space, t.radius
    mark, tip, little = (round(side * t.body / LIGHT.body) for side in (16, 5, 4))
    return f"""
    QLabel[role="title"] {{ font-size: {t.title}pt; font-weight: 600; }}
    QLabel[role="heading"] {{ font-size: {t.heading}pt; font-weight: 600; }}
    QLabel[role="figure"] {{ font-size: {t.figure}pt; font-weight: 600; }}
    QLabel[role="muted"] {{ color: {t.muted}; }}
    QLabel[role="small"] {{ color: {t.muted}; font-size: {t.small}pt; }}
    QLabel[role="label"] {{ font-weight: 600; }}
    QLabel[role="problem"] {{ color: {t.severities["stop"].ink}; font-size: {t.small}pt; }}
    QFrame[role="card"], QAbstractButton[role="card"] {{
        background: {t.surface}; border: 1px solid {t.line}; border-radius: {r}px; }}
    QFrame[role="sheet"] {{ background: {t.surface}; border: none; border-left: 1px solid {t.line}; }}
    QFrame[role="rail"] {{ background: {t.rail}; border: none; border-right: 1px solid {t.line}; }}
    QScrollArea, QScrollArea > QWidget > QWidget[role="page"] {{ background: transparent; border: none; }}
    QLineEdit, QComboBox, QSpinBox, QPlainTextEdit, QTextEdit {{
        background: {t.surface}; color: {t.ink}; border: 1px solid {t.edge}; border-radius: {r}px;
        padding: 0 {s}px; selection-background-color: {t.accent}; selection-color: {t.on_accent};
        placeholder-text-color: {t.hint}; }}
    QLineEdit, QComboBox, QSpinBox {{ min-height: {t.target - 2}px; }}
    QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QPlainTextEdit:focus, QTextEdit:focus {{
        border: 2px solid {t.accent}; padding: 0 {s - 1}px; min-height: {t.target - 4}px; }}
    QPlainTextEdit, QPlainTextEdit:focus, QTextEdit, QTextEdit:focus {{ padding: {s // 2}px; min-height: 0; }}
    QLineEdit[wrong="true"] {{ border: 2px solid {t.severities["stop"].ink}; padding: 0 {s - 1}px;
        min-height: {t.target - 4}px; }}
    QLineEdit:disabled, QComboBox:disabled, QLineEdit:read-only {{ color: {t.muted}; background: {t.ground}; }}
    QComboBox::drop-down {{ border: none; width: 28px; }}
    QComboBox::down-arrow {{ width: 0; height: 0; border-left: {tip}px solid {t.surface};
        border-right: {tip}px solid {t.surface}; border-top: {tip + 1}px solid {t.muted}; border-bottom: none; }}
    QComboBox::down-arrow:disabled {{ border-left-color: {t.ground}; border-right-color: {t.ground}; }}
    QTableView QComboBox {{ min-height: {t.target - 8}px; margin: 3px 0; }}
    QTableView QComboBox:focus {{ min-height: {t.target - 10}px; }}
    QProgressBar {{ background: {t.surface}; color: {t.ink}; border: 1px solid {t.edge}; border-radius: {r}px;
        min-height: {t.target // 2}px; text-align: center; }}
    QProgressBar::chunk {{ background: {t.accent_soft}; border-right: 2px solid {t.accent}; }}
    QComboBox QAbstractItemView {{ background: {t.surface}; border: 1px solid {t.edge}; outline: none; }}
    QComboBox QAbstractItemView::item {{ min-height: {t.target - 8}px; padding: 0 {s}px; }}
    QPushButton {{ background: {t.surface}; color: {t.ink}; border: 1px solid {t.edge}; border-radius: {r}px;
        padding: 0 {2 * s}px; min-height: {t.target - 2}px; outline: none; }}
    QPushButton:hover {{ background: {t.accent_soft}; }}
    QPushButton:focus {{ border: 2px solid {t.accent}; padding: 0 {2 * s - 1}px; min-height: {t.target - 4}px; }}
    QPushButton:disabled {{ color: {t.edge}; border: 1px dashed {t.edge}; }}
    QPushButton:checked {{ background: {t.accent_soft}; border-color: {t.accent}; }}
    QPushButton[role="primary"] {{ background: {t.accent}; color: {t.on_accent}; border-color: {t.accent};
        font-weight: 600; }}
    QPushButton[role="primary"]:focus {{ border: 3px double {t.on_accent}; padding: 0 {2 * s - 2}px;
        min-height: {t.target - 6}px; }}
    QPushButton[role="primary"]:disabled {{ background: {t.ground}; color: {t.muted};
        border: 1px dashed {t.edge}; }}
    QPushButton[role="quiet"] {{ background: transparent; border-color: transparent; color: {t.accent};
        padding: 0 {s}px; }}
    QPushButton::menu-indicator {{ width: 0; height: 0; border-left: {little}px solid {t.surface};
        border-right: {little}px solid {t.surface}; border-top: {little + 1}px solid {t.muted}; border-bottom: none;
        subcontrol-origin: padding; subcontrol-position: right center; right: {s - 2}px; }}
    QPushButton[role="quiet"]::menu-indicator {{ border-left-color: {t.ground}; border-right-color: {t.ground};
        border-top-color: {t.accent}; right: 0; }}
    QPushButton::menu-indicator:hover {{ border-left-color: {t.accent_soft}; border-right-color: {t.accent_soft}; }}
    QPushButton[role="quiet"]:hover {{ background: {t.accent_soft}; }}
    QPushButton[role="quiet"]:focus {{ border: 2px solid {t.accent}; padding: 0 {s - 1}px; }}
    QToolButton[role="place"] {{ background: transparent; border: 2px solid transparent; border-radius: {r}px;
        padding: 0 {s + 4}px; min-height: {t.target}px; text-align: left; }}
    QToolButton[role="place"]:hover {{ background: {t.accent_soft}; }}
    QToolButton[role="place"]:checked {{ background: {t.accent}; color: {t.on_accent}; font-weight: 600; }}
    QToolButton[role="place"]:focus {{ border-color: {t.accent}; }}
    QToolButton[role="place"]:checked:focus {{ border-color: {t.ink}; }}
    QScrollBar:vertical {{ background: transparent; width: {BAR}px; margin: 0; border: none; }}
    QScrollBar:horizontal {{ background: transparent; height: {BAR}px; margin: 0; border: none; }}
    QScrollBar::handle {{ background: {t.edge}; border-radius: 3px; margin: 3px; }}
    QScrollBar::handle:vertical {{ min-height: {t.target}px; }}
    QScrollBar::handle:horizontal {{ min-width: {t.target}px; }}
    QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
    QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
    QCheckBox::indicator, QAbstractItemView::indicator {{ width: {mark}px; height: {mark}px; }}
    QCheckBox::indicator:unchecked, QAbstractItemView::indicator:unchecked {{
        border: 1px solid {t.edge}; border-radius: 2px; background: {t.surface}; }}
    QCheckBox {{ min-height: {t.target - 4}px; spacing: {s}px; }}
    QMenuBar {{ background: {t.rail}; border-bottom: 1px solid {t.line}; }}
    QMenuBar::item {{ padding: {s - 2}px {s + 4}px; background: transparent; }}
    QMenuBar::item:selected {{ background: {t.accent_soft}; }}
    QMenu {{ background: {t.surface}; border: 1px solid {t.edge}; padding: {s // 2}px; }}
    QMenu::item {{ padding: {s}px {3 * s}px; }}
    QMenu::item {{ border: 2px solid transparent; }}
    QMenu::item:selected {{ background: {t.accent_soft}; color: {t.ink}; border-color: {t.accent}; }}
    QMenu::separator {{ height: 1px; background: {t.line}; margin: {s // 2}px; }}
    QTableView {{ background: {t.surface}; border: 1px solid {t.line}; border-radius: {r}px;
        gridline-color: transparent; selection-background-color: {t.accent_soft}; selection-color: {t.ink};
        outline: none; }}
    QTableView:focus {{ border: 1px solid {t.accent}; }}
    QTableView::item {{ padding: 0 {s}px; border-bottom: 1px solid {t.line}; }}
    QTableView::item:selected {{ border-top: 2px solid {t.accent}; border-bottom: 2px solid {t.accent}; }}
    QListView {{ background: {t.surface}; border: 1px solid {t.line}; border-radius: {r}px; outline: none;
        selection-background-color: {t.accent_soft}; selection-color: {t.ink}; }}
    QListView::item {{ min-height: {t.target - 14}px; padding: 3px {s}px; }}
    QListView::item:selected {{ background: {t.accent_soft}; color: {t.ink};
        border: 2px solid {t.accent}; border-radius: {r}px; }}
    QListView:focus {{ border: 1px solid {t.accent}; }}
    QTableCornerButton::section {{ background: {t.ground}; border: none; border-bottom: 1px solid {t.line}; }}
    QHeaderView {{ background: {t.ground}; border: none; }}
    QHeaderView::section {{ background: {t.ground}; color: {t.muted}; border: none;
        border-bottom: 1px solid {t.line}; padding: {s - 2}px {s + 3}px; font-weight: 600; }}
    QHeaderView::up-arrow, QHeaderView::down-arrow {{ subcontrol-origin: border; subcontrol-position: top center;
        width: 0; height: 0; border-left: {tip}px solid {t.ground}; border-right: {tip}px solid {t.ground}; }}
    QHeaderView::up-arrow {{ border-top: {tip}px solid {t.muted}; border-bottom: none; }}
    QHeaderView::down-arrow {{ border-bottom: {tip}px solid {t.muted}; border-top: none; }}
    QTabWidget::pane {{ border: none; }}
    QTabBar::tab {{ padding: 0 {2 * s}px; min-height: {t.target - 4}px; border-bottom: 3px solid transparent;
        color: {t.muted}; background: transparent; }}
    QTabWidget[role="tight"] QTabBar::tab {{ padding: 0 {s}px; }}
    QTabBar::tab:selected {{ color: {t.ink}; border-bottom-color: {t.accent}; font-weight: 600; }}
    QTabBar::tab:focus {{ color: {t.accent}; }}
    QSplitter::handle {{ background: transparent; }}
    QToolTip {{ background: {t.surface}; color: {t.ink}; border: 1px solid {t.edge}; padding: {s // 2}px; }}
    """


def set_role(widget: QWidget, role: str) -> None:
    """Give a widget a look of the style sheet: `title`, `heading`, `figure`, `muted`, `small`, `label`,
    `problem`, `card`, `sheet`, `page`, `primary`, `quiet`, `place`, `tight`."""
    set_mark(widget, "role", role)


def set_mark(widget: QWidget, name: str, value: object) -> None:
    """Set a property the style sheet asks about, and dress the widget anew where it was dressed before."""
    from PySide6.QtCore import Qt

    if widget.property(name) != value:
        widget.setProperty(name, value)
        if widget.testAttribute(Qt.WidgetAttribute.WA_WState_Polished):
            widget.style().unpolish(widget)
            widget.style().polish(widget)
