"""A batch as it is typed at the bench, read into a draft: the same reading for the form and the command line.

Which entries there are follows from the fields of a batch (`kitchen/records/batches.py`); only what is not one
field alone is written down here: the food, the times, the dryer's name, and the ingredients of a mix.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryers import find_dryer
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.counted import mass_typed
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.kitchen.records.batches import FINISHED, OTHER_PRECOOK
from dryhouse.kitchen.records.former import precook_of
from dryhouse.kitchen.records.shapes import Shape, shapes
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.typed_moments import read_moment
from dryhouse.science.display import Style, duration
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import (
    Duration,
    Length,
    Mass,
    Quantity,
    Temperature,
    Volume,
    parse,
    parse_number,
    parse_percent,
)
from dryhouse.words.messages import problem_sentence

_WITHOUT_ENTRY = ("food", "state", "started", "ended", "settled", "trip", "id")
"""Fields of a batch that no entry of their own fills in."""
ENTRIES: Mapping[str, Shape] = {
    shape.about.entry or shape.name: shape
    for shape in shapes(Batch)
    if shape.name not in _WITHOUT_ENTRY and not shape.about.computed
}
"""Every entry that fills one field of a batch, by its short name."""
APART = ("food", "start", "hours", "end")
"""The entries beside those: what was dried, and when."""
_PRESET = {"made_from": "fresh"}
YES, NO = "yes", "no"
_SLACK = timedelta(minutes=15)
"""Two times and how long it took may be this far apart: hours are told in round numbers."""


@dataclass(frozen=True)
class TypedBatch:
    """The entries of the log form, as typed. What is empty was not given, and is not kept."""

    given: Mapping[str, str] = field(default_factory=dict)
    parts: tuple[tuple[str, str], ...] = ()
    """Ingredients of a mix: food and mass, as typed."""

    def __getitem__(self, entry: str) -> str:
        return self.given.get(entry, _PRESET.get(entry, ""))

    def changed(self, **entries: str) -> TypedBatch:
        """The same with some entries typed anew."""
        return typed_batch(self.parts, **{**self.given, **entries})


def typed_batch(parts: tuple[tuple[str, str], ...] = (), **entries: str) -> TypedBatch:
    """A batch as typed, entry by entry."""
    if strange := set(entries) - {*APART, *ENTRIES}:
        raise ValueError(f"a batch has no entry {sorted(strange)[0]}")
    return TypedBatch({name: text for name, text in entries.items() if text != _PRESET.get(name, "")}, parts)


def draft_from(kitchen: Kitchen, typed: TypedBatch, state: str = FINISHED) -> BatchDraft:
    """The draft that the entries describe. A finished batch without any time came off now.

    Raises InputProblem naming the entry that cannot be read.
    """
    like = style(kitchen)
    if not typed["food"].strip():
        raise InputProblem("Which food was it? Type its name, such as sweet corn.", "food")
    known = food(kitchen, typed["food"])
    started, ended = _times(kitchen, typed, like)
    if state == FINISHED and started is None and ended is None:
        ended = kitchen.now()
    values: dict[str, Any] = {}
    for entry, shape in ENTRIES.items():
        if text := typed[entry].strip():
            try:
                values[shape.name] = _value(kitchen, known, entry, shape, text, like)
            except InputProblem as problem:
                raise InputProblem(problem.said, entry) from None
    batch = Batch(known.slug, state=state, started=started, ended=ended, **values)
    return BatchDraft(batch, _parts(kitchen, typed.parts, like))


def _value(kitchen: Kitchen, known: Food, entry: str, shape: Shape, text: str, like: Style) -> Any:
    """The value of one entry: a dryer's number, a weight loaded that may be so many pieces, else as it is read."""
    if entry == "dryer":
        return find_dryer(kitchen, text).id
    if shape.name == "prepared_mass":
        return mass_typed(known, text, default_unit=like.mass_unit, decimal_comma=like.decimal_comma)
    return read(shape, text, like)


def _times(kitchen: Kitchen, typed: TypedBatch, like: Style) -> tuple[datetime | None, datetime | None]:
    """When it went on and came off: two moments, or one of them and how long it took."""
    started = read_moment(kitchen, typed["start"], field="start") if typed["start"].strip() else None
    ended = read_moment(kitchen, typed["end"], field="end") if typed["end"].strip() else None
    if not typed["hours"].strip():
        return started, ended
    try:
        took = timedelta(
            seconds=parse(typed["hours"], Duration, default_unit="h", decimal_comma=like.decimal_comma).si
        )
    except InputProblem as problem:
        raise InputProblem(problem.said, "hours") from None
    if started is not None and ended is not None and abs((ended - started) - took) > _SLACK:
        raise InputProblem(
            f"Start and end are {duration((ended - started).total_seconds())} apart, not "
            f"{duration(took.total_seconds())}; leave one of the three out, or put it right.",
            "hours",
        )
    if started is not None:
        return started, ended or started + took
    ended = ended or kitchen.now()
    return ended - took, ended


def read(shape: Shape, text: str, like: Style) -> Any:
    """The value of an entry that is not empty; a bare number is in her own unit. Raises InputProblem."""
    comma = like.decimal_comma
    if shape.quantity is not None:
        return parse(text, shape.quantity, default_unit=bare_unit(shape.quantity, like), decimal_comma=comma)
    if shape.about.choices:
        return _chosen(shape, text)
    if shape.holds is bool:
        return _yes_or_no(shape, text)
    if shape.holds is str:
        return text
    if shape.name.endswith("_pct"):
        return parse_percent(text, decimal_comma=comma, what="percentage")
    number = parse_number(text, decimal_comma=comma, what="number")
    if shape.holds is not int:
        return number
    if number != int(number):
        raise InputProblem(
            f"{shape.about.label.split(',')[0]} are counted whole, such as {max(round(number), 1)}, not “{text}”."
        )
    return int(number)


def _yes_or_no(shape: Shape, text: str) -> bool:
    said = text.casefold()
    if said not in (YES, NO):
        raise InputProblem(f"“{shape.about.label}” is “{text}”; it should be {YES} or {NO}.")
    return said == YES


def bare_unit(kind: type[Quantity], like: Style) -> str:
    """The unit of a number that is typed without one."""
    units = {
        Mass: like.mass_unit,
        Volume: like.volume_unit,
        Temperature: like.temperature_unit,
        Length: like.length_unit,
        Duration: "min",
    }
    return units.get(kind, "")


def _chosen(shape: Shape, text: str) -> str:
    """One of the choices of a field: as it stands, or by a word that only it holds."""
    said = " ".join(text.split()).casefold()
    choices = shape.about.choices
    if said in choices:
        return said
    if shape.name == "precook_method" and (method := precook_of(text)) != OTHER_PRECOOK:
        return method
    near = [choice for choice in choices if said in choice.split() or choice.startswith(said)]
    if len(near) == 1:
        return near[0]
    raise InputProblem(f"“{shape.about.label}” is “{text}”; it should be one of: {', '.join(choices)}.")


def _parts(kitchen: Kitchen, typed: tuple[tuple[str, str], ...], like: Style) -> tuple[BatchPart, ...]:
    parts = []
    for position, (name, amount) in enumerate(t for t in typed if any(s.strip() for s in t)):
        try:
            known = food(kitchen, name)
            mass = mass_typed(known, amount, default_unit=like.mass_unit, decimal_comma=like.decimal_comma)
        except InputProblem as problem:
            raise InputProblem(f"Ingredient {position + 1}: {problem_sentence(problem)}", "parts") from None
        parts.append(BatchPart(0, position, known.slug, mass))
    return tuple(parts)
