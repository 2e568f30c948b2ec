"""The minutes of a meal: what each ingredient needs by its food, its pieces and the way it is cooked.

The slowest ingredient rules, not one that only stands beside; a note of the same way of cooking corrects it, and
higher up the flame burns longer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryhouse.handbook.boiling import boiling_tables
from dryhouse.handbook.pot import pot
from dryhouse.handbook.softening import Softening, softening, staple_softening
from dryhouse.kitchen.meals.ingredients import DRIED, Ingredient
from dryhouse.kitchen.records import CookingNote, Meal
from dryhouse.kitchen.records.meals import COLD_SOAK, NO_POT, NO_SOAK, REST
from dryhouse.science.boiling import boiling_point, times_as_long
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.values import Basis, Fact, Figure, merge_bases
from dryhouse.science.workings import Step, step
from dryhouse.science.workings import StepKind as Kind


@dataclass(frozen=True, slots=True)
class Minutes:
    """How long the meal soaks, stands over the flame, and stands in all once it boils."""

    soak: Figure
    cook: Figure
    """Simmering, or standing in the insulated pot; nothing for a cold soak and without a pot."""
    flame: Figure
    """Minutes of fuel once it boils."""


@dataclass
class _Sum:
    """Minutes as they come together: the number, what it rests on, and how it was come by."""

    value: float
    bases: list[Basis]
    lines: list[Step]

    def figure(self) -> Figure:
        return Figure(self.value, "min", basis=merge_bases(self.bases), workings=tuple(self.lines))


def meal_minutes(
    meal: Meal, ingredients: Sequence[Ingredient], notes: Sequence[CookingNote], altitude_m: float | None
) -> Minutes:
    """Soak, cook and flame minutes of the way the meal is cooked. `notes` are those of this very way."""
    if meal.cooking in (NO_POT, COLD_SOAK):
        still = Figure(0.0, "min", workings=(step(Kind.NOTHING_COOKED),))
        soak = _Sum(0.0, [], []) if meal.cooking == NO_POT else _slowest(meal.cooking, ingredients, soaking=True)
        _soak_taught(soak, notes)
        return Minutes(soak.figure(), still, still)
    soak = _Sum(0.0, [], []) if meal.cooking == NO_SOAK else _slowest(meal.cooking, ingredients, soaking=True)
    cook = _slowest(meal.cooking, ingredients, soaking=False)
    flame = _Sum(cook.value, cook.bases, cook.lines)
    if meal.cooking == REST:
        boil = pot("rest_boil_minutes")
        flame = _Sum(boil.value if cook.value > 0 else 0.0, [boil.basis], [])
    if meal.cook_minutes is not None:
        set_here = [step(Kind.MINUTES_SET, (meal.cook_minutes, "min"))]
        flame = _Sum(meal.cook_minutes, [Basis("entered", "minutes set for this meal")], set_here)
    _flame_taught(flame, notes)
    if meal.cooking != REST:
        cook = flame
    _higher_up([flame] if flame is cook else [flame, cook], altitude_m)
    if meal.cooking == REST:
        cook.lines.append(step(Kind.BOIL_AND_REST, flame=(flame.value, "min")))
    cook.lines.append(step(Kind.MINUTES, (cook.value, "min")))
    _soak_taught(soak, notes, also_where_none=meal.cooking == REST)
    return Minutes(soak.figure(), cook.figure(), flame.figure())


def _slowest(way: str, ingredients: Sequence[Ingredient], *, soaking: bool) -> _Sum:
    needs = [(need.soak if soaking else need.cook, i) for i in ingredients if (need := _need(i, way)) is not None]
    if not needs or all(fact.value <= 0 for fact, _ in needs):
        return _Sum(0.0, [], [])
    fact, slowest = max(needs, key=lambda need: need[0].value)
    source = f"{fact.source}{f'; {fact.note}' if fact.note else ''}"
    cut = slowest.pieces.size if slowest.pieces is not None else ""
    named = f"{slowest.part.name} ({cut} pieces)" if cut else slowest.part.name
    return _Sum(fact.value, [fact.basis], [step(Kind.SLOWEST, (fact.value, "min", source), food=named)])


def _need(item: Ingredient, way: str) -> Softening | None:
    """What one ingredient needs; None for what needs nothing, or is known by nothing but its name."""
    if item.part.label_minutes is not None:
        label = Fact(item.part.label_minutes, "min", f"label of {item.part.name}", "entered")
        return _other_way(label, way, None)
    if item.kind == DRIED and item.food is not None:
        size = "" if item.pieces is None else item.pieces.size
        short, plain = softening(item.food, size, "short soak"), softening(item.food, size, NO_SOAK)
        found = softening(item.food, size, way)
        if found is None and plain is not None:
            return _other_way(plain.cook, way, short)
        return found
    if item.staple is None:
        return None
    return staple_softening(item.staple.slug, way) or _other_way(item.staple.cook_minutes, way, None)


def _other_way(boiled: Fact, way: str, short: Softening | None) -> Softening:
    """From the minutes over the flame: standing takes longer, and so does cold water."""
    none = replace(boiled, value=0.0)
    if way == REST:
        return Softening(none, _times(boiled, pot("rest_factor")))
    if way == COLD_SOAK:
        soaked = boiled if short is None or short.soak.value <= boiled.value else short.soak
        return Softening(_times(soaked, pot("cold_factor")), none)
    return Softening(none, boiled)


def _times(minutes: Fact, factor: Fact) -> Fact:
    note = f"{minutes.value:g} min × {factor.value:g} {factor.unit}: {factor.source}"
    return replace(minutes, value=minutes.value * factor.value, note=note, how=factor.how)


def _higher_up(sums: Sequence[_Sum], altitude_m: float | None) -> None:
    """Water that boils cooler cooks slower."""
    if altitude_m is None or altitude_m <= 0:
        return
    boils, rule = boiling_point(altitude_m, boiling_tables()), pot("slower_per_10c")
    longer = times_as_long(boils.value, rule.value)
    for found in sums:
        found.value *= longer
        found.lines += [*boils.workings, step(Kind.SIMMER_LONGER, factor=(longer, "", rule.source))]
        found.bases += [*boils.basis, rule.basis]


def _flame_taught(flame: _Sum, notes: Sequence[CookingNote]) -> None:
    """The latest note with minutes decides: as noted where it came back right, longer where hard."""
    timed = [n for n in notes if n.cook_minutes is not None and n.came_back in ("right", "hard")]
    if not timed:
        return
    last = max(timed, key=lambda n: (n.on, n.id))
    noted = last.cook_minutes or 0.0
    if last.altitude is not None and last.altitude.si > 0:
        boils = boiling_point(last.altitude.si / 1000.0, boiling_tables())
        noted /= times_as_long(boils.value, pot("slower_per_10c").value)
    _teach(flame, last, noted, Kind.CAME_BACK_RIGHT, Kind.CAME_BACK_HARD)


def _soak_taught(soak: _Sum, notes: Sequence[CookingNote], *, also_where_none: bool = False) -> None:
    """The latest note that says how long it soaked decides the soak in the same way."""
    timed = [n for n in notes if n.soak_minutes is not None and n.came_back in ("right", "hard")]
    if timed and (soak.value > 0 or also_where_none):
        last = max(timed, key=lambda n: (n.on, n.id))
        _teach(soak, last, last.soak_minutes or 0.0, Kind.SOAKED_RIGHT, Kind.SOAKED_HARD)


def _teach(found: _Sum, note: CookingNote, noted: float, right: Kind, hard: Kind) -> None:
    own = Basis("own", n=1, said=message(Told.COOKING_NOTES, what="this meal"))
    found.bases = [own] if note.came_back == "right" else [*found.bases, own]
    if note.came_back == "right":
        found.value = noted
        found.lines.append(step(right, (noted, "min"), day=note.on))
        return
    found.value = max(found.value, noted * (1.0 + pot("note_step").value / 100.0))
    found.lines.append(step(hard, (found.value, "min"), noted=(noted, "min"), day=note.on))
