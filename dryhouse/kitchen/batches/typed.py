"""A batch as it is typed at the bench, read into a draft: the same reading for the form and the command line."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TypeVar

from dryhouse.kitchen.batches.dryers import find_dryer
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.typed_moments import read_moment
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

Q = TypeVar("Q", bound=Quantity)

THERMOMETER, NOT_MEASURED = "thermometer", "not measured"


@dataclass(frozen=True, slots=True)
class TypedBatch:
    """Every entry of the log form, as typed. Empty means not given."""

    food: str = ""
    fresh: str = ""
    dried: str = ""
    start: str = ""
    hours: str = ""
    end: str = ""
    temp: str = ""
    precook: str = ""
    precook_method: str = ""
    precook_measured: str = ""
    form: str = ""
    thickness: str = ""
    made_from: str = "fresh"
    purchased: str = ""
    cooked_in: str = ""
    cooked_out: str = ""
    drained_fat: str = ""
    drained_liquid: str = ""
    fresh_volume: str = ""
    dried_volume: str = ""
    pretreatment: str = ""
    dryer: str = ""
    trays: str = ""
    kitchen_temp: str = ""
    humidity: str = ""
    start_moisture: str = ""
    moisture: str = ""
    energy_kwh: str = ""
    title: str = ""
    notes: str = ""
    rating: str = ""
    parts: tuple[tuple[str, str], ...] = ()
    """Ingredients of a mix: food and mass, as typed."""


def draft_from(kitchen: Kitchen, typed: TypedBatch, state: str = "finished") -> BatchDraft:
    """The draft that the entries describe. Raises InputProblem naming the entry that cannot be read."""
    like = style(kitchen)
    comma = like.decimal_comma

    def quantity(name: str, kind: type[Q], unit: str) -> Q | None:
        text = getattr(typed, name)
        if not text.strip():
            return None
        try:
            return parse(text, kind, default_unit=unit, decimal_comma=comma)
        except InputProblem as problem:
            raise InputProblem(problem.sentence, name) from None

    def number(name: str, what: str) -> float | None:
        text = getattr(typed, name)
        if not text.strip():
            return None
        try:
            reader = parse_percent if what == "percentage" else parse_number
            return reader(text, decimal_comma=comma, what=what)
        except InputProblem as problem:
            raise InputProblem(problem.sentence, name) from None

    if not typed.food.strip():
        raise InputProblem("Which food was it? Type its name, such as sweet corn.", "food")
    known = food(kitchen, typed.food)
    mass, volume, degrees = like.mass_unit, like.volume_unit, like.temperature_unit
    started = read_moment(kitchen, typed.start, field="start") if typed.start.strip() else None
    ended = read_moment(kitchen, typed.end, field="end") if typed.end.strip() else None
    hours = quantity("hours", Duration, "h")
    if hours is not None and started is not None:
        ended = started + timedelta(seconds=hours.si)
    elif hours is not None:
        ended = ended or kitchen.now()
        started = ended - timedelta(seconds=hours.si)
    precook = quantity("precook", Temperature, degrees)
    measured = typed.precook_measured.strip().lower()
    if measured not in ("", THERMOMETER, NOT_MEASURED):
        raise InputProblem(
            f"How the precook temperature was known is “{THERMOMETER}” or “{NOT_MEASURED}”.", "precook_measured"
        )
    batch = Batch(
        known.slug,
        state=state,
        title=typed.title.strip(),
        form=typed.form.strip(),
        thickness=quantity("thickness", Length, like.length_unit),
        made_from=typed.made_from or "fresh",
        purchased_mass=quantity("purchased", Mass, mass),
        prepared_mass=quantity("fresh", Mass, mass),
        prepared_volume=quantity("fresh_volume", Volume, volume),
        pretreatment=typed.pretreatment.strip(),
        precook_method=typed.precook_method.strip(),
        precook_temperature=precook,
        precook_measured=measured,
        cooked_mass_in=quantity("cooked_in", Mass, mass),
        cooked_mass_out=quantity("cooked_out", Mass, mass),
        drained_fat=quantity("drained_fat", Mass, mass),
        drained_liquid=quantity("drained_liquid", Mass, mass),
        dryer=find_dryer(kitchen, typed.dryer).id if typed.dryer.strip() else None,
        trays=_whole(number("trays", "number of trays"), "trays"),
        set_temperature=quantity("temp", Temperature, degrees),
        started=started,
        ended=ended,
        kitchen_temperature=quantity("kitchen_temp", Temperature, degrees),
        kitchen_humidity_pct=number("humidity", "percentage"),
        start_moisture_pct=number("start_moisture", "percentage"),
        target_moisture_pct=number("moisture", "percentage"),
        dried_mass=quantity("dried", Mass, mass),
        dried_volume=quantity("dried_volume", Volume, volume),
        energy_kwh=number("energy_kwh", "number of kilowatt-hours"),
        notes=typed.notes.strip(),
        rating=_whole(number("rating", "rating"), "rating"),
    )
    return BatchDraft(batch, _parts(kitchen, typed.parts, mass, comma))


def _whole(value: float | None, field: str) -> int | None:
    if value is None:
        return None
    if value != int(value):
        raise InputProblem(f"{field.capitalize()} are counted whole, such as {max(round(value), 1)}.", field)
    return int(value)


def _parts(kitchen: Kitchen, typed: tuple[tuple[str, str], ...], unit: str, comma: bool) -> tuple[BatchPart, ...]:
    parts = []
    for position, (name, amount) in enumerate(t for t in typed if any(s.strip() for s in t)):
        try:
            slug = food(kitchen, name).slug
            parts.append(BatchPart(0, position, slug, parse(amount, Mass, default_unit=unit, decimal_comma=comma)))
        except InputProblem as problem:
            raise InputProblem(f"Ingredient {position + 1}: {problem.sentence}", "parts") from None
    return tuple(parts)
