"""The log form: what a tray batch weighed and how it was dried, answered while it is typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from dryhouse.desk.places.batches.card_view import CardView
from dryhouse.desk.places.batches.entries import FIELD_NAMES, from_text, keep_unchanged, to_text, typed_from
from dryhouse.desk.places.batches.form_fields import FIRST_OF_MORE, Entries
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, scrolling, text_label
from dryhouse.desk.widgets.beside import side_by_side
from dryhouse.desk.widgets.draft import DraftOffer, KeptForm
from dryhouse.desk.widgets.fields import mark_problem
from dryhouse.desk.widgets.no_dryers import NoDryers
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.doubted import doubted_weights
from dryhouse.kitchen.batches.log import BatchDraft, draft_for, edit_batch, last_batch_of, log_batch, parts_of
from dryhouse.kitchen.batches.typed import TypedBatch, draft_from
from dryhouse.kitchen.cards.batch_card import draft_card
from dryhouse.kitchen.cautions.cautions import batch_cautions, batch_facts
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.kitchen.records.batches import DRYING, FINISHED
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from dryhouse.science.safety.unfolded import OF_A_PLANT, most_for
from dryhouse.science.values import Caution

_PAUSE_MS = 90
_MORE = "&More fields"


class LogForm(QWidget):
    """Enter saves, Esc leaves; what was typed stays until it is saved or cleared."""

    saved = Signal(int)
    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.editing: Batch | None = None
        self._parts: tuple[BatchPart, ...] = ()
        """The ingredients of the batch that is edited, as they were when the form was filled."""
        self._before = TypedBatch()
        self._remembered: dict[str, str] = {}
        self._asked = ""
        """The question about its weights that she has been asked."""
        self.heading = text_label("Log a batch", "title", wrap=False)
        self.entries = Entries(session)
        self.still = QCheckBox("Still drying")
        self.memory = text_label("", "small")
        self.offer = DraftOffer()
        self.preview = CardView(session)
        self.nothing_yet = text_label(
            "Type the food and its weights: the answers appear here as you type.", "muted"
        )
        self._pause = QTimer(self, singleShot=True, interval=_PAUSE_MS)
        self._pause.timeout.connect(self.answer)
        self.kept = KeptForm(
            session,
            "batch change",
            self,
            lambda: to_text(self.typed()),
            lambda kept: self.entries.show(from_text(kept)),
        )
        self._build()
        self.entries.changed.connect(self._pause.start)
        self.entries.accepted.connect(self.save)
        self.entries.food.chosen.connect(self._remember)
        self.entries.mix_asked.connect(self._fit_mix)
        self.still.toggled.connect(self._show_still)
        for keys, act in (("Ctrl+S", self.save), ("Esc", self.left.emit)):
            inner_key(self, keys, act)

    def _build(self) -> None:
        page = QWidget()
        self._fields = column(page, margin=0, space=4)
        grid = QGridLayout()
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(6)
        self.entries.lay_out_main(grid)
        self._fields.addLayout(grid)
        self.no_dryers = NoDryers(self.session)
        self._fields.addWidget(self.no_dryers, 0, Qt.AlignmentFlag.AlignLeft)
        self._fields.insertWidget(0, self.offer)
        self._fields.insertWidget(1, self.memory)
        self._fields.insertWidget(2, self.kept.offer)
        self._fields.addWidget(self.entries.mix_button, 0, Qt.AlignmentFlag.AlignLeft)
        self._fields.addWidget(self.entries.mix)
        self._fields.addWidget(self.still)
        self.more_button = button(_MORE, self._ask_more, "quiet", hint="Alt+M")
        self.more_button.setCheckable(True)
        self.more_button.setShortcut("Alt+M")
        self._fields.addWidget(self.more_button, 0, Qt.AlignmentFlag.AlignLeft)
        self.more = QWidget()
        more = QGridLayout(self.more)
        more.setContentsMargins(0, 0, 0, 0)
        more.setHorizontalSpacing(16)
        more.setVerticalSpacing(6)
        self.entries.lay_out_more(more)
        self._fields.addWidget(self.more)
        self._fields.addStretch(1)
        self.more.hide()
        answer = QWidget()
        beside = column(answer, space=10)
        beside.addWidget(text_label("Results", "heading"))
        beside.addWidget(self.nothing_yet)
        beside.addWidget(self.preview)
        beside.addStretch(1)
        self.preview.hide()
        self.save_button = button("&Save", self.save, "primary", hint="Enter or Ctrl+S")
        self.leave_button = button("Close", self.left.emit, hint="Esc; what you typed is kept")
        self.clear_button = button("&Clear", self.clear, "quiet", hint="Clear the form")
        typing = QWidget()
        left = column(typing, space=12)
        self.area = scrolling(page, keeps=True)
        left.addWidget(self.area, 1)
        left.addLayout(row(self.save_button, self.leave_button, 1, self.clear_button))
        both = side_by_side(typing, scrolling(answer), sizes=(1100, 1000), least=(400, 330), gap=28, enough=280)
        inside = column(self, margin=0, space=12)
        inside.addWidget(self.heading)
        inside.addWidget(both, 1)
        for offer in (self.offer, self.kept.offer):
            offer.stand_before(self.entries.food)

    # --- what stands in it ---------------------------------------------------------------------------------

    def typed(self) -> TypedBatch:
        """Every entry as typed."""
        return self.entries.typed()

    def is_blank(self) -> bool:
        """Whether nothing was typed: a remembered habit is not typing."""
        typed = self.typed()
        return not typed.parts and all(self._remembered.get(name) == text for name, text in typed.given.items())

    def new(self, kept: TypedBatch | None = None) -> None:
        """A new batch, from the top; `kept` is a draft to go on with."""
        self.kept.rest()
        self.editing, self._before, self._remembered, self._asked = None, TypedBatch(), {}, ""
        self.heading.setText("Log a batch")
        self.memory.hide()
        self.still.setChecked(False)
        self.entries.refresh()
        self.no_dryers.look()
        self.entries.show(kept or TypedBatch())
        self._toggle_more(self.entries.has_more())
        self._to_top()
        self.answer()
        self.preview.in_order(self.clear_button)

    def _to_top(self) -> None:
        """Show the first entry, and let what is typed next replace what stands in it."""
        self.area.verticalScrollBar().setValue(0)
        self.entries.food.edit.selectAll()

    def edit(self, batch: Batch) -> None:
        """Change a recorded batch."""
        self.kept.rest()
        kitchen = self.session.kitchen
        self.editing, self._asked = batch, ""
        self.heading.setText(f"Edit batch {batch.id}")
        self.memory.hide()
        self.still.setChecked(batch.state != FINISHED)
        self.entries.refresh()
        self.no_dryers.look()
        self._remembered = {}
        self._parts = parts_of(kitchen, batch.id)
        self._before = typed_from(kitchen, BatchDraft(batch, self._parts), self.session.style)
        self.entries.show(self._before)
        self._before = self.typed()
        self.offer.hide()
        self.kept.shown(batch.id)
        self._toggle_more(self.entries.has_more())
        self._to_top()
        self.answer()
        self.preview.in_order(self.clear_button)

    def clear(self) -> None:
        """Empty the form."""
        if self.editing is not None:
            self.edit(self.editing)
        else:
            self.new()
        self.entries.food.setFocus()

    def _remember(self, food: Food | None) -> None:
        """Fill in how this food was dried last time, where nothing else was typed."""
        if food is None or self.editing is not None:
            return
        kitchen = self.session.kitchen
        before, self._remembered = self._remembered, {}
        draft = typed_from(kitchen, draft_for(kitchen, food.slug), self.session.style)
        for name, text in self.entries.habits(draft).items():
            if self.entries.text(name) in ("", before.get(name, "")):
                self.entries.set_text(name, text)
                self._remembered[name] = text
        last = last_batch_of(kitchen, food.slug)
        self.memory.setVisible(last is not None)
        if last is not None:
            self.memory.setText(
                f"Cut, dryer, trays and temperature are as in batch {last.id}; change what differs."
            )
        self.answer()

    # --- answering -------------------------------------------------------------------------------------------

    def answer(self) -> None:
        """Show what the entries come to, as far as they can be read."""
        self._pause.stop()
        food = self.entries.food.value()
        named = self.entries.mix.foods()
        self.entries.show_for(self.entries.foods())
        self._fit_mix()
        card, typed, most = None, self.entries.typed(only_right=True), OF_A_PLANT
        if food is not None:
            try:
                draft = self._with_the_unweighed(self._draft(typed))
                card = draft_card(self.session.kitchen, draft)
                most = most_for(batch_facts(self.session.kitchen, draft).kinds)
            except InputProblem:
                card = None
        self.entries.mix.show_stops(self._cautions(Batch(""), named) if card is None and named else ())
        self.preview.set_card(card, most=most)
        self.nothing_yet.setVisible(card is None)

    def _cautions(self, batch: Batch, named: Sequence[Food]) -> tuple[Caution, ...]:
        """What must be known of a batch with these ingredients, weighed or not."""
        parts = [BatchPart(0, place, known.slug, Mass(0.0)) for place, known in enumerate(named)]
        return batch_cautions(self.session.kitchen, batch, parts)

    def _fit_mix(self) -> None:
        """Show the ingredients where the food is a mix, and how much of the load they come to."""
        self.entries.show_mix()
        self.entries.food.own_category = "mixed" if self.entries.parts() else ""
        loaded = self.entries.fields["fresh"].value()
        self.entries.mix.show_sum(loaded)

    def save(self) -> None:
        """Record the batch, or say at the entry concerned why not."""
        if not self.entries.food.require("Which food was it? Type its name, such as sweet corn."):
            self.entries.food.setFocus()
            return
        wrong = self.entries.first_wrong()
        if wrong is not None:
            wrong.point_out()
            return
        draft = self.session.attempt(self._draft, self.typed())
        if draft is None:
            self._mark()
            return
        if self._asks(doubted_weights(self.session.kitchen, draft)):
            return
        if self.editing is None:
            done = self.session.act(log_batch, draft)
        else:
            done = self.session.act_on((self.editing, *self._parts), edit_batch, self.editing.id, draft)
        if done is None:
            self._mark()
            return
        id = self.editing.id if self.editing is not None else done.record.id
        self.kept.saved()
        self.new()
        self.saved.emit(id)

    def _asks(self, question: str) -> bool:
        """Whether weights that can't be true are asked about now; saving once more keeps them as they are."""
        if question in ("", self._asked):
            return False
        self._asked, dried = question, self.entries.fields["dried"]
        mark_problem(InputProblem(f"{question} To keep it so, save again.", dried.name), [dried])
        dried.problem = None  # It may be kept.
        return True

    def _draft(self, typed: TypedBatch) -> BatchDraft:
        state = DRYING if self.still.isChecked() else FINISHED
        draft = draft_from(self.session.kitchen, typed, state)
        if self.editing is None:
            return draft
        kept = keep_unchanged(draft, self.editing, typed, self._before)
        changed = self.still.isChecked() != (self.editing.state != FINISHED)
        return replace(kept, batch=replace(kept.batch, state=state if changed else self.editing.state))

    def _with_the_unweighed(self, draft: BatchDraft) -> BatchDraft:
        """With each ingredient that is named and has no weight yet: what must be known of it waits for none."""
        weighed = {part.food for part in draft.parts}
        named = [food.slug for food in self.entries.mix.foods() if food.slug not in weighed]
        return replace(draft, parts=(*draft.parts, *(BatchPart(0, 0, slug, Mass(0.0)) for slug in named)))

    def _mark(self) -> None:
        problem = self.session.problem
        if problem is not None:
            self.entries.mark(InputProblem(problem.said, FIELD_NAMES.get(problem.field, problem.field)))

    # --- small things ------------------------------------------------------------------------------------------

    def _show_still(self, still: bool) -> None:
        self.entries.show_still(still)
        self._pause.start()

    def _ask_more(self) -> None:
        """Open or fold what else can be written down, and keep the keyboard where it can be seen."""
        self._toggle_more(self.more_button.isChecked())
        first = self.entries.fields[FIRST_OF_MORE] if self.more_button.isChecked() else self.more_button
        first.setFocus()

    def _toggle_more(self, on: bool) -> None:
        self.more_button.setChecked(on)
        self.more.setVisible(on)
        self.more_button.setText("Fewer fields" if on else _MORE)
        self.more_button.setShortcut("Alt+M")
