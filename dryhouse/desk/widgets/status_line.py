"""A standing or a verdict: its word, the shape and colour that go with it, and one sentence."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLabel

from dryhouse.desk.icons import pixmap
from dryhouse.desk.theme import Theme
from dryhouse.desk.widgets.basics import column, fill, row, text_label
from dryhouse.desk.widgets.figure_view import unbroken
from dryhouse.science.statuses import VerdictName


class StatusLine(QFrame):
    """Shows one of the words the tokens have a tint for."""

    def __init__(self, theme: Theme, word: str = "", sentence: str = "") -> None:
        super().__init__()
        self._theme = theme
        self.word = ""
        self.setObjectName("status")
        self._shape = QLabel()
        self._word = text_label("", "label")
        self._sentence = text_label("", select=True)
        beside = column(space=2)
        fill(beside, self._word, self._sentence)
        across = row(self._shape, space=10)
        across.addLayout(beside, 1)
        across.setContentsMargins(12, 8, 12, 8)
        across.setAlignment(self._shape, Qt.AlignmentFlag.AlignTop)
        self.setLayout(across)
        theme.changed.connect(self._dress)
        self.say(word, sentence)

    def say(self, word: str, sentence: str = "") -> None:
        """Show another word; an empty one hides the line. A sentence that begins with its word says it once."""
        self.word = word
        head, colon, rest = sentence.partition(":")
        if word and sentence.casefold().startswith(f"{word}. "):
            said, rest_of_it = word, sentence[len(word) + 1 :].strip()
        elif colon and (word == VerdictName.UNKNOWN or head.casefold().startswith(word.casefold())):
            said, rest_of_it = head, rest.strip()
        else:
            said, rest_of_it = word, sentence
        self._word.setText(said[:1].upper() + said[1:])
        self._sentence.setText(unbroken(rest_of_it[:1].upper() + rest_of_it[1:]))
        self._sentence.setVisible(bool(rest_of_it))
        self.setAccessibleName(f"{word}: {sentence}" if sentence else word)
        self.setVisible(bool(word))
        self._dress()

    def sentence(self) -> str:
        """The sentence as shown."""
        return self._sentence.text().replace("\u00a0", " ")

    def _dress(self) -> None:
        tint = self._theme.tokens.tint(self.word)
        self.setStyleSheet(
            f"#status {{ background: {tint.ground}; border-radius: 6px; }} #status QLabel {{ color: {tint.ink}; }}"
        )
        self._shape.setPixmap(pixmap(tint.shape, tint.ink, 20))
