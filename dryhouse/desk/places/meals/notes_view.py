"""The cooking notes of a meal, the latest first, each with what it changed."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, empty, row, show_all, text_label
from dryhouse.kitchen.meals.cooking import notes_of, remove_note
from dryhouse.kitchen.records import CookingNote, CookingNotePart
from dryhouse.words.dates import full_day


class NotesView(QWidget):
    """A line for each note."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self._column = column(self, space=4)

    def show_meal(self, meal: int) -> None:
        """The notes of a meal; nothing where there are none."""
        empty(self._column)
        notes = notes_of(self.session.kitchen, meal) if meal else ()
        self.setVisible(bool(notes))
        if notes:
            self._column.addWidget(text_label(f"Cooking notes, {len(notes)}", "heading"))
        for note in notes:
            remove = button(
                "Remove",
                partial(self.session.act, remove_note, note.id),
                "quiet",
                name=f"Remove the note of {note.on}",
            )
            line = row(text_label(self.note_words(note)), remove)
            line.setStretch(0, 1)
            self._column.addLayout(line)
        show_all(self._column)

    def note_words(self, note: CookingNote) -> str:
        """A note in one line."""
        style = self.session.style
        parts = [full_day(note.on), f"for {style.number(note.servings)}"]
        if note.water is not None:
            parts.append(style.volume(note.water.si))
        if note.cook_minutes is not None:
            parts.append(f"{note.cook_minutes:.0f} min")
        if note.came_back:
            parts.append(f"came back {note.came_back}")
        for part in self.session.kitchen.journal.where(CookingNotePart, note=note.id):
            parts.append(f"{part.name} {part.came_back}")
        if note.rating is not None:
            parts.append(f"{note.rating} of 5")
        return ", ".join(parts) + (f". {note.change}" if note.change else "")
