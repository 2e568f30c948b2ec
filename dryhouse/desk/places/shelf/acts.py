"""The small forms for what is done with a lot. Enter saves, Esc leaves; every act can be taken back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.cautions import stops_in_brief
from dryhouse.desk.places.shelf.date_field import DateField
from dryhouse.desk.places.shelf.lot_fields import PlaceField
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, empty, inner_key, row, scrolling, tab_through, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.choices import may_be_narrow
from dryhouse.desk.widgets.draft import Draft, keep_entries
from dryhouse.desk.widgets.fields import ChoiceField, Field, QuantityField, TextField, first_problem, mark_problem
from dryhouse.desk.widgets.moment_field import MomentField
from dryhouse.kitchen.cautions.cautions import cautions_for, lot_facts
from dryhouse.kitchen.ports import Done, Record
from dryhouse.kitchen.records import Lot, LotCheck, LotDraw, LotMove, Place
from dryhouse.kitchen.records.lots import COOKED, GIVEN
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.shelf.conditioning import days_needed, pasteurise, treatments
from dryhouse.kitchen.shelf.lots import (
    Found,
    check_lot,
    draw,
    edit_lot,
    move,
    open_lot,
    present,
    redry,
    remove_move,
    throw_out,
    weight_of,
)
from dryhouse.science.quantities import Mass, parse_amount
from dryhouse.science.safety.unfolded import most_for
from dryhouse.science.values import Caution
from dryhouse.words.dates import clock, day_words

Keep = Callable[[], Done[Record] | None]


class TakenField(QuantityField):
    """How much of a lot is taken, by weight or by measure."""

    def __init__(self, session: Session, lot: int) -> None:
        self._lot = lot
        super().__init__(session, "How much", Mass, hint="such as 1/4 cup; empty takes all", name="mass")

    def read(self, text: str) -> Mass:
        comma = self.session.style.decimal_comma
        amount = parse_amount(text, default_unit=self.default_unit, decimal_comma=comma)
        return amount if isinstance(amount, Mass) else weight_of(self.session.kitchen, self._lot, amount)


class ActForm(QWidget):
    """One form at a time, for one lot or many."""

    left = Signal()
    """It was saved or left."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.fields: dict[str, Field | ChoiceField] = {}
        self._keep: Keep = lambda: None
        self.heading = text_label("", "heading")
        self.sentence = text_label("", "muted")
        self.stops = text_label("", "problem")
        """The stops in brief, above the entries; below them the cautions in full."""
        self.cautions = CautionsView(session)
        self.save_button = button("&Save", self.save, "primary", hint="Enter")
        page = QWidget()
        self._entries = column(space=4)
        inside = column(page, space=8)
        inside.addLayout(self._entries)
        inside.addWidget(self.cautions)
        inside.addStretch(1)
        outer = column(self, space=10)
        outer.addWidget(self.heading)
        outer.addWidget(self.sentence)
        outer.addWidget(self.stops)
        outer.addWidget(scrolling(page), 1)
        self.leave_button = button("Cl&ose", self._leave, hint="Esc; what you typed is kept")
        outer.addLayout(row(self.save_button, self.leave_button, 1))
        inner_key(self, "Esc", self._leave)
        self.kept = keep_entries(session, "lot", self, lambda: self.fields.values())
        outer.insertWidget(1, self.kept.offer)
        self.draft = Draft()
        self._of: tuple[str, tuple[int, ...]] = ("", ())
        session.changed.connect(self.draft.drop)

    def begin(self, act: str, lots: Sequence[int], title: str) -> None:
        """Show the form of an act for these lots; `title` says which."""
        self.kept.rest(act, *lots)
        self._of = (act, tuple(lots))
        if self.draft.stands(self._of):
            next(iter(self.fields.values())).setFocus()
            return
        made = {
            "move": self._move, "draw": self._draw, "check": self._check, "open": self._open,
            "redry": self._redry, "conditioning": self._condition, "insects": self._insects,
            "throw_out": self._throw_out,
            "move_back": self._move_back,
        }[act]  # fmt: skip
        heading, sentence, self.fields, self._keep = made(list(lots))
        self.heading.setText(f"{heading} {title}")
        self.sentence.setText(sentence)
        self.sentence.setVisible(bool(sentence))
        empty(self._entries)
        for field in self.fields.values():
            self._entries.addWidget(field)
            field.changed.connect(self._caution)
            if isinstance(field, Field):
                field.accepted.connect(self.save)
            else:
                may_be_narrow(field.box)
        self._caution()
        self.kept.shown(f"{act} {' '.join(map(str, lots))}")
        tab_through(*self.fields.values(), *self.cautions.tab_stops(), self.save_button, self.leave_button)
        next(iter(self.fields.values())).setFocus()

    def _caution(self) -> None:
        """What must be known of these lots: where they would go, and with what a look would have found."""
        (act, lots), kitchen = self._of, self.session.kitchen
        said: list[Caution] = []
        kinds: set[str] = set()
        for lot in (kitchen.journal.get(Lot, number) for number in lots):
            if lot is None:
                continue
            facts = lot_facts(kitchen, lot, place=self._value("place") if act == "move" else None)
            if act == "check":
                facts = replace(
                    facts,
                    checked=True,
                    moist=True if self._value("moist") else facts.moist,
                    mould=True if self._value("mould") else facts.mould,
                    smell=True if self._value("smell") else facts.smell,
                )
            said += cautions_for(facts)
            kinds |= facts.kinds
        self.cautions.set_cautions(said, most_for(kinds))
        self.stops.setText(stops_in_brief(said))
        self.stops.setVisible(bool(self.stops.text()))

    def _leave(self) -> None:
        self.draft.leave(self._of)
        self.left.emit()

    def save(self) -> None:
        """Save what was entered; a refusal is shown at the entry it names, and nothing has changed."""
        wrong = first_problem(self.fields.values())
        if wrong is not None:
            wrong.point_out()
            return
        if self._keep() is None:
            mark_problem(self.session.problem, self.fields.values())
            return
        self.kept.saved()
        self.left.emit()

    # --- the forms -------------------------------------------------------------------------------------

    def _value(self, name: str) -> Any:
        return self.fields[name].value()

    def _move(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        place = PlaceField(self.session, label_of(LotMove, "place"))
        fields = {
            "place": place,
            "at": MomentField(self.session, label_of(LotMove, "at"), hint="now", name="at"),
        }
        sentence = (
            "You can enter a past date; the keep-by is recalculated from it."
            if place.box.count() > 1
            else "Add a place first."
        )

        def keep() -> Done[Record] | None:
            if not place.require():
                place.setFocus()
                return None
            return self.session.act(move, lots, place.value() or 0, self._value("at"))

        return "Move", sentence, fields, keep

    def _draw(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        purposes = ((COOKED, "For cooking or eating"), (GIVEN, "Given away"))
        fields = {
            "mass": TakenField(self.session, lots[0]),
            "purpose": ChoiceField(self.session, label_of(LotDraw, "purpose"), purposes, name="purpose"),
            "on": self._day("on"),
            "note": TextField(self.session, label_of(LotDraw, "note"), name="note"),
        }

        def keep() -> Done[Record] | None:
            more = {name: self._value(name) for name in ("purpose", "on")}
            return self.session.act(draw, lots[0], self._value("mass"), note=self._value("note") or "", **more)

        return "Take some of", "", fields, keep

    def _check(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        moist = ((None, "Not looked at"), (False, "Dry, no drops on the lid"), (True, "Moist, or drops on the lid"))
        mould = ((None, "Not looked at"), (False, "None seen"), (True, "Mold seen"))
        fields = {
            "moist": ChoiceField(self.session, label_of(LotCheck, "moist"), moist, name="moist"),
            "mould": ChoiceField(self.session, label_of(LotCheck, "mould"), mould, name="mould"),
            "smell": TextField(
                self.session,
                label_of(LotCheck, "smell"),
                hint="empty where there is none; never taste",
                name="smell",
            ),
            "mass": QuantityField(
                self.session, label_of(LotCheck, "mass"), Mass, hint="without the jar", name="mass"
            ),
            "on": self._day("on"),
            "note": TextField(self.session, label_of(LotCheck, "note"), name="note"),
        }

        def keep() -> Done[Record] | None:
            return self.session.act(
                check_lot,
                lots[0],
                Found(
                    moist=self._value("moist"),
                    mould=self._value("mould"),
                    smell=self._value("smell") or "",
                    mass=self._value("mass"),
                    note=self._value("note") or "",
                ),
                self._value("on"),
            )

        return "Check", "Write down what you saw. What was not looked at stays unknown.", fields, keep

    def _open(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        fields = {"on": self._day("opened_on")}
        sentence = "An opened lot is “check first” until a check finds it dry."
        return "Open", sentence, fields, lambda: self.session.act(open_lot, lots[0], self._value("on"))

    def _throw_out(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        fields = {"on": self._day("on"), "note": TextField(self.session, "Why", hint="if you like", name="note")}
        sentence = "All that is left is recorded as thrown out once you save. Undo brings it back."

        def keep() -> Done[Record] | None:
            return self.session.act(throw_out, lots, self._value("on"), self._value("note") or "")

        return "Throw out", sentence, fields, keep

    def _redry(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        fields = {"on": self._day("redried_on")}
        sentence = "Drying again does not bring back the time it has kept. Check it once it has cooled."
        return "Dry again", sentence, fields, lambda: self.session.act(redry, lots[0], self._value("on"))

    def _condition(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        lot = present(self.session.kitchen, lots[0])
        fields = {
            "conditioned_from": DateField(self.session, label_of(Lot, "conditioned_from"), name="conditioned_from"),
            "conditioned_to": DateField(self.session, label_of(Lot, "conditioned_to"), name="conditioned_to"),
        }
        for name, field in fields.items():
            field.set_value(getattr(lot, name))
        sentence = (
            f"Dried fruit: {days_needed()} days in loosely filled, covered jars, shaken daily; note each look with "
            "Check."
        )

        def keep() -> Done[Record] | None:
            values = {name: self._value(name) for name in ("conditioned_from", "conditioned_to")}
            now = present(self.session.kitchen, lots[0])
            return self.session.act_on([lot], edit_lot, replace(now, **values))

        return "Condition", sentence, fields, keep

    def _insects(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        kitchen = self.session.kitchen
        known = present(kitchen, lots[0]).pasteurised
        none_after_all = [("", "Remove this record")] if known else []
        ways = [*((t.words, t.words) for t in treatments()), *none_after_all]
        fields = {
            "pasteurised": ChoiceField(
                self.session, label_of(Lot, "pasteurised"), ways, name="pasteurised", editable=True
            ),
            "on": self._day("on"),
        }
        sentence = "A treatment against insects is no kill step for germs."
        if known:
            sentence += f" Recorded so far: {known}."

        def keep() -> Done[Record] | None:
            how = self._value("pasteurised") or ""
            if not how and known:
                return self.session.act(edit_lot, replace(present(kitchen, lots[0]), pasteurised=""))
            return self.session.act(pasteurise, lots[0], how, self._value("on"))

        return "Against insects:", sentence, fields, keep

    def _move_back(self, lots: list[int]) -> tuple[str, str, dict[str, Any], Keep]:
        kitchen = self.session.kitchen
        made = sorted(kitchen.journal.where(LotMove, lot=lots[0]), key=lambda m: (m.at, m.id), reverse=True)
        names = {p.id: p.name for p in kitchen.journal.where(Place)}
        said = [(m.id, f"{self._moment(m)}, to the {names.get(m.place, 'place removed')}") for m in made]
        fields = {"move": ChoiceField(self.session, "Which move", said, name="move")}
        sentence = (
            "It is removed from the lot's history and the keep-by is recalculated."
            if said
            else "No move of this lot is recorded."
        )

        def keep() -> Done[Record] | None:
            return self.session.act(remove_move, self._value("move") or 0)

        return "Undo a move of", sentence, fields, keep

    def _moment(self, made: LotMove) -> str:
        here = self.session.kitchen.local(made.at)
        return f"{day_words(here.date())} {clock(here)}"

    def _day(self, name: str) -> DateField:
        return DateField(self.session, "On", hint="today", name=name)
