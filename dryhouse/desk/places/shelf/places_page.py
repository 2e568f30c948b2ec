"""The places of this kitchen and how warm each has been: a list at the left, one place at the right."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.draft import Kept, keep_entries, kept_entries
from dryhouse.desk.widgets.fields import NumberField, QuantityField, TextField, first_problem, mark_problem
from dryhouse.desk.widgets.moment_field import MomentField, show_moment
from dryhouse.desk.widgets.wrapping import Tiles, headed
from dryhouse.kitchen.records import Place, PlaceTemperature
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.kitchen.shelf.places import (
    add_place,
    edit_temperature,
    places,
    remove_place,
    remove_temperature,
    rename_place,
    set_temperature,
    temperatures,
)
from dryhouse.science.quantities import Temperature

_ROLE = Qt.ItemDataRole.UserRole


class PlacesPage(QWidget):
    """Add and name places; note, put right and take back their temperatures."""

    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.place: Place | None = None
        self.row: PlaceTemperature | None = None
        self._shown: Kept = {}
        """What the entries were filled with; what differs from it was typed, and stays when others change."""
        """The temperature being put right; None where another is noted."""
        self.list, self.history = QListWidget(), QListWidget()
        self.list.setAccessibleName("Places")
        hold(self.list, wide=260)
        self.history.setAccessibleName("Temperatures of this place, newest first")
        self.heading = text_label("", "heading")
        self.name_ = TextField(session, label_of(Place, "name"), hint="such as pantry or freezer", name="name")
        self.temperature = QuantityField(
            session, label_of(PlaceTemperature, "temperature"), Temperature, hint="such as 60 F", name="temperature"
        )
        self.humidity = NumberField(
            session, label_of(PlaceTemperature, "humidity_pct"), hint="if known", name="humidity_pct", percent=True
        )
        self.since = MomentField(session, label_of(PlaceTemperature, "since"), hint="now", name="since")
        self.fields = (self.name_, self.temperature, self.humidity, self.since)
        self.kept = keep_entries(session, "place", self, lambda: self.fields)
        self.save_button = button("&Save", self.save, "primary", hint="Enter")
        self.remove_button = button("Remove the place", self.remove)
        self.take_back = button("Remove this temperature", self.remove_row)
        self._build()
        self.list.currentItemChanged.connect(lambda item, _before: self._show(item))
        self.history.itemActivated.connect(lambda item: self._edit_row(item.data(_ROLE)))
        self.history.itemClicked.connect(lambda item: self._edit_row(item.data(_ROLE)))
        self.name_.accepted.connect(self._named)
        for field in self.fields[1:]:
            field.accepted.connect(self.save)
        inner_key(self, "Esc", self.left.emit)

    def _build(self) -> None:
        entries = column(space=8)
        entries.addWidget(self.heading)
        entries.addWidget(self.kept.offer)
        entries.addLayout(Tiles(*self.fields, least=220, space=16))
        entries.addLayout(row(self.save_button, self.take_back, self.remove_button, 1))
        entries.addSpacing(12)
        self.history_named = text_label("Temperatures so far (choose one to correct it)", "label")
        entries.addWidget(self.history_named)
        entries.addWidget(self.history, 1)
        beside = column(space=8)
        beside.addWidget(self.list, 1)
        beside.addWidget(button("&Add a place", self.new))
        across = row(space=28)
        across.addLayout(beside)
        across.addLayout(entries, 1)
        inside = column(self, space=12)
        self.back = button("&Back to the shelf", self.left.emit, hint="Esc")
        inside.addLayout(headed("Places", 1, self.back))
        inside.addLayout(across, 1)

    def refresh(self) -> None:
        """Read the places again."""
        kept, typing = self.place.id if self.place else 0, kept_entries(self.fields) != self._shown
        self.list.blockSignals(True)
        self.list.clear()
        for place in places(self.session.kitchen):
            item = QListWidgetItem(place.name[:1].upper() + place.name[1:])
            item.setData(_ROLE, place)
            self.list.addItem(item)
            if place.id == kept:
                self.list.setCurrentItem(item)
        if self.list.currentItem() is None and self.list.count():
            self.list.setCurrentRow(0)
        self.list.blockSignals(False)
        if typing:
            return
        if self.list.count():
            self._show(self.list.currentItem())
        else:
            self.new()

    def _fit_history(self) -> None:
        """Where no temperature is recorded there is no list of them."""
        for piece in (self.history_named, self.history):
            piece.setVisible(self.history.count() > 0)

    def new(self) -> None:
        """Entries for another place."""
        self.place = self.row = None
        self.list.setCurrentRow(-1)
        self.heading.setText("A new place")
        self.history.clear()
        self._fit_history()
        self._fill("", None)
        self.name_.setFocus()

    def _named(self) -> None:
        """A new place is known by how warm it is: that is asked next. What is only renamed is saved."""
        if self.place is None and self.temperature.value() is None and self.name_.text():
            self.temperature.setFocus()
        else:
            self.save()

    def save(self) -> None:
        """Keep the place, and the temperature where one was entered."""
        wrong = first_problem(self.fields)
        if wrong is not None:
            wrong.point_out()
            return
        if not self.name_.require("A place needs a name, such as pantry."):
            self.name_.setFocus()
            return
        if not (self._save_new() if self.place is None else self._save_known(self.place)):
            mark_problem(self.session.problem, self.fields)
            return
        self.kept.saved()
        self.row, self._shown = None, kept_entries(self.fields)
        self.refresh()

    def _save_new(self) -> bool:
        done = self.session.act(
            add_place, self.name_.value(), self.temperature.value(), since=self.since.value(),
            humidity_pct=self.humidity.value(),
        )  # fmt: skip
        if done is not None:
            self.place = done.record
        return done is not None

    def _save_known(self, place: Place) -> bool:
        if (
            self.name_.value() != place.name
            and self.session.act_on([place], rename_place, place.id, self.name_.value()) is None
        ):
            return False
        warmth = self.temperature.value()
        if warmth is None:
            return True
        more = {"temperature": warmth, "humidity_pct": self.humidity.value()}
        if self.row is not None:
            after = replace(self.row, **more, since=self.since.value() or self.row.since)
            return self.session.act_on([self.row], edit_temperature, after) is not None
        return (
            self.session.act(
                set_temperature, place.id, warmth, since=self.since.value(), humidity_pct=self.humidity.value()
            )
            is not None
        )

    def remove(self) -> None:
        """Remove a place nothing has stood in."""
        if self.place is not None and self.session.act(remove_place, self.place.id) is not None:
            self.place, self._shown = None, kept_entries(self.fields)
            self.refresh()

    def remove_row(self) -> None:
        """Take back the temperature being put right."""
        if self.row is not None and self.session.act(remove_temperature, self.row.id) is not None:
            self._shown = kept_entries(self.fields)
            self.refresh()

    def _show(self, item: QListWidgetItem | None) -> None:
        if item is None:
            return
        place: Place = item.data(_ROLE)
        self.place = place
        self.heading.setText(place.name[:1].upper() + place.name[1:])
        self.history.clear()
        style = self.session.style
        for row_ in reversed(temperatures(self.session.kitchen, place.id)):
            humid = f", {style.percent(row_.humidity_pct, 0)} humidity" if row_.humidity_pct is not None else ""
            since = show_moment(self.session, row_.since)
            line = QListWidgetItem(f"{style.temperature(row_.temperature.si)}{humid}, from {since}")
            line.setData(_ROLE, row_)
            self.history.addItem(line)
        self._fit_history()
        self._fill(place.name, None)

    def _edit_row(self, row_: PlaceTemperature) -> None:
        self._fill(self.place.name if self.place else "", row_)
        self.temperature.setFocus()

    def _fill(self, name: str, row_: PlaceTemperature | None) -> None:
        self.kept.rest()
        self.row = row_
        self.name_.set_value(name or None)
        self.temperature.set_value(row_.temperature if row_ else None)
        self.humidity.set_value(row_.humidity_pct if row_ else None)
        self.since.set_value(row_.since if row_ else None)
        self._shown = kept_entries(self.fields)
        self.kept.shown(f"{self.place.id if self.place else ''} {row_.id if row_ else ''}".strip())
        self.take_back.setVisible(row_ is not None)
        self.remove_button.setVisible(self.place is not None and row_ is None)
