"""Where a dryer is asked for and none is recorded yet: the way to add one."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column
from dryhouse.kitchen.batches.dryers import dryers


class NoDryers(QWidget):
    """Has the button that adds a dryer, while there is none; what is typed beside it stays."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.button = button(
            "Add a dryer", lambda: session.open("journal", "dryers", 0), "quiet", hint="What you typed stays"
        )
        column(self).addWidget(self.button)
        self.hide()  # shown before it has its place in a form, it would be a window of its own

    def look(self) -> None:
        """Show it only while there is none. To be asked once it stands in its form."""
        self.setVisible(not dryers(self.session.kitchen))
