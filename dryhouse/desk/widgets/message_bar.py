"""The quiet bar at the foot of the window where messages appear, with Undo where it applies."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFrame, QLabel

from dryhouse.desk.icons import pixmap
from dryhouse.desk.messages import Message
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.announce import announce
from dryhouse.desk.widgets.basics import button, row, text_label

_TINTS = {"done": "keeping", "note": "note", "input": "warn", "world": "stop", "fault": "stop"}
_SAID = {"done": "Done", "note": "Note", "input": "Please check", "world": "Problem", "fault": "Program error"}
_STAYS = ("world", "fault")
_SHOWN_FOR_MS = 12_000


class MessageBar(QFrame):
    """One message at a time. What was done or refused fades after a while; what failed stays until closed."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.message: Message | None = None
        self.setObjectName("messages")
        self._shape = QLabel()
        self._said = text_label("", "label", wrap=False)
        self._text = text_label("", select=True)
        self.undo = button("Undo", session.undo, "quiet", hint="Ctrl+Z")
        self.copy = button("Copy details", self._copy, "quiet")
        self.close_button = button("Close", self.dismiss, "quiet", name="Close the message")
        inside = row(self._shape, self._said, space=12)
        inside.addWidget(self._text, 1)
        for widget in (self.undo, self.copy, self.close_button):
            inside.addWidget(widget)
        inside.setContentsMargins(16, 4, 8, 4)
        self.setLayout(inside)
        self._timer = QTimer(self, singleShot=True, interval=_SHOWN_FOR_MS)
        self._timer.timeout.connect(self.dismiss)
        session.messages.posted.connect(self.show_message)
        session.messages.cleared.connect(self.dismiss)
        session.theme.changed.connect(self._dress)
        self.hide()

    def show_message(self, message: Message) -> None:
        """Show one message in place of the last."""
        self.message = message
        self._said.setText(_SAID[message.kind])
        self._text.setText(message.text)
        self.undo.setVisible(message.undo)
        self.copy.setVisible(bool(message.details))
        self.setAccessibleName(f"{_SAID[message.kind]}: {message.text}")
        self._dress()
        self.show()
        announce(self, self.accessibleName())
        if message.kind in _STAYS:
            self._timer.stop()
        else:
            self._timer.start()

    def dismiss(self) -> None:
        """Take the message out of view."""
        self._timer.stop()
        self.hide()

    def forget_refusal(self) -> None:
        """What was refused belongs to the place it was refused in: it goes when the person goes elsewhere."""
        if self.message is not None and self.message.kind == "input":
            self.dismiss()

    def _copy(self) -> None:
        if self.message is not None:
            QGuiApplication.clipboard().setText(f"{self.message.text}\n\n{self.message.details}")

    def _dress(self) -> None:
        if self.message is None:
            return
        tint = self.session.theme.tokens.tint(_TINTS[self.message.kind])
        self.setStyleSheet(
            f"#messages {{ background: {tint.ground}; border-top: 1px solid {tint.ink}; }}"
            f"#messages QLabel, #messages QPushButton {{ color: {tint.ink}; }}"
        )
        self._shape.setPixmap(pixmap(tint.shape, tint.ink, 22))
        self._shape.setAlignment(Qt.AlignmentFlag.AlignVCenter)
