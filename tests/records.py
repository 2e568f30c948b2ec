"""Generated records of every kind, alone or as a whole journal whose parts belong together."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.batches import BATCH_STATES
from dryhouse.kitchen.records.links import LINKS, ONCE, OWNERS_FIRST
from dryhouse.kitchen.records.shapes import Shape, shapes

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=10)
NUMBERS = st.floats(0, 1e6)
PLAIN: dict[type, st.SearchStrategy[Any]] = {
    str: TEXTS,
    int: st.integers(0, 10_000),
    float: NUMBERS,
    bool: st.booleans(),
    date: st.dates(date(1900, 1, 1), date(2200, 1, 1)),
    datetime: st.integers(-(10**15), 10**16).map(lambda n: EPOCH + timedelta(microseconds=n)),
}


def _field(kind: type, shape: Shape) -> st.SearchStrategy[Any]:
    if shape.name == "state":
        values: st.SearchStrategy[Any] = st.sampled_from(BATCH_STATES)
    elif shape.quantity is not None:
        values = st.builds(shape.quantity, NUMBERS, TEXTS)
    else:
        values = PLAIN[shape.holds]
    return st.none() | values if shape.missing else values


def records(kind: type, id: int = 1, **fixed: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Records of one kind that belong to nothing, unless links are given."""
    fields = {s.name: _field(kind, s) for s in shapes(kind)}
    fields |= {name: st.just(1 if needs(kind, name) else None) for name in LINKS.get(kind, {})}
    return st.builds(kind, **(fields | {"id": st.just(id)} | fixed))


def needs(kind: type, name: str) -> bool:
    """Whether a field must be there."""
    return next(s.required for s in shapes(kind) if s.name == name)


@st.composite
def journals(draw: st.DrawFn, most: int = 3) -> list[Any]:
    """Records of all kinds: what one refers to is among them, and names that must differ do."""
    made: dict[type, list[Any]] = {kind: [] for kind in RECORD_KINDS}
    for kind in OWNERS_FIRST:
        links = LINKS.get(kind, {})
        if any(needs(kind, name) and not made[target] for name, target in links.items()):
            continue
        for id in sorted(draw(st.sets(st.integers(1, 40), max_size=most))):
            fixed: dict[str, Any] = {}
            for name, target in links.items():
                there = st.sampled_from([r.id for r in made[target]]) if made[target] else st.nothing()
                fixed[name] = there if needs(kind, name) else st.none() | there
            for name in ONCE.get(kind, ()):
                fixed[name] = TEXTS.map(lambda text, id=id: f"{text}{id}")
            made[kind].append(draw(records(kind, id, **fixed)))
    return [record for kind in OWNERS_FIRST for record in made[kind]]
