"""Generated records of every kind, alone or as a whole journal whose parts belong together."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from dryhouse.handbook.reader import handbook
from dryhouse.handbook.tables import CATEGORIES
from dryhouse.kitchen.records import RECORD_KINDS, Lot, OwnFigure, OwnFood, Preference
from dryhouse.kitchen.records.foods import FIGURE_UNITS
from dryhouse.kitchen.records.links import LINKS, OWNERS_FIRST
from dryhouse.kitchen.records.problems import problems
from dryhouse.kitchen.records.shapes import Shape, shapes
from dryhouse.kitchen.surroundings import Surroundings

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
    if shape.about.choices:
        values: st.SearchStrategy[Any] = st.sampled_from(shape.about.choices)
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


FOODS = ("corn", "apple", "turkey", "carrot")
WORDS_ONLY = ("", "as marked", "über den Daumen ½")
"""What may stand for typed words where the value is drawn at random: no amount of its own."""


def _within(shape: Shape) -> st.SearchStrategy[Any]:
    """Values that the description of a field allows."""
    about = shape.about
    low = (1e-3 if about.positive else about.low) if about.positive or about.low is not None else 0.0
    high = about.high if about.high is not None else about.below - 1e-3 if about.below is not None else 1e5
    if shape.quantity is not None:
        high = min(high, 100.0) if shape.name == "precook_temperature" else high
        return st.builds(shape.quantity, st.floats(low, high), st.sampled_from(WORDS_ONLY))
    if shape.holds is float:
        return st.floats(low, high)
    if shape.holds is int:
        return st.integers(int(low), int(min(high, 10_000)))
    if about.choices:
        return st.sampled_from(about.choices if about.needed or shape.required else ("", *about.choices))
    if about.needed:
        return TEXTS.map(lambda text: f"the {text}")
    return PLAIN[shape.holds]


def _sound_fields(kind: type, id: int) -> dict[str, st.SearchStrategy[Any]]:
    found = {s.name: st.none() | _within(s) if s.missing else _within(s) for s in shapes(kind)}
    found |= {s.name: st.none() for s in shapes(kind) if s.about.computed}  # an import believes none that is not so
    found |= {name: st.just(1 if needs(kind, name) else None) for name in LINKS.get(kind, {})}
    if "food" in found:
        found["food"] = st.sampled_from(FOODS)
    if "staple" in found:
        found["staple"] = st.just("")
    if kind is OwnFood:
        found |= {
            "slug": st.just(f"mine-{id}"),
            "category": st.sampled_from(CATEGORIES),
            "like": st.sampled_from(("", *FOODS)),
            "contains": st.sampled_from(("", "meat", "plant;fish", "unknown")),
        }
    if kind is OwnFigure:
        names = tuple(FIGURE_UNITS.items())
        name, unit = names[id % len(names)]
        found |= {"food": st.just(FOODS[id // len(names)]), "name": st.just(name), "unit": st.just(unit)}
        found["value"] = st.floats(0, 99)
    return found | {"id": st.just(id)}


def _mended(record: Any, around: Surroundings) -> Any:
    """The record without what is wrong with it; None where it cannot be without."""
    for _ in range(5):
        wrong = {p.field for p in problems(record, around)}
        if not wrong:
            return record
        for shape in shapes(type(record)):
            if shape.name in wrong:
                if shape.required:
                    return None
                left_out = {f.name: f.default for f in fields(record)}[shape.name]
                record = replace(record, **{shape.name: left_out})
        if isinstance(record, Lot) and "food" in wrong:
            record = replace(record, batch=None)
    return None


@st.composite
def journals(draw: st.DrawFn, most: int = 3) -> list[Any]:
    """Records of all kinds that make sense: what one refers to is among them, and names that must differ do."""
    made: dict[type, list[Any]] = {kind: [] for kind in RECORD_KINDS}
    around = Surroundings(None, handbook(), lambda moment: moment)
    for kind in OWNERS_FIRST:
        links = LINKS.get(kind, {})
        if any(needs(kind, name) and not made[target] for name, target in links.items()):
            continue
        for id in sorted(draw(st.sets(st.integers(1, 40), max_size=most))):
            fixed: dict[str, Any] = {}
            for name, target in links.items():
                there = st.sampled_from([r.id for r in made[target]]) if made[target] else st.nothing()
                fixed[name] = there if needs(kind, name) else st.none() | there
            if kind is Preference:
                fixed["key"] = TEXTS.map(lambda text, id=id: f"{text}{id}")
            record = _mended(draw(st.builds(kind, **(_sound_fields(kind, id) | fixed))), around)
            if record is not None:
                around.coming([record])
                made[kind].append(record)
    return [record for kind in OWNERS_FIRST for record in made[kind]]
