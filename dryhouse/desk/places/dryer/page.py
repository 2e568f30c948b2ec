"""A run on paper: its chart, what it came to, and every weighing."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import QUrl
from PySide6.QtGui import QTextDocument

from dryhouse.desk.cautions import cautions_html
from dryhouse.desk.places.dryer.detail import Detail
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.printing import document
from dryhouse.kitchen.dryer.run_words import run_lines
from dryhouse.kitchen.dryer.runs import DryingRun

_CHART = "chart.png"
_WIDE = 640


def run_page(session: Session, detail: Detail) -> QTextDocument | None:
    """The page of the run in view, or None where none is."""
    run = detail.run
    if run is None:
        return None
    title = f"{run.title[:1].upper()}{run.title[1:]}, batch {run.batch.id}"
    parts = [f"<h1>{escape(title)}</h1>"]
    drawn = detail.chart.plot.canvas.draw is not None
    if drawn:
        parts.append(f"<p><img src='{_CHART}' width='{_WIDE}'></p>")
    parts += [f"<p>{escape(line)}</p>" for line in run_lines(session.kitchen, run, session.style)]
    parts += [cautions_html(run.cautions), _table(detail, run)]
    made = document(title, "".join(parts))
    if drawn:
        made.addResource(QTextDocument.ResourceType.ImageResource, QUrl(_CHART), detail.chart.plot.picture())
    return made


def _table(detail: Detail, run: DryingRun) -> str:
    from dryhouse.desk.places.dryer.weighings import HEADINGS

    points = sorted((*run.points, *run.others, *run.left_out), key=lambda p: p.at)
    lines = [detail.weighings.cells(p, run) for p in points if p.weighing is not None]
    if not lines:
        return ""
    head = "".join(f"<th align='left'>{escape(h)}</th>" for h in HEADINGS)
    body = "".join("<tr>" + "".join(f"<td>{escape(c)}</td>" for c in line) + "</tr>" for line in lines)
    return f"<h2>Weighings</h2><table cellpadding='4'><tr>{head}</tr>{body}</table>"
