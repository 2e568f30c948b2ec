"""What moves the yield: a small table of her own batches, silent where they are too few to say."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import card, column, empty, text_label
from dryhouse.kitchen.yields.influences import Move
from dryhouse.science.display import counted
from dryhouse.science.yields.moves import FEWEST
from dryhouse.words.charts import percent
from dryhouse.words.messages import message_words

SILENT = (
    f"Needs two cuts, pretreatments, temperatures or dryers with at least {FEWEST} batches each: "
    "fewer say too little."
)

SPOKEN = (
    "A difference is named only where it is 95 % sure (Welch's test). Groups overlap: what looks like the cut may "
    "be the dryer."
)


class MovesView(QWidget):
    """One line a group: its name, how many batches, its mean yield, and what these batches show."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        frame, inside = card()
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(16)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(3, 1)
        self.note = text_label(SILENT, "small")
        inside.addWidget(text_label("What changes your yield", "label"))
        inside.addLayout(self._grid)
        inside.addWidget(self.note)
        column(self).addWidget(frame)

    def show_moves(self, moves: tuple[Move, ...]) -> None:
        """Show these; none at all shows why it is silent."""
        empty(self._grid)
        line = 0
        for move in moves:
            self._grid.addWidget(text_label(f"By {move.what}", "small"), line, 0, 1, 4)
            line += 1
            for group in move.groups:
                name = (
                    self.session.style.temperature(float(group.name)) if move.what == "temperature" else group.name
                )
                finding = message_words(group.finding, self.session.style)
                for side, text in enumerate(
                    (name, counted(group.n, "batch", "batches"), percent(100 * group.ratio), finding)
                ):
                    label = text_label(text, "label" if side == 3 and group.shows else "", wrap=side == 3)
                    if side in (1, 2):
                        label.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
                    self._grid.addWidget(label, line, side)
                line += 1
        self.note.setText(SPOKEN if moves else SILENT)
