"""A batch on paper."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtGui import QTextDocument

from dryhouse.desk.cautions import cautions_html
from dryhouse.desk.places.batches.batch_panel import facts_of
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.figure_view import basis_line
from dryhouse.desk.widgets.printing import document
from dryhouse.kitchen.records import Batch
from dryhouse.words.workings import lines

if TYPE_CHECKING:
    from dryhouse.kitchen.cards.batch_card import Card


def batch_page(session: Session, batch: Batch, card: Card) -> QTextDocument:
    """The card of a batch, its record, and the workings of every figure."""
    style = session.style
    title = f"{card.title[:1].upper()}{card.title[1:]}, batch {batch.id}"
    parts = [f"<h1>{escape(title)}</h1>"]
    parts += [f"<p>{escape(line)}</p>" for line in facts_of(session, batch)]
    parts += [f"<p><b>{escape(sentence)}</b></p>" for sentence in card.said(style)]
    if card.cautions:
        parts += ["<h2>Cautions</h2>", cautions_html(card.cautions)]
    for shown in card.figures:
        heading, figure = shown.caption, shown.figure
        between = style.interval(figure)
        parts.append(
            f"<h2>{escape(heading)}: {escape(style.figure(figure))}"
            + (f" (likely {escape(between)})" if between else "")
            + "</h2>"
        )
        parts += [f"<p>{escape(line)}</p>" for line in lines(figure.workings, style)]
        parts.append(f"<p class='small'>Basis: {escape(basis_line(figure.basis, style))}</p>")
    return document(title, "".join(parts))
