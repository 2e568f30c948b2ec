"""One running batch in one strip: how far it is, when it will be done, and the entry for the scale's reading."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPaintEvent
from PySide6.QtWidgets import QFrame, QLabel, QMenu, QWidget

from dryhouse.desk.icons import pixmap
from dryhouse.desk.places.dryer.questions import Questions
from dryhouse.desk.places.dryer.reading_entry import ReadingEntry, weighings_in
from dryhouse.desk.session import Session
from dryhouse.desk.theme import set_role
from dryhouse.desk.widgets.basics import button, column, row, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.choices import may_be_narrow
from dryhouse.desk.widgets.draft import Kept, KeptForm, kept_entries, put_back
from dryhouse.desk.widgets.fields import ChoiceField, QuantityField
from dryhouse.desk.widgets.moment_field import MomentField
from dryhouse.desk.widgets.pressable import draw_focus
from dryhouse.kitchen.cautions.cautions import batch_facts
from dryhouse.kitchen.dryer.drying import remembered_tare
from dryhouse.kitchen.dryer.happenings import add_event
from dryhouse.kitchen.dryer.run_words import (
    aside_words,
    bands_words,
    finish_words,
    judged_words,
    last_words,
    left_out_words,
    likely_words,
    paused_words,
    state_words,
)
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.dryer.scale_style import scale_style
from dryhouse.kitchen.dryer.typed_happenings import Happening
from dryhouse.kitchen.dryer.weigh_in import OF
from dryhouse.kitchen.records import Weighing
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.records.weighings import HEAT_CHANGED, LOAD, PAUSED, RESUMED, TRAY, TURNED
from dryhouse.science.display import duration
from dryhouse.science.quantities import Mass, Temperature
from dryhouse.science.safety.unfolded import most_while_drying
from dryhouse.words.messages import message_words

SCOPE_WORDS = {**OF, TRAY: "one tray"}


def with_unit(mass: Mass, unit: str) -> Mass:
    """A mass typed as a bare number, with the unit it was read in, so that it stays that mass."""
    return mass if any(c.isalpha() for c in mass.typed) else replace(mass, typed=f"{mass.typed} {unit}")


class Strip(QFrame):
    """Type what the scale shows and press Enter. `chosen` fires when the keyboard or the mouse comes here."""

    chosen = Signal(int)
    take_off_asked = Signal(int)
    weighings_asked = Signal(int)
    file_asked = Signal(int)
    instrument_asked = Signal(int)

    def __init__(self, session: Session, run: DryingRun) -> None:
        super().__init__()
        self.session, self.run = session, run
        self.is_chosen = False
        set_role(self, "card")
        self.heading = text_label("", "heading")
        self.shape = QLabel()
        self.verdict = text_label("", "label", wrap=False)
        self.clock = text_label("", "muted")
        self.state = text_label("")
        self.finish = text_label("", "label")
        self.bands = text_label("", "muted")
        self.questions = Questions(session)
        self.asks = text_label("", "small")
        self.slow = text_label("", "small")
        self.cautions = CautionsView(session)
        self.entry = ReadingEntry(session, run)
        self.reading = self.entry.field
        self.scope = ChoiceField(session, "What is on the scale", OF.items(), name="scope")
        self.tare = QuantityField(session, "Empty tray (tare)", Mass, name="tare", allow_zero=True)
        self.at = MomentField(session, label_of(Weighing, "at"), hint="now", name="at")
        self.heat = QuantityField(session, label_of(Weighing, "dryer_temperature"), Temperature, hint="not read")
        self.heat_to = QuantityField(session, "Changed to", Temperature, name="temperature")
        self._aside = (self.tare, self.at, self.heat)
        typed = (self.reading, self.scope, *self._aside)
        self.kept = KeptForm(session, "weighing", self, lambda: kept_entries(typed), partial(_put_back, self))
        self._build()
        self.reading.accepted.connect(self.weigh)
        self.entry.recorded.connect(self._recorded)
        self.scope.changed.connect(self._name_reading)
        for field in self._aside:
            field.accepted.connect(self.weigh)
        self.heat_to.accepted.connect(self._note_heat)
        for field in (self.reading, self.tare, self.at, self.heat, self.heat_to):
            field.edit.installEventFilter(self)
        session.theme.changed.connect(self._show_verdict)
        self.show_run(run)
        self.kept.shown(run.batch.id)

    def _build(self) -> None:
        self.weigh_button = button("&Weigh", self.weigh, "primary", hint="Enter")
        may_be_narrow(self.scope.box, 11)
        self.note_button = button("&Note", lambda: None, name="Note what happened")
        self.note_button.setMenu(self._note_menu())
        self.off_button = button("Take &off", lambda: self.take_off_asked.emit(self.run.batch.id))
        self.more_button = button("Mo&re", lambda: None, name="More for this batch")
        self.more_button.setMenu(self._more_menu())
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.customContextMenuRequested.connect(
            lambda where: self.more_button.menu().popup(self.mapToGlobal(where))
        )
        every = (self.weigh_button, self.note_button, self.off_button, self.more_button)
        self._lettered = [(made, made.text()) for made in every]
        """Buttons and their words; only those of the chosen strip have a letter for Alt."""
        inside = column(self, margin=14, space=4)
        head = row(self.heading, self.shape, self.verdict, space=6)
        head.setStretch(0, 1)
        inside.addLayout(head)
        said = (self.state, self.clock, self.finish, self.bands, self.slow, self.asks)
        for label in said:
            inside.addWidget(label)
        inside.insertWidget(inside.indexOf(self.asks), self.questions)
        inside.addWidget(self.cautions)
        inside.addSpacing(4)
        inside.addWidget(self.kept.offer)
        entry = row(self.reading)
        entry.setStretch(0, 1)
        entry.addWidget(self.weigh_button, 0, Qt.AlignmentFlag.AlignBottom)
        self.scope.sentence.hide()
        inside.addLayout(entry)
        inside.addWidget(self.reading.sentence_apart())
        inside.addWidget(self.entry.asked)
        self.more = QWidget()
        more = column(self.more, space=4)
        more.addLayout(row(self.scope, self.tare, space=16))
        more.addLayout(row(self.at, self.heat, space=16))
        inside.addWidget(self.more)
        self.more.hide()
        self.heat_row = QWidget()
        self.heat_row.setLayout(row(self.heat_to, button("Save", self._note_heat), 1))
        inside.addWidget(self.heat_row)
        self.heat_row.hide()
        inside.addLayout(row(self.off_button, self.note_button, self.more_button, 1, space=8))

    def _note_menu(self) -> QMenu:
        menu = QMenu(self)
        menu.addAction("Trays turned", lambda: self._note(Happening(TURNED)))
        menu.addAction("Temperature changed …", self._ask_heat)
        for said, begun in (
            ("A note …", "note: "),
            ("A tray taken off early …", "tray off "),
            ("A tray put in later …", "tray in "),
            ("Trays to another dryer …", "1 tray to "),
        ):
            menu.addAction(said, partial(self.entry.begin, begun))
        self.pause_action = menu.addAction("Paused", self._pause)
        return menu

    def _more_menu(self) -> QMenu:
        menu, batch = QMenu(self), self.run.batch.id
        menu.addAction("What was weighed, tare, time, dryer temperature …", self.ask_more)
        menu.addAction("Weighings …\tCtrl+L", lambda: self.weighings_asked.emit(batch))
        menu.addAction("Weighings from a file …\tCtrl+I", lambda: self.file_asked.emit(batch))
        menu.addAction("Start another like this …", lambda: self.session.open("drying", "like", batch))
        menu.addAction("A scale or logger that reports by itself …", lambda: self.instrument_asked.emit(batch))
        menu.addAction("A sheet to write weighings on …", lambda: print_sheet(self))
        menu.addAction("Batch in the Journal", lambda: self.session.open("journal", "batch", batch))
        return menu

    # --- showing ---------------------------------------------------------------------------------------------

    def show_run(self, run: DryingRun) -> None:
        """Show where the batch stands now. What is being typed stays."""
        self.run = run
        style = scale_style(run, self.session.style)
        name = f"{run.title[:1].upper()}{run.title[1:]}"
        self.heading.setText(f"{name}, batch {run.batch.id}")
        self._show_verdict()
        kinds = batch_facts(self.session.kitchen, run.batch).kinds
        self.cautions.set_cautions(run.cautions, most_while_drying(run.cautions, kinds))
        slow = run.expected.slow_day
        _say(self.slow, "" if slow is None else message_words(slow, self.session.style))
        self.questions.show_run(run)
        said = (*run.asks, left_out_words(run), aside_words(self.session.kitchen, run, style))
        _say(self.asks, "\n".join(filter(None, said)))
        self.tick()
        self._remember(run)
        self.setAccessibleName(f"{name}, batch {run.batch.id}: {self.finish.text()}")

    def tick(self) -> None:
        """Move the clock and what is said of the time; nothing is reckoned anew."""
        kitchen, run = self.session.kitchen, self.run
        self.state.setText(state_words(kitchen, run, self.session.style))
        self.state.setToolTip(last_words(kitchen, run, self.session.style))
        drying = duration(run.clock.hours(kitchen.now()) * 3600)
        self.clock.setText(f"{drying} of drying{paused_words(kitchen, run)}")
        self.clock.setVisible(bool(paused_words(kitchen, run)))
        sentence = finish_words(kitchen, run)
        bands = bands_words(kitchen, run)
        self.finish.setText(sentence.removesuffix(bands).strip())
        _say(self.bands, likely_words(kitchen, run))
        self.bands.setToolTip(bands)

    def _show_verdict(self) -> None:
        run = self.run
        name = run.verdict.name if run.verdict else ""
        tint = self.session.theme.tokens.tint(name)
        self.verdict.setText(name[:1].upper() + name[1:])
        self.verdict.setStyleSheet(f"color: {tint.ink};")
        self.verdict.setToolTip(judged_words(run, self.session.style))
        self.shape.setPixmap(pixmap(tint.shape, tint.ink, 20))
        for label in (self.shape, self.verdict):
            label.setVisible(bool(name))

    def _remember(self, run: DryingRun) -> None:
        """The unit, the scope and the tare of the last weighing stand ready."""
        self.entry.show_run(run)
        weighings = weighings_in(run)
        self.tare.set_unit(self.reading.default_unit)
        if weighings and not self.reading.text():
            self.scope.set_value(next((w.scope for w in reversed(weighings) if w.scope in OF), LOAD))
        self._name_reading()
        tare = remembered_tare(weighings, self.scope.value())
        self.tare.set_hint(
            f"{tare.typed or self.session.style.show(tare)}, as last" if tare and tare.si else "none"
        )
        self.pause_action.setText("Resume" if run.clock.paused_since else "Paused")

    def _name_reading(self) -> None:
        """What is weighed stands over the entry, unless it is the whole load."""
        scope = self.scope.value()
        self.reading.label.setText("Scale reading" if scope == LOAD else f"Scale reading, {SCOPE_WORDS[scope]}")

    def set_chosen(self, chosen: bool) -> None:
        """Mark this strip as the one whose chart is shown."""
        self.is_chosen = chosen
        for made, text in self._lettered:
            made.setText(text if chosen else text.replace("&", ""))
        self.update()

    # --- acts --------------------------------------------------------------------------------------------------

    def weigh(self) -> None:
        """Record what stands in the entry."""
        if any(f.problem is not None for f in (self.tare, self.at, self.heat)):
            return
        named: dict[str, Any] = {"scope": self.scope.value()}
        if self.heat.value() is not None:
            named["heat"] = self.heat.value()
        if self.tare.value() is not None:
            named["tare"] = with_unit(self.tare.value(), self.tare.default_unit)
        if self.at.value() is not None:
            named["at"] = self.at.value()
        if not self.entry.weigh(**named):
            problem = self.session.problem
            field = {"tare": self.tare, "at": self.at}.get(problem.field if problem else "")
            if problem is not None and field is not None:
                field.show_problem(problem)

    def _recorded(self) -> None:
        for entry in self._aside:
            entry.set_value(None)
        self.kept.saved()

    def _note(self, what: Happening) -> None:
        self.session.act(add_event, self.run.batch.id, what)
        self.reading.setFocus()

    def _pause(self) -> None:
        self._note(Happening(RESUMED if self.run.clock.paused_since else PAUSED))

    def _ask_heat(self) -> None:
        self.heat_row.show()
        self.heat_to.setFocus()

    def _note_heat(self) -> None:
        if self.heat_to.require("To what temperature? Type it, such as 135 F."):
            self._note(Happening(HEAT_CHANGED, temperature=self.heat_to.value()))
            self.heat_to.set_value(None)
            self.heat_row.hide()

    def ask_more(self) -> None:
        """Show the entries for tare, time and dryer temperature, or put them away."""
        self.more.setVisible(self.more.isHidden())
        (self.reading if self.more.isHidden() else self.tare).setFocus()

    # --- choosing ------------------------------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusIn:
            self.chosen.emit(self.run.batch.id)
        return super().eventFilter(watched, event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self.reading.setFocus()
        super().mousePressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.is_chosen:
            draw_focus(self, self.session.theme.tokens.accent, self.session.theme.tokens.radius)


def _say(label: QLabel, text: str) -> None:
    label.setText(text)
    label.setVisible(bool(text))


def _put_back(strip: Strip, kept: Kept) -> None:
    """What was begun stands in the entries again."""
    aside = (strip.tare, strip.at, strip.heat)
    put_back((strip.reading, strip.scope, *aside), kept)
    strip.more.setVisible(any(entry.text() for entry in aside))
    strip.reading.setFocus()


def print_sheet(strip: Strip) -> None:
    """A page of blanks for the kitchen clipboard, through the preview."""
    from dryhouse.desk.places.dryer.bench_sheet import bench_sheet
    from dryhouse.desk.widgets.printing import preview_print

    preview_print(strip, bench_sheet(strip.session, strip.run))
