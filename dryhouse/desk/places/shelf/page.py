"""The shelf on paper: every lot with its standing, keep-by, what is left and its stops."""

from __future__ import annotations

from html import escape

from PySide6.QtGui import QTextDocument

from dryhouse.desk.cautions import cautions_html
from dryhouse.desk.places.shelf.listing import lot_name
from dryhouse.desk.places.shelf.state import ShelfState
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.printing import document
from dryhouse.kitchen.cautions.cautions import cautions_for
from dryhouse.kitchen.shelf.remaining import amount_words
from dryhouse.words.dates import day_words

_HEADINGS = ("Lot", "Status", "Keep-by", "Use", "Left", "Place")


def shelf_page(session: Session, state: ShelfState) -> QTextDocument:
    """The list of the day looked at, in the shelf's own order."""
    title = f"The shelf on {day_words(state.day)}"
    rows = ["<tr>" + "".join(f"<th>{h}</th>" for h in _HEADINGS) + "</tr>"]
    for line in state.lines().values():
        cells = (
            lot_name(line),
            line.standing,
            line.keeps_until or "not known",
            "first" if line.first == 1 else str(line.first or ""),
            amount_words(line.mass_left_g, line.volume_left_ml, session.style),
            line.place or "not recorded",
        )
        rows.append("<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in cells) + "</tr>")
        below = f"<p>{escape(line.reason)}</p>" if line.reason else ""
        below += cautions_html(cautions_for(state.facts(line.lot)), 0, "in the lot's panel")
        rows.append(f"<tr><td colspan='6' class='small'>{below}</td></tr>" if below else "")
    return document(title, f"<h1>{escape(title)}</h1><table>{''.join(rows)}</table>")
