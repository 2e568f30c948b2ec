"""The entry of one field of a record, as the field describes itself."""

from __future__ import annotations

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.fields import ChoiceField, Field, NumberField, QuantityField, TextField
from dryhouse.desk.widgets.moment_field import MomentField
from dryhouse.kitchen.batches.typed import NO, YES, bare_unit
from dryhouse.kitchen.records.shapes import Shape, label_of
from dryhouse.science.display import METRIC
from dryhouse.science.quantities import Duration, Length

NOT_SAID = "not recorded"


def altitude_field(session: Session, kind: type) -> QuantityField:
    """The entry for how high above the sea something is done, as this kind of record calls it."""
    unit = "m" if session.style.system == METRIC else "ft"
    label = label_of(kind, "altitude")
    return QuantityField(session, label, Length, default_unit=unit, hint="sea level", name="altitude")


def field_for(session: Session, shape: Shape, name: str = "") -> Field | ChoiceField:
    """An entry for a field, called as the field is; `name` is what a refusal names it by."""
    about, name = shape.about, name or shape.name
    if shape.quantity is not None:
        unit = bare_unit(Duration, session.style) if shape.quantity is Duration else ""
        return QuantityField(session, about.label, shape.quantity, hint=about.hint, name=name, default_unit=unit)
    if about.choices:
        unsaid = [] if shape.default else [("", NOT_SAID)]
        return ChoiceField(session, about.label, [*unsaid, *((c, c) for c in about.choices)], name=name)
    if shape.holds is bool:
        return ChoiceField(session, about.label, [("", NOT_SAID), (YES, YES), (NO, NO)], name=name)
    if shape.holds is str:
        return TextField(session, about.label, hint=about.hint, name=name)
    if shape.holds in (int, float):
        return NumberField(
            session,
            about.label,
            hint=about.hint,
            percent=shape.name.endswith("_pct"),
            whole=shape.holds is int,
            what=about.label.split(",")[0].casefold(),
            name=name,
        )
    return MomentField(session, about.label, hint=about.hint, name=name)
