"""Shelving dried food that was bought: what, how much, where, and the date on its package."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from dryhouse.desk.places.shelf.date_field import DateField
from dryhouse.desk.places.shelf.lot_fields import KindField, NoPlaces, PlaceField, in_oil_field
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, scrolling
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.draft import keep_entries
from dryhouse.desk.widgets.fields import Field, QuantityField, TextField, first_problem, mark_problem
from dryhouse.desk.widgets.food_field import FoodField
from dryhouse.desk.widgets.wrapping import Tiles, headed
from dryhouse.kitchen.calendar import today
from dryhouse.kitchen.cautions.cautions import lot_cautions
from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.records.lots import BOUGHT, PACKAGES
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.safety.unfolded import OF_A_PLANT, OF_ANIMAL_FOOD
from dryhouse.science.values import Caution


class BoughtForm(QWidget):
    """One bought package. `shelved` gives the number of the new lot."""

    shelved = Signal(int)
    left = Signal()
    places_asked = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.food = FoodField(session)
        self.name_ = TextField(session, label_of(Lot, "name"), hint="if it has one of its own", name="name")
        self.kind = KindField(session)
        self.mass = QuantityField(session, label_of(Lot, "mass"), Mass, hint="such as 250 g", name="mass")
        self.volume = QuantityField(session, label_of(Lot, "volume"), Volume, hint="such as 2 cups", name="volume")
        self.place = PlaceField(session)
        self.in_oil = in_oil_field(session)
        self.keep_by = DateField(
            session, label_of(Lot, "bought_keep_by"), hint="such as 2027-06-30", name="bought_keep_by", future=True
        )
        self.bought_on = DateField(session, "Bought on", hint="today", name="packed_on")
        self.fields = (
            self.food, self.name_, self.kind, self.mass, self.volume, self.place, self.in_oil,
            self.keep_by, self.bought_on,
        )  # fmt: skip
        self.cautions = CautionsView(session)
        inside = column(self, space=4)
        back = button("&Back to the shelf", self._leave, hint="Esc; what you typed is kept")
        inside.addLayout(headed("Add bought food", 1, back))
        self.no_places = NoPlaces(session, self.places_asked.emit)
        inside.addWidget(self.no_places)
        inside.addWidget(self.cautions)
        page = QWidget()
        page.setLayout(Tiles(*self.fields, least=320, space=16))
        inside.addWidget(scrolling(page), 1)
        for field in self.fields:
            field.changed.connect(self._caution)
            if isinstance(field, Field):
                field.accepted.connect(self.save)
        self.save_button = button("&Add to the shelf", self.save, "primary", hint="Enter")
        inside.addLayout(row(self.save_button, 1))
        inner_key(self, "Esc", self._leave)
        self.kept = keep_entries(session, "bought", self, lambda: self.fields)
        self.offer = self.kept.offer
        inside.insertWidget(1, self.offer)
        self.offer.taken.connect(self._to_the_top)
        self.offer.forgotten.connect(self.food.setFocus)

    def offer_places(self) -> None:
        """Offer the places there are now; what stands here stays."""
        self.place.offer()
        self.no_places.look()

    def begin(self) -> None:
        """Empty entries; what was typed before and left is offered above them."""
        self.kept.rest()
        self.place.offer()
        self.no_places.look()
        self.in_oil.set_value(None)
        self.kind.set_value(None)
        for field in self.fields:
            if isinstance(field, Field):
                field.set_value(None)
        self.kept.shown()
        self.food.setFocus()

    def _caution(self) -> None:
        """What must be known of this package where it goes."""
        food, said = self.food.value(), tuple[Caution, ...]()
        if food is not None:
            lot = Lot(
                food.slug, today(self.session.kitchen), package=self.kind.value() or PACKAGES[0], origin=BOUGHT
            )
            lot = replace(lot, bought_keep_by=self.keep_by.value(), in_oil=self.in_oil.value())
            said = lot_cautions(self.session.kitchen, lot, place=self.place.value())
        self.cautions.set_cautions(said, OF_ANIMAL_FOOD if food is not None and food.animal else OF_A_PLANT)

    def _leave(self) -> None:
        self.left.emit()

    def _to_the_top(self) -> None:
        self.food.setFocus()
        self.food.edit.selectAll()

    def save(self) -> None:
        """Shelve as entered."""
        wrong = first_problem(self.fields)
        if wrong is not None or not self.food.require("Which food is it? Such as apple."):
            (wrong or self.food).setFocus()
            return
        if not self.kind.require():
            self.kind.setFocus()
            return
        if not self.place.require():
            self.place.setFocus()
            return
        package = Package(
            self.kind.value(),
            self.mass.value(),
            self.volume.value(),
            self.place.value(),
            name=self.name_.value() or "",
            in_oil=self.in_oil.value(),
        )
        done = self.session.act(
            shelve, self.food.value().slug, package, self.keep_by.value(), bought_on=self.bought_on.value()
        )
        if done is None:
            mark_problem(self.session.problem, self.fields)
            return
        self.kept.saved()
        self.shelved.emit(done.record.id)
