"""The chosen batch beside the list: its card, and what can be done with it."""

from __future__ import annotations

from PySide6.QtCore import Signal, SignalInstance
from PySide6.QtWidgets import QMenu, QWidget

from dryhouse.desk.places.batches.card_view import CardView
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import SEEN_HIGH, button, column, scrolling, text_label
from dryhouse.desk.widgets.moment_field import show_moment
from dryhouse.desk.widgets.wrapping import Wrapping
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.records import Batch, BatchPart, Dryer
from dryhouse.kitchen.records.batches import DRYING, PLANNED
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity
from dryhouse.science.statuses import VerdictName
from dryhouse.words.messages import problem_sentence
from dryhouse.words.names import capital

_NOT_YET = {
    PLANNED: (VerdictName.UNKNOWN, "Planned: start it in Drying now when its trays go in."),
    DRYING: (VerdictName.UNKNOWN, "In the dryer: its drying chart shows how far it is."),
}
"""What is said of a batch that has no dried weight yet."""


def facts_of(session: Session, batch: Batch) -> list[str]:
    """What was recorded of a batch beside its weights, in short lines."""
    from dryhouse.kitchen.cards.heating import heating_lines
    from dryhouse.kitchen.yields.yields import dried_from

    kitchen, style = session.kitchen, session.style
    lines = []
    planned = batch.state == PLANNED
    when = [
        f"{word} {show_moment(session, at)}"
        for word, at in (("Start by" if planned else "Started", batch.started), ("ended", batch.ended))
        if at
    ]
    if when:
        lines.append(", ".join(when))
    dryer = kitchen.journal.get(Dryer, batch.dryer) if batch.dryer is not None else None
    how = [
        dryer.name if dryer else "",
        f"{batch.trays} {'tray' if batch.trays == 1 else 'trays'}" if batch.trays else "",
        f"at {style.temperature(batch.set_temperature.si)}" if batch.set_temperature else "",
    ]
    lines.append(", ".join(h for h in how if h))
    what = [
        batch.form,
        style.length(batch.thickness.si) + " thick" if batch.thickness else "",
        f"from {batch.made_from}" if batch.made_from else "",
        batch.pretreatment,
    ]
    lines.append(", ".join(w for w in what if w))
    expected = dried_from(kitchen, batch) if planned else None
    weights = [
        f"bought {style.show(batch.purchased_mass)}" if batch.purchased_mass else "",
        f"{'to load' if planned else 'loaded'} {style.show(batch.prepared_mass)}" if batch.prepared_mass else "",
        f"dried {style.show(batch.dried_mass)}" if batch.dried_mass else "",
        f"about {style.figure(expected)} dried" if expected else "",
    ]
    lines.append(", ".join(w for w in weights if w))
    parts = sorted(kitchen.journal.where(BatchPart, batch=batch.id), key=lambda p: p.position) if batch.id else ()
    if parts:
        lines.append("Of " + ", ".join(f"{style.show(p.mass)} {p.food.replace('-', ' ')}" for p in parts))
    lines += heating_lines(batch)
    if others := _others(session, batch):
        lines.append(", ".join(others))
    if batch.rating:
        lines.append(f"Rated {batch.rating} of 5")
    if batch.notes:
        lines.append(f"“{batch.notes}”")
    return [line[:1].upper() + line[1:] for line in lines if line]


_SAID = (
    "title", "dryer", "trays", "set_temperature", "form", "thickness", "made_from", "pretreatment",
    "purchased_mass", "prepared_mass", "dried_mass", "rating", "notes", "energy_kwh",
)  # fmt: skip
"""Fields that have their own words here or on the card, as everything has that tells of heat."""
_OF_HEAT = ("precook_", "finish_")


def _others(session: Session, batch: Batch) -> list[str]:
    """Everything else that is recorded, each by its label."""
    from dryhouse.kitchen.batches.typed import ENTRIES

    said = []
    for shape in ENTRIES.values():
        value = getattr(batch, shape.name)
        if value is None or value == shape.default or shape.name in _SAID or shape.name.startswith(_OF_HEAT):
            continue
        shown = session.style.show(value) if isinstance(value, Quantity) else value
        shown = session.style.number(shown, 3) if isinstance(shown, (int, float)) else shown
        said.append(f"{shape.about.label[:1].lower()}{shape.about.label[1:]}: {shown}")
    return said


class BatchPanel(QWidget):
    """The batch in focus."""

    edit_asked = Signal(int)
    delete_asked = Signal(int)

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.batch: Batch | None = None
        self.heading = text_label("", "heading")
        self.facts = text_label("", "muted", select=True)
        self.card = CardView(session)
        self.card.details.turned.connect(lambda _open: self._show_facts())
        self.trouble = text_label("", "problem")
        self.edit = button("Ed&it", lambda: self._ask(self.edit_asked), hint="Ctrl+E or Enter in the list")
        self.chart = button("&Chart", self._open_chart, name="Drying chart", hint="Open this batch in Drying now")
        self.pack = button("Pac&k", self._pack, hint="Pack it into jars and bags")
        self.more = button("Mo&re", lambda: None, name="More for this batch")
        menu = QMenu(self.more)
        menu.addAction("&Same again", self._same_again).setToolTip("Start a batch as this one was done")
        menu.addAction("&Remove\tDel", lambda: self._ask(self.delete_asked))
        self.more.setMenu(menu)
        page = QWidget()
        inside = column(page, margin=0, space=10)
        for widget in (self.heading, self.trouble, self.card, self.facts):
            inside.addWidget(widget)
        inside.addStretch(1)
        outer = column(self, space=8)
        self._area = scrolling(page, least=SEEN_HIGH)
        outer.addWidget(self._area, 1)
        outer.addLayout(Wrapping(self.edit, self.chart, self.pack, self.more, 1))
        self.show_batch(None)
        session.style_changed.connect(lambda: self.show_batch(self.batch.id if self.batch else None))

    def show_batch(self, id: int | None) -> None:
        """Show the batch of this number; None shows nothing."""
        self.batch = None if id is None else self.session.kitchen.journal.get(Batch, id)
        there = self.batch is not None
        for widget in (self._area, self.edit, self.chart, self.pack, self.more):
            widget.setVisible(there)
        if self.batch is None:
            return
        from dryhouse.kitchen.cards.batch_card import batch_card
        from dryhouse.kitchen.cautions.cautions import batch_facts
        from dryhouse.kitchen.shelf.packing import may_be_packed
        from dryhouse.science.safety.unfolded import most_for

        try:
            card, trouble = batch_card(self.session.kitchen, self.batch.id), ""
        except InputProblem as problem:
            card, trouble = None, problem_sentence(problem, self.session.style)
        self.pack.setVisible(may_be_packed(self.session.kitchen, self.batch))
        title = capital(batch_name(self.session.kitchen, self.batch))
        self.heading.setText(f"{title}, batch {self.batch.id}")
        self.facts.setText("\n".join(facts_of(self.session, self.batch)))
        self.trouble.setText(trouble)
        self.trouble.setVisible(bool(trouble))
        most = most_for(batch_facts(self.session.kitchen, self.batch).kinds)
        self.card.set_card(card, _NOT_YET.get(self.batch.state), most=most)
        self._show_facts()

    def _show_facts(self) -> None:
        """What was recorded stands with the details; where there is no card, or no dried weight yet, it is the
        answer."""
        finished = self.batch is not None and self.batch.state not in _NOT_YET
        self.facts.setVisible(self.card.card is None or not finished or self.card.details.is_open)

    def _ask(self, signal: SignalInstance) -> None:
        if self.batch is not None:
            signal.emit(self.batch.id)

    def _same_again(self) -> None:
        if self.batch is not None:
            self.session.open("drying", "like", self.batch.id)

    def _pack(self) -> None:
        if self.batch is not None:
            self.session.open("shelf", "batch", self.batch.id)

    def _open_chart(self) -> None:
        if self.batch is not None:
            self.session.open("drying", "batch", self.batch.id)
