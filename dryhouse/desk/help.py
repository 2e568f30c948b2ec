"""The overview of keys, and what this program is. Both are pages that the person can read with the keyboard."""

from __future__ import annotations

import html
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, qVersion
from PySide6.QtGui import QKeySequence, QTextDocument
from PySide6.QtWidgets import QDialog, QTextBrowser

from dryhouse import __version__
from dryhouse.desk.measures import scaled
from dryhouse.desk.widgets.basics import button, column, row

if TYPE_CHECKING:
    from dryhouse.desk.window import DeskWindow

SHARE = Path(__file__).parents[1] / "share"
"""What goes with the program: its picture, its licenses, its entry in a menu."""
EVERYWHERE = (
    ("Tab, Shift+Tab", "to the next and the previous field"),
    ("Enter", "save a form; open the workings of a figure; open the chosen row"),
    ("Esc", "leave a form or close the side sheet; what you had begun is kept"),
    ("Ctrl+Z, Ctrl+Shift+Z", "undo and redo the last act"),
    ("F7", "the small window for the scale"),
    ("F8", "show every caution in view; why a caution is said, and its source"),
    ("Ctrl+P", "print what is in view"),
    ("F1", "short guides, and these keys"),
    ("Shift+F1", "these keys"),
)


def show_keys(window: DeskWindow) -> QDialog:
    """Every key, for the whole window and for the place in view first."""
    return _page(window, "Keys", keys_page(window))


def keys_page(window: DeskWindow) -> str:
    """The same as a page of rich text."""
    sections = []
    view = window.views.get(window.here)
    if view is not None and view.shortcuts:
        sections.append((view.accessibleName(), view.shortcuts))
    sections.append(("Places", tuple((s.shortcut, f"{s.title}: {s.purpose}".rstrip(": ")) for s in window.specs)))
    sections.append(("Everywhere", EVERYWHERE))
    body = "".join(
        f"<h3>{html.escape(title)}</h3><table cellspacing='0' cellpadding='4'>"
        + "".join(
            f"<tr><td style='white-space: nowrap; padding-right: 24px'><b>{html.escape(_native(keys))}</b></td>"
            f"<td>{html.escape(what)}</td></tr>"
            for keys, what in rows
        )
        + "</table>"
        for title, rows in sections
    )
    typing = (
        "<h3>Typing</h3><p>Quantities as you would write them: 2 lb 3 oz, 1½ c, 850 g, 135 F, 8h30. A bare "
        "number is in the unit the entry shows. Times: yesterday 18:00, 8:30, 2026-11-20 18:00.</p>"
    )
    return body + typing


def show_about(window: DeskWindow) -> QDialog:
    """Name, version, where figures come from, and the licenses of the program and of what it works with."""
    licenses = QTextDocument()
    licenses.setMarkdown((SHARE / "licenses.md").read_text(encoding="utf-8"))
    return _page(
        window,
        "About Dryhouse",
        f"<h2>Dryhouse {html.escape(__version__)}</h2><p>A journal and bench calculator for food dried at home.</p>"
        "<p>Every figure says where it comes from: your own batches, a published source, or what you entered. "
        "Cautions are repeated from published sources; no program can judge the food in front of you. "
        f"Nothing leaves this computer.</p><p>Qt {html.escape(qVersion())}</p>{licenses.toHtml()}",
    )


def _page(window: DeskWindow, title: str, body: str) -> QDialog:
    dialog = QDialog(window)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.setWindowTitle(title)
    room = window.screen().availableSize()
    dialog.resize(min(scaled(640), room.width() - 40), min(scaled(640), room.height() - 80))
    text = QTextBrowser()
    text.setAccessibleName(title)
    text.setHtml(body)
    inside = column(dialog, margin=16, space=12)
    inside.addWidget(text, 1)
    inside.addLayout(row(1, button("Close", dialog.accept, "primary")))
    dialog.show()
    text.setFocus()
    return dialog


def _native(keys: str) -> str:
    return ", ".join(
        QKeySequence(part).toString(QKeySequence.SequenceFormat.NativeText) or part for part in keys.split(", ")
    )
