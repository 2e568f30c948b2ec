"""What each field of a record holds, and what belongs to what."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from dryhouse.kitchen.records import RECORD_KINDS, Batch, BatchEvent, Dryer, LotCheck, Weighing
from dryhouse.kitchen.records.links import LINKS, ONCE, OWNERS_FIRST
from dryhouse.kitchen.records.shapes import _SHAPES, SUFFIXES, filled, label_of, linked, shapes
from dryhouse.science.quantities import Area, Mass
from tests.records import records
from tests.rows import every_row


def test_shapes_say_what_may_be_missing_and_what_must_be_there() -> None:
    of = {s.name: s for s in shapes(Weighing)}
    assert (of["gross"].quantity, of["gross"].missing, of["gross"].required) == (Mass, False, True)
    assert (of["tare"].quantity, of["tare"].missing, of["tare"].required) == (Mass, True, False)
    assert of["at"].holds is datetime
    assert {s.name: s.holds for s in shapes(LotCheck)}["on"] is date
    assert {s.name: s.holds for s in shapes(LotCheck)}["moist"] is bool


@every_row("kind", RECORD_KINDS)
def test_every_field_holds_something_the_journal_can_keep(kind: type) -> None:
    for shape in shapes(kind):
        assert shape.holds in {str, int, float, bool, date, datetime, *SUFFIXES}
    assert shapes(kind)[-1].name == "id"


def test_every_link_is_a_field_that_holds_a_number() -> None:
    for kind, links in LINKS.items():
        holds = {s.name: s.holds for s in shapes(kind)}
        assert all(holds[name] is int for name in links)
    for kind, names in ONCE.items():
        assert set(names) <= {s.name for s in shapes(kind)}


def test_owners_come_before_what_they_own() -> None:
    assert set(OWNERS_FIRST) == set(RECORD_KINDS)
    assert OWNERS_FIRST.index(Batch) < OWNERS_FIRST.index(BatchEvent)
    for kind, links in LINKS.items():
        assert all(OWNERS_FIRST.index(target) < OWNERS_FIRST.index(kind) for target in links.values())


@given(st.data())
def test_records_put_together_at_once_are_what_they_are_made_one_by_one(data: st.DataObject) -> None:
    kind = data.draw(st.sampled_from(RECORD_KINDS))
    made: list[Any] = data.draw(st.lists(records(kind), max_size=3))
    columns = [[getattr(record, shape.name) for record in made] for shape in shapes(kind)]
    assert filled(kind, len(made), columns) == made
    for record in made:
        links = dict.fromkeys(LINKS.get(kind, {}), 7)
        assert linked(record, links) == replace(record, **links)
        assert linked(record, {}) == record


def test_what_a_field_is_where_nothing_is_said_is_its_default_and_nothing_where_something_must_be() -> None:
    _SHAPES.pop(Dryer, None)  # worked out anew
    told = {s.name: (s.default, s.required, s.missing) for s in shapes(Dryer)}
    assert told == {
        "name": (None, True, False),
        "trays": (None, True, False),
        "tray_area": (None, False, True),
        "watts": (None, False, True),
        "temperature_low": (None, False, True),
        "temperature_high": (None, False, True),
        "retired": (False, False, False),
        "id": (0, False, False),
    }
    area = next(s for s in shapes(Dryer) if s.name == "tray_area")
    assert (area.columns, area.quantity) == (("tray_area_cm2", "tray_area_typed"), Area)
    assert next(s for s in shapes(Dryer) if s.name == "watts").columns == ("watts",)
    assert (label_of(Dryer, "tray_area"), label_of(Dryer, "retired")) == ("Area of one tray", "")
