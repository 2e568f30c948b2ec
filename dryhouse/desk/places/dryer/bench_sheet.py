"""The sheet for the kitchen clipboard: what is weighed, what it weighs when dry, and blanks for time and weight.

Its lines can be typed or pasted at the scale entry as they were written: `14:30 412 g`.
"""

from __future__ import annotations

from html import escape

from PySide6.QtGui import QTextDocument

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.printing import document
from dryhouse.kitchen.cautions.cautions import batch_cautions
from dryhouse.kitchen.dryer.drying import remembered_tare, weighings_of
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.dryer.scale_style import scale_style
from dryhouse.words.dates import full_moment
from dryhouse.words.names import capital

LINES = 18
_HEADINGS = ("Day and time", "Scale reading", "What was weighed", "Dryer", "Note")


def bench_sheet(session: Session, run: DryingRun) -> QTextDocument:
    """A page of blanks for one running batch."""
    kitchen, style = session.kitchen, scale_style(run, session.style)
    batch = run.batch
    title = f"{capital(run.title)}, batch {batch.id}"
    told = [f"Started {full_moment(kitchen.local(run.clock.started))}"]
    how = [
        run.dryer.name if run.dryer else "",
        f"{batch.trays} {'tray' if batch.trays == 1 else 'trays'}" if batch.trays else "",
        session.style.temperature(batch.set_temperature.si) if batch.set_temperature else "",
    ]
    told.append(", ".join(part for part in how if part))
    tare = remembered_tare(weighings_of(kitchen, batch.id), run.scope)
    tared = tare.si if tare is not None else 0.0
    told.append(f"Tray or tare: {style.mass(tared)}" if tared else "Tray or tare: ______________")
    if run.target_mass is not None:
        dry = run.target_mass.value
        said = f"Dry at {style.mass(dry)}"
        told.append(f"{said}; the scale then shows {style.mass(dry + tared)} with the tray" if tared else said)
    else:
        told.append("Dry at: ______________")
    stops = [c.text for c in batch_cautions(kitchen, batch) if c.severity == "stop"]
    body = f"<h1>{escape(title)}</h1>" + "".join(f"<p>{escape(line)}</p>" for line in told if line)
    body += "".join(f"<p><b>Stop: {escape(text)}</b></p>" for text in stops)
    head = "".join(f"<th>{name}</th>" for name in _HEADINGS)
    blank = "<tr>" + "<td height='26'>&nbsp;</td>" * len(_HEADINGS) + "</tr>"
    body += f"<table width='100%' border='1' cellspacing='0' cellpadding='4'><tr>{head}</tr>{blank * LINES}</table>"
    unit = "g" if style.mass_unit == "g" else "oz"
    body += f"<p class='small'>Type or paste a line as it stands: 14:30 412 {unit}, sample tray.</p>"
    return document(title, body)
