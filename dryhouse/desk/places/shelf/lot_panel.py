"""The chosen lot beside the list: its standing, its keep-by with workings, its cautions, what was done to it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtWidgets import QMenu, QPushButton, QWidget

from dryhouse.desk.places.shelf.listing import lot_name
from dryhouse.desk.places.shelf.state import ShelfState
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import SEEN_HIGH, button, calling, column, row, scrolling, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.desk.widgets.fold import Unfolding
from dryhouse.desk.widgets.status_line import StatusLine
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.calendar import end_of_day, today
from dryhouse.kitchen.cautions.cautions import cautions_for, goes_by_its_date, is_bought
from dryhouse.kitchen.shelf.conditioning import conditioning_of, one_in_words
from dryhouse.kitchen.shelf.lines import ShelfLine
from dryhouse.kitchen.shelf.remaining import amount_words
from dryhouse.kitchen.shelf.shelf import keep_by_figure
from dryhouse.science.safety.unfolded import most_for
from dryhouse.science.statuses import Status
from dryhouse.words.dates import day_words

ACTS = (
    ("move", "&Move", "M"),
    ("draw", "&Take", "T"),
    ("check", "&Check", "C"),
    ("open", "&Open", "O"),
    ("labels", "&Labels", "L"),
    ("redry", "Dry again …", "G"),
    ("conditioning", "Condition …", "D"),
    ("throw_out", "Throw out …", "Del"),
    ("insects", "Treated against insects …", "I"),
    ("move_back", "Undo a wrong move…", "W"),
    ("remove", "Delete this entry", "Shift+Del"),
)
"""What can be done with a lot: the act, its words, its key in the list. From the sixth on they are in the menu
More."""
RUN = ("run_conditioning", "E")
"""Conditioning begins today, or ends today: its button is shown where there is something to begin or end."""
_IN_MENU = 5


class LotPanel(QWidget):
    """The lot in focus. `ask(act)` is called for each button."""

    def __init__(self, session: Session, state: ShelfState, ask: Callable[[str], None]) -> None:
        super().__init__()
        self.session, self.state = session, state
        self.line: ShelfLine | None = None
        self.heading = text_label("", "heading")
        self.status = StatusLine(session.theme)
        self.keep_by = FigureView(session, "Keeps for", brief=True)
        self.facts = text_label("", select=True)
        self.conditioned = text_label("", select=True)
        self.run_button = button(
            "Begin it", lambda: ask(RUN[0]), hint=f"{RUN[1]} in the list; another day: Condition"
        )
        self.history = text_label("", "muted", select=True)
        self.cautions = CautionsView(session)
        self.to_batch = button("Its &batch", self._open_batch, "quiet", hint="Open the batch it came from")
        page = QWidget()
        self.details = Unfolding(session, "Details", self.history, self.to_batch)
        inside = column(page, space=10)
        for widget in (
            self.heading, self.status, self.cautions, self.keep_by, self.facts, self._running(), self.details,
        ):  # fmt: skip
            inside.addWidget(widget)
        inside.addStretch(1)
        self.buttons = {
            act: button(
                text,
                calling(ask, act),
                hint=f"{key} in the list",
            )
            for act, text, key in ACTS[:_IN_MENU]
        }
        self.buttons["more"] = self._more(ask)
        grid = Tiles(*self.buttons.values(), least=84)
        outer = column(self, space=8)
        self._page = scrolling(page, least=SEEN_HIGH)
        outer.addWidget(self._page, 1)
        outer.addLayout(grid)
        self.show_lot(None)

    def _more(self, ask: Callable[[str], None]) -> QPushButton:
        menu = QMenu(self)
        for act, text, key in ACTS[_IN_MENU:]:
            menu.addAction(f"{text}\t{key}", calling(ask, act))
        made = button("Mo&re", lambda: None, name="More for this lot")
        made.setMenu(menu)
        return made

    def _running(self) -> QWidget:
        self.conditioning = QWidget()
        across = row(space=12)
        across.addWidget(self.conditioned, 1)
        across.addWidget(self.run_button)
        self.conditioning.setLayout(across)
        return self.conditioning

    def show_lot(self, id: int | None) -> None:
        """Show the lot of this number; None shows nothing."""
        self.line = self.state.line(id)
        there = self.line is not None
        self._page.setVisible(there)
        for made in self.buttons.values():
            made.setVisible(there)
        if self.line is None:
            return
        line, lot = self.line, self.line.lot
        self.heading.setText(lot_name(line))
        self.status.say(line.standing, "" if _told_by_the_figure(line) else line.reason)
        self.facts.setText("\n".join(self._facts(line)))
        self.history.setText("\n".join(self._history(line)))
        self.to_batch.setVisible(lot.batch is not None)
        self._show_keep_by(line)
        self._show_conditioning(line)
        facts = self.state.facts(lot)
        self.cautions.set_cautions(cautions_for(facts), most_for(facts.kinds))

    def _show_keep_by(self, line: ShelfLine) -> None:
        moment = end_of_day(self.session.kitchen, self.state.day)
        figure = keep_by_figure(self.session.kitchen, line.lot, moment, book=self.state.book)
        on = "" if self.state.on is None else f", seen from {day_words(self.state.day)}"
        if figure is not None and line.keep_by is not None:
            day = line.keeps_until
            title = f"Keeps {day}{on}" if line.at_least else f"Keeps until {day}{on}"
            if figure.value < 0:
                title = f"Since {day}{on}" if _told_by_the_figure(line) else f"Past keep-by ({day}) by"
                figure = replace(figure, value=-figure.value)
            self.keep_by.set_figure(figure, title=title)
        elif line.keep_by is not None and goes_by_its_date(line.lot):
            self.keep_by.set_figure(
                None, "the date printed on its package", title=f"Until {day_words(line.keep_by)}"
            )
        else:
            self.keep_by.set_figure(None, line.reason, title="Keep-by not known")

    def _show_conditioning(self, line: ShelfLine) -> None:
        """How far it has come today, and what can be begun or ended."""
        found = conditioning_of(self.state.book, line.lot, today(self.session.kitchen))
        self.conditioning.setVisible(found is not None)
        if found is not None:
            self.conditioned.setText(one_in_words(found))
            self.run_button.setText("&End it" if found.state in ("running", "moist") else "B&egin it")
            self.run_button.setAccessibleName(f"{self.run_button.text().replace('&', '')}: conditioning, today")
            self.run_button.setVisible(found.state in ("due", "running", "moist"))

    def _facts(self, line: ShelfLine) -> list[str]:
        style, lot = self.session.style, line.lot
        left = amount_words(line.mass_left_g, line.volume_left_ml, style) or "amount not recorded"
        taken = lot.mass is not None and line.mass_left_g is not None and line.mass_left_g < lot.mass.si
        said = [
            f"{left} left of {style.show(lot.mass)}" if taken else left,
            f"{lot.package.capitalize()}, {'bought' if is_bought(lot) else 'packed'} {day_words(lot.packed_on)}"
            + ("" if lot.sealed else ", not sealed"),
            f"In the {line.place}" if line.place else "Its place is not recorded",
        ]
        if lot.pasteurised:
            said.append(f"Against insects: {lot.pasteurised}")
        return said + ([f"“{lot.notes}”"] if lot.notes else [])

    def _history(self, line: ShelfLine) -> list[str]:
        """What happened to it, the newest first."""
        kitchen, style, book, id = self.session.kitchen, self.session.style, self.state.book, line.lot.id
        said = [
            (kitchen.local(m.at).date(), f"to the {book.places[m.place].name}")
            for m in book.moves.get(id, ())
            if m.place in book.places
        ]
        said += [(d.on, f"{d.purpose}: {style.show(d.mass, 'all that was left')}") for d in book.draws.get(id, ())]
        for check in book.checks.get(id, ()):
            found = [
                "moist" if check.moist else "dry" if check.moist is False else "",
                "mold" if check.mould else "",
                f"smell: {check.smell}" if check.smell else "",
                style.show(check.mass, ""),
                check.note,
            ]
            said.append((check.on, "checked: " + (", ".join(f for f in found if f) or "nothing noted")))
        for day, words_ in ((line.lot.opened_on, "opened"), (line.lot.redried_on, "dried again")):
            if day is not None:
                said.append((day, words_))
        said.sort(key=lambda t: t[0])
        return [f"{day_words(day)}  {text}" for day, text in reversed(said)]

    def _open_batch(self) -> None:
        if self.line is not None and self.line.lot.batch is not None:
            self.session.open("journal", "batch", self.line.lot.batch)


def _told_by_the_figure(line: ShelfLine) -> bool:
    """Whether the day it was past its keep-by, and how long ago, is all there is to say of its status."""
    return line.standing == Status.PAST and not line.at_least
