"""Packing a batch: which batch, into how many jars and bags, what each holds and where it goes."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QVBoxLayout, QWidget

from dryhouse.desk.places.shelf.date_field import DateField
from dryhouse.desk.places.shelf.lot_fields import KindField, NoPlaces, PlaceField, in_oil_field
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, empty, inner_key, row, scrolling, tab_through, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.choices import may_be_narrow
from dryhouse.desk.widgets.draft import Draft, KeptForm, kept_entries, put_back
from dryhouse.desk.widgets.fields import ChoiceField, Field, NumberField, QuantityField, first_problem, mark_problem
from dryhouse.desk.widgets.wrapping import Tiles, headed
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.calendar import today
from dryhouse.kitchen.cautions.cautions import batch_facts, lot_cautions
from dryhouse.kitchen.ports import BatchQuery
from dryhouse.kitchen.records import Batch, Lot
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.lots import PACKAGES
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.shelf.conditioning import days_needed
from dryhouse.kitchen.shelf.packing import Package, pack, servings_left, split, split_servings, unpacked_g
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.safety.unfolded import most_for
from dryhouse.science.units import SIZES
from dryhouse.science.values import Caution
from dryhouse.words.dates import day_words
from dryhouse.words.names import capital

_OFFERED = 60
_SLACK_G = 0.5


class PackageRow:
    """The entries of one jar or bag."""

    def __init__(self, session: Session, number: int) -> None:
        self.kind = KindField(session, f"Package {number}")
        self.mass = QuantityField(session, label_of(Lot, "mass"), Mass, hint="such as 80 g", name="mass")
        self.volume = QuantityField(session, label_of(Lot, "volume"), Volume, hint="such as 1 cup", name="volume")
        self.place = PlaceField(session, "Place")
        self.fields = (self.kind, self.mass, self.volume, self.place)
        self.name = ""
        """What the package is called: `1 of 6`, of a pot packed by its servings."""

    def package(self, in_oil: bool | None) -> Package:
        """What was entered."""
        kind = self.kind.value() or PACKAGES[0]
        sealed = kind != "open container"
        return Package(
            kind, self.mass.value(), self.volume.value(), self.place.value(), sealed, self.name, in_oil=in_oil
        )

    def show_share(self, share: Package, style: Style) -> None:
        """An equal share of the batch as it would be typed."""
        self.kind.set_value(share.kind or None)
        self.place.set_value(share.place)
        self.name = share.name
        if share.name:
            self.kind.label.setText(share.name)
            self.kind.box.setAccessibleName(f"Package {share.name}")
        if share.mass is not None:
            self.mass.edit.setText(_share(share.mass.si, style.mass_unit))
        if share.volume is not None:
            self.volume.edit.setText(_share(share.volume.si, style.volume_unit))


class PackForm(QWidget):
    """Batch, count, and a line for each package. `packed` gives the numbers of the new lots."""

    packed = Signal(object)
    left = Signal()
    places_asked = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.rows: list[PackageRow] = []
        self.batch = ChoiceField(session, "Batch", name="batch")
        may_be_narrow(self.batch.box, 24)
        self.packed_on = DateField(session, label_of(Lot, "packed_on"), hint="today", name="packed_on")
        self.count = NumberField(session, "Number of packages", name="count", whole=True, what="number of jars")
        self.kind = KindField(session)
        self.place = PlaceField(session)
        self.in_oil = in_oil_field(session)
        self.conditioned_from = DateField(
            session, label_of(Lot, "conditioned_from"), hint="if it has", name="conditioned_from"
        )
        self.conditioned_to = DateField(
            session, label_of(Lot, "conditioned_to"), hint="if it has", name="conditioned_to"
        )
        self.by_servings = QCheckBox("A bag for each serving")
        self.sum = text_label("", "muted")
        self.more = QCheckBox("More is packed than was weighed dry")
        self.cautions = CautionsView(session)
        self.save_button = button("&Pack", self.save, "primary", hint="Ctrl+Enter")
        grid = QWidget()
        self._grid = QGridLayout(grid)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(12)
        for at, share in enumerate((2, 3, 3, 2)):
            self._grid.setColumnStretch(at, share)
        self._build(grid)
        self.batch.changed.connect(self._batch_chosen)
        self.count.changed.connect(self.split_again)
        self.by_servings.toggled.connect(self._serving_by_serving)
        self.kind.changed.connect(lambda: self._all_rows("kind", self.kind.value()))
        self.place.changed.connect(lambda: self._all_rows("place", self.place.value()))
        for field in (self.packed_on, self.conditioned_from, self.conditioned_to, self.in_oil):
            field.changed.connect(self._caution)
        for keys, act in (("Ctrl+Return", self.save), ("Ctrl+Enter", self.save), ("Esc", self._leave)):
            inner_key(self, keys, act)
        self.kept = KeptForm(session, "pack", self, self._typed, self._put_back)
        outer_layout = self.layout()
        assert isinstance(outer_layout, QVBoxLayout)
        outer_layout.insertWidget(1, self.kept.offer)
        self.kept.offer.stand_before(self.batch)
        self.draft = Draft()
        session.changed.connect(self.draft.drop)
        self.setFocusProxy(self.batch)

    def _build(self, grid: QWidget) -> None:
        page = QWidget()
        inside = column(page, space=8)
        first, third = row(space=12), row(space=12)
        first.addWidget(self.batch, 3)
        first.addWidget(self.packed_on, 1)
        for day in (self.conditioned_from, self.conditioned_to):
            third.addWidget(day, 1)
        self._conditioning = QWidget()
        self._conditioning.setLayout(third)
        self.no_places = NoPlaces(self.session, self.places_asked.emit)
        inside.addWidget(self.no_places)
        inside.addLayout(first)
        inside.addLayout(Tiles(self.count, self.kind, self.place, self.in_oil, least=190, space=12))
        for widget in (self.by_servings, self._conditioning, self.cautions, grid, self.sum, self.more):
            inside.addWidget(widget)
        inside.addStretch(1)
        outer = column(self, space=12)
        back = button("&Back to the shelf", self._leave, hint="Esc; what you typed is kept")
        outer.addLayout(headed("Pack a batch", 1, back))
        outer.addWidget(scrolling(page), 1)
        outer.addLayout(row(self.save_button, 1))

    def begin(self, batch: int | None = None) -> None:
        """Offer what can be packed; choose a batch where one is named."""
        if self.draft.stands(batch):
            self.batch.setFocus()
            return
        kitchen = self.session.kitchen
        ids = list(kitchen.journal.batch_ids(BatchQuery(states=(FINISHED,))))[:_OFFERED]
        if batch is not None and batch not in ids:
            ids.insert(0, batch)
        offered = [b for b in (kitchen.journal.get(Batch, id) for id in ids) if b is not None]
        open_ = [b for b in offered if (left := unpacked_g(kitchen, b)) is None or left > 1 or b.id == batch]
        self.batch.set_choices([(b.id, self._batch_words(b)) for b in open_])
        self.place.offer()
        self.no_places.look()
        self.in_oil.set_value(None)
        if batch is not None:
            self.batch.set_value(batch)
        for field in (self.packed_on, self.conditioned_from, self.conditioned_to):
            field.set_value(None)
        self.more.setChecked(False)
        self.kind.set_value(None)
        self.count.set_value(1)
        self._batch_chosen()
        self.kept.shown()
        self.batch.setFocus()

    def _single(self) -> tuple[Field | ChoiceField, ...]:
        days = (self.packed_on, self.conditioned_from, self.conditioned_to)
        return (self.batch, self.count, self.kind, self.place, self.in_oil, *days)

    def _typed(self) -> Any:
        """What stands here, where it is more than the shares that were offered."""
        return {
            "entries": kept_entries((*self._single(),)),
            "packages": [[f.text() if isinstance(f, Field) else f.value() for f in r.fields] for r in self.rows],
        }

    def _put_back(self, kept: Any) -> None:
        put_back(self._single(), kept["entries"])
        self.split_again()
        for row_, texts in zip(self.rows, kept["packages"], strict=False):
            for name, text in zip(("kind", "mass", "volume", "place"), texts, strict=False):
                field = getattr(row_, name)
                (field.edit.setText if isinstance(field, Field) else field.set_value)(text)

    def _leave(self) -> None:
        self.draft.leave(None)
        self.left.emit()

    def offer_places(self) -> None:
        """Offer the places there are now; what stands here stays."""
        for field in (self.place, *(each.place for each in self.rows)):
            field.offer()
        self.no_places.look()

    def has_batches(self) -> bool:
        """Whether there is anything to pack."""
        return self.batch.box.count() > 0

    def _batch_words(self, batch: Batch) -> str:
        kitchen = self.session.kitchen
        name = capital(batch_name(kitchen, batch))
        when = f", dried {day_words(kitchen.local(batch.ended).date())}" if batch.ended else ""
        rest = unpacked_g(kitchen, batch)
        amount = f", {self.session.style.mass(rest)} to pack" if rest else ""
        return f"{name}, batch {batch.id}{amount}{when}"

    def _chosen(self) -> Batch | None:
        id = self.batch.value()
        return None if id is None else self.session.kitchen.journal.get(Batch, id)

    def _batch_chosen(self) -> None:
        batch, kitchen = self._chosen(), self.session.kitchen
        self._conditioning.setVisible(batch is not None and batch_facts(kitchen, batch).food.category == "fruit")
        self.conditioned_from.set_hint(f"optional; needs {days_needed()} days")
        left = None if batch is None else servings_left(kitchen, batch)
        self.by_servings.blockSignals(True)
        self.by_servings.setVisible(left is not None and round(left) >= 1)
        self.by_servings.setText(f"A bag for each serving ({round(left or 0)} of them)")
        self.by_servings.setChecked(self.by_servings.isVisibleTo(self))
        self.by_servings.blockSignals(False)
        self._serving_by_serving()

    def _serving_by_serving(self) -> None:
        """So many bags as there are servings left, where that is what she wants."""
        batch = self._chosen()
        left = None if batch is None else servings_left(self.session.kitchen, batch)
        if left is not None and self.by_servings.isVisibleTo(self) and self.by_servings.isChecked():
            self.kind.set_value("bag")
            self.count.set_value(round(left))
        self.split_again()

    def _all_rows(self, name: str, value: Any) -> None:
        """The same for every package; what was typed of their masses stays."""
        for made in self.rows:
            getattr(made, name).set_value(value)

    def split_again(self) -> None:
        """A line for each package, with equal shares of what is left to pack."""
        batch, count = self._chosen(), self.count.value()
        if batch is None or not count or count > 200:
            return
        like = Package(self.kind.value() or "", place=self.place.value())
        shares = split(self.session.kitchen, batch, int(count), like)
        if self.by_servings.isVisibleTo(self) and self.by_servings.isChecked():
            by_servings = split_servings(self.session.kitchen, batch, package=like)
            shares = by_servings if len(by_servings) == len(shares) else shares
        empty(self._grid)
        self.rows = [PackageRow(self.session, n) for n in range(1, len(shares) + 1)]
        for n, (made, share) in enumerate(zip(self.rows, shares, strict=True)):
            for at, field in enumerate(made.fields):
                self._grid.addWidget(field, n, at)
            made.show_share(share, self.session.style)
            made.mass.changed.connect(self._add_up)
            for choice in (made.kind, made.place):
                choice.changed.connect(self._caution)
        tab_through(
            self.conditioned_to, *self.cautions.tab_stops(), *(f for r in self.rows for f in r.fields), self.more
        )
        self._add_up()
        self._caution()

    def _caution(self) -> None:
        """What must be known of these packages where they go."""
        batch, kitchen = self._chosen(), self.session.kitchen
        if batch is None:
            self.cautions.set_cautions(())
            return
        day, began, ended = (
            field.value() for field in (self.packed_on, self.conditioned_from, self.conditioned_to)
        )
        like = Lot(batch.food, day or today(kitchen), batch=batch.id, conditioned_from=began, conditioned_to=ended)
        packages = (line.package(self.in_oil.value()) for line in self.rows)
        said: list[Caution] = []
        for kind, sealed, oil, place in dict.fromkeys((p.kind, p.sealed, p.in_oil, p.place) for p in packages):
            lot = replace(like, package=kind, sealed=sealed, in_oil=oil)
            said += lot_cautions(kitchen, lot, place=place)
        self.cautions.set_cautions(said, most_for(batch_facts(kitchen, batch).kinds))

    def _add_up(self) -> None:
        batch = self._chosen()
        together = sum(r.mass.value().si for r in self.rows if r.mass.value() is not None)
        rest = unpacked_g(self.session.kitchen, batch) if batch is not None else None
        style = self.session.style
        said = style.mass(together) if together else "No weight entered"
        if rest is not None:
            part = "All" if together and abs(together - rest) <= _SLACK_G else said
            said = f"{part} of the {style.mass(rest)} to pack"
        self.sum.setText(said)
        over = rest is not None and together > rest * 1.02 + _SLACK_G
        self.more.setVisible(over)

    def save(self) -> None:
        """Pack as entered."""
        batch = self._chosen()
        every = (
            self.packed_on, self.count, self.conditioned_from, self.conditioned_to,
            *(f for r in self.rows for f in r.fields),
        )  # fmt: skip
        wrong = first_problem(f for f in every if f.value() is None)
        if wrong is not None:
            wrong.point_out()
            return
        if batch is None:
            self.batch.show_problem(InputProblem("Choose the batch to pack.", "batch"))
            self.batch.setFocus()
            return
        unnamed = next((r.kind for r in self.rows if not r.kind.require()), None)
        if unnamed is not None:
            (self.kind if self.kind.value() is None else unnamed).setFocus()
            self.kind.require()
            return
        homeless = next((r.place for r in self.rows if not r.place.require()), None)
        if homeless is not None:
            (self.place if self.place.value() is None else homeless).setFocus()
            self.place.require()
            return
        done = self.session.act(
            pack,
            batch.id,
            [r.package(self.in_oil.value()) for r in self.rows],
            packed_on=self.packed_on.value(),
            conditioned_from=self.conditioned_from.value(),
            conditioned_to=self.conditioned_to.value(),
            more_than_dried=self.more.isVisible() and self.more.isChecked(),
        )
        if done is None:
            mark_problem(self.session.problem, every)
            return
        self.packed.emit([c.record.id for c in done.changes if isinstance(c.record, Lot)])


def _share(value: float, unit: str) -> str:
    """An equal share as it would be typed, never rounded up: the shares must not exceed the whole."""
    places = 1 if unit in ("g", "ml") else 2
    return f"{math.floor(value / SIZES[unit] * 10**places) / 10**places:g} {unit}"
