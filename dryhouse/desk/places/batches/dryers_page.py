"""The dryers of this kitchen: a list at the left, the entries of one at the right."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, inner_key, row, text_label
from dryhouse.desk.widgets.draft import Kept, keep_entries, kept_entries
from dryhouse.desk.widgets.fields import Field, NumberField, QuantityField, TextField, mark_problem
from dryhouse.desk.widgets.wrapping import Tiles, headed
from dryhouse.kitchen.batches.dryers import dryers, remove_dryer, save_dryer
from dryhouse.kitchen.records import Dryer
from dryhouse.kitchen.records.shapes import label_of
from dryhouse.science.quantities import Area, Temperature


class DryersPage(QWidget):
    """Add, change, put away."""

    left = Signal()

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.dryer: Dryer | None = None
        self._shown: Kept = {}
        """What the entries were filled with; what differs from it was typed, and stays when others change."""
        self.list = QListWidget()
        self.list.setAccessibleName("Dryers")
        hold(self.list, wide=240)
        self.heading = text_label("", "heading")
        self.fields: dict[str, Field] = {
            "name": TextField(session, label_of(Dryer, "name"), hint="such as shelf dryer", name="name"),
            "trays": NumberField(
                session,
                label_of(Dryer, "trays"),
                hint="such as 6",
                name="trays",
                whole=True,
                what="number of trays",
            ),
            "tray_area": QuantityField(
                session, label_of(Dryer, "tray_area"), Area, hint="such as 30 x 40 cm", name="tray_area"
            ),
            "watts": NumberField(session, label_of(Dryer, "watts"), name="watts", what="number of watts"),
            "temperature_low": QuantityField(
                session, label_of(Dryer, "temperature_low"), Temperature, name="temperature_low"
            ),
            "temperature_high": QuantityField(
                session, label_of(Dryer, "temperature_high"), Temperature, name="temperature_high"
            ),
        }
        self.kept = keep_entries(session, "dryer", self, self.fields.values)
        self.save_button = button("&Save", self.save, "primary", hint="Enter")
        self.remove_button = button("Archive", self.remove, hint="A dryer that batches used keeps its name in them")
        self._build()
        self.list.currentItemChanged.connect(lambda item, _before: self._show(item))
        for field in self.fields.values():
            field.accepted.connect(self.save)
        inner_key(self, "Esc", self.left.emit)
        self.setFocusProxy(self.list)

    def _build(self) -> None:
        entries = column(space=8)
        entries.addWidget(self.heading)
        entries.addWidget(self.kept.offer)
        entries.addLayout(Tiles(*self.fields.values(), least=220, space=16))
        entries.addLayout(row(self.save_button, self.remove_button, 1))
        entries.addStretch(1)
        across = row(space=28)
        beside = column(space=8)
        beside.addWidget(self.list, 1)
        beside.addWidget(button("&Add a dryer", self.new))
        across.addLayout(beside)
        across.addLayout(entries, 1)
        inside = column(self, space=12)
        back = button("&Back to the journal", self.left.emit, hint="Esc")
        inside.addLayout(headed("Dryers", 1, back))
        inside.addLayout(across, 1)

    def refresh(self) -> None:
        """Read the dryers again."""
        kept, typing = self.dryer.id if self.dryer else 0, kept_entries(self.fields.values()) != self._shown
        self.list.blockSignals(True)
        self.list.clear()
        for dryer in dryers(self.session.kitchen):
            item = QListWidgetItem(f"{dryer.name}, {dryer.trays} {'tray' if dryer.trays == 1 else 'trays'}")
            item.setData(Qt.ItemDataRole.UserRole, dryer)
            self.list.addItem(item)
            if dryer.id == kept:
                self.list.setCurrentItem(item)
        self.list.blockSignals(False)
        if typing:
            return
        if self.list.currentItem() is None and self.list.count():
            self.list.setCurrentRow(0)
        elif self.list.count():
            self._show(self.list.currentItem())
        else:
            self.new()

    def new(self) -> None:
        """Entries for another dryer."""
        self.kept.rest()
        self.dryer = None
        self.list.setCurrentRow(-1)
        self.heading.setText("A new dryer")
        self.remove_button.hide()
        for field in self.fields.values():
            field.set_value(None)
        self._shown = kept_entries(self.fields.values())
        self.kept.shown()
        self.fields["name"].setFocus()

    def save(self) -> None:
        """Keep the dryer as entered."""
        name, trays = self.fields["name"], self.fields["trays"]
        if not name.require("A dryer needs a name, such as shelf dryer.") or not trays.require(
            "How many trays does it have? Such as 6."
        ):
            (name if name.problem else trays).setFocus()
            return
        wrong = next((f for f in self.fields.values() if f.problem), None)
        if wrong is not None:
            wrong.point_out()
            return
        entered = Dryer(
            **{key: field.value() for key, field in self.fields.items()}, id=self.dryer.id if self.dryer else 0
        )
        done = self.session.act_on([self.dryer] if self.dryer else (), save_dryer, entered)
        if done is None:
            mark_problem(self.session.problem, self.fields.values())
            return
        self.kept.saved()
        self.dryer, self._shown = done.record if done.changes else entered, kept_entries(self.fields.values())
        self.refresh()

    def remove(self) -> None:
        """Take the dryer out of use."""
        if self.dryer is not None and self.session.act(remove_dryer, self.dryer.id) is not None:
            self.dryer, self._shown = None, kept_entries(self.fields.values())
            self.refresh()

    def _show(self, item: QListWidgetItem | None) -> None:
        if item is None:
            return
        self.kept.rest()
        self.dryer = item.data(Qt.ItemDataRole.UserRole)
        self.heading.setText(self.dryer.name)
        self.remove_button.show()
        for key, field in self.fields.items():
            field.set_value(getattr(self.dryer, key))
        self._shown = kept_entries(self.fields.values())
        self.kept.shown(self.dryer.id)
