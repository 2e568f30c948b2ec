"""Those who go on a trip: how much they eat, what they don't eat, and who falls ill more easily."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from dryhouse.handbook.staples import find_staples
from dryhouse.kitchen.foods.catalog import find_foods
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.holds import NOT_KNOWN, Held, held
from dryhouse.kitchen.meals.ingredients import Ingredient
from dryhouse.kitchen.records import TripPerson
from dryhouse.kitchen.trips.lists import Bag
from dryhouse.kitchen.trips.sheet import DaySheet, TripSheet, appetites_of
from dryhouse.words import people as words
from dryhouse.words.trip_plans import days_of_bags

_MEAT = frozenset({"meat", "poultry", "game", "jerky", "holds meat", "holds poultry"})
_MILK = frozenset({"dairy", "holds dairy", "holds milk"})
_EGG = frozenset({"egg", "holds egg"})
_FISH = frozenset({"fish", "holds fish", "holds shellfish"})
_NUTS = frozenset({"nut", "holds tree nuts", "holds peanut"})
_ALLERGENS: dict[str, frozenset[str]] = {
    "milk": _MILK,
    "dairy": _MILK,
    "egg": _EGG,
    "eggs": _EGG,
    "fish": frozenset({"fish", "holds fish"}),
    "shellfish": frozenset({"holds shellfish"}),
    "nut": _NUTS,
    "nuts": _NUTS,
    "peanut": frozenset({"holds peanut"}),
    "peanuts": frozenset({"holds peanut"}),
    "wheat": frozenset({"holds wheat"}),
    "gluten": frozenset({"holds wheat", "holds gluten"}),
    "soy": frozenset({"holds soy"}),
    "sesame": frozenset({"holds sesame"}),
}
"""Words for what a label tells of: what its maker added may hold it, too."""
_KINDS: dict[str, frozenset[str]] = {
    **_ALLERGENS,
    "meat": _MEAT,
    "vegetarian": _MEAT | _FISH,
    "vegan": _MEAT | _FISH | _EGG | _MILK,
    "animal food": frozenset({"animal"}),
}
"""Words for whole kinds of food; any other word is looked for in the names of what is eaten."""
_SHORT = 3


@dataclass(frozen=True, slots=True)
class PersonDay:
    """What one person gets on a day, against what is wished for them (kcal); None where it is not known."""

    name: str
    energy: float | None
    wish: float | None


def days_of_people(sheet: TripSheet, people: Sequence[TripPerson], day: DaySheet) -> tuple[PersonDay, ...]:
    """What each person gets that day: a bag is shared by appetite."""
    trip, shares = sheet.trip, appetites_of(sheet.trip, people)
    usual = None if day.energy_per_person is None else day.energy_per_person.value * trip.people / shares
    wish = trip.energy_kcal_per_person_day
    rest = max(0, trip.people - len(people))
    named = [(person.name, person.appetite_pct / 100.0) for person in people]
    others = [("each of the others" if people else "each person", 1.0)] if rest else []
    return tuple(
        PersonDay(name, None if usual is None else usual * share, None if wish is None else wish * share)
        for name, share in (*named, *others)
    )


def remarks_on(
    kitchen: Kitchen, sheet: TripSheet, people: Sequence[TripPerson], bags: Sequence[Bag]
) -> Iterator[str]:
    """Who does not eat what stands on a day, and which bag is none for somebody at risk."""
    eaten = [bag for day in sheet.days for bag in day.meals]
    risky = [person.name for person in people if person.at_risk]
    for person in people:
        for word in not_known_here(kitchen, person):
            yield words.no_such_food(person.name, word)
    found: dict[tuple[TripPerson | None, tuple[str, ...], bool, str], list[Bag]] = {}
    for one, bag in zip(eaten, bags, strict=True):
        items = [line.ingredient for line in one.sheet.parts]
        for person in people:
            avoided, unknown = _avoided(kitchen, person, items)
            if avoided or unknown:
                key = (person, tuple(avoided or unknown), bool(avoided), bag.name)
                found.setdefault(key, []).append(bag)
        if risky and any(c.rule.startswith("heat-") and c.severity == "stop" for c in bag.cautions):
            found.setdefault((None, (), True, bag.name), []).append(bag)
    for (who, what, known, meal), alike in found.items():
        if who is None:
            yield words.at_risk(risky, meal, bags_when(alike))
        elif known:
            yield words.does_not_eat(who.name, what, meal, bags_when(alike))
        else:
            yield words.may_hold(who.name, who.avoids, what, meal)


def bags_when(bags: Sequence[Bag]) -> str:
    """When bags of one meal are eaten: `Wed 25 Aug dinner`, `22 Aug and 26 Aug dinner`."""
    slots = list(dict.fromkeys(bag.slot for bag in bags))
    return f"{days_of_bags([bag.day for bag in bags])} {' and '.join(slots)}"


def _avoided(kitchen: Kitchen, person: TripPerson, items: Iterable[Ingredient]) -> tuple[list[str], list[str]]:
    """The ingredients a person does not eat, and those of which nobody can tell."""
    avoids = words_of(person)
    by_label = any(set(word.split()) & set(_ALLERGENS) for word in avoids)
    found: list[str] = []
    unknown: list[str] = []
    for item in items if avoids else ():
        one = held(kitchen, item)
        kinds = one.kinds | {f"holds {allergen}" for allergen in one.allergens}
        names = _names(one, item)
        if any(_is(word, kinds, names) for word in avoids):
            found.append(item.part.name)
        elif one.unknown or not one.kinds or kinds & NOT_KNOWN or (one.label and by_label):
            unknown.append(item.part.name)
    return list(dict.fromkeys(found)), list(dict.fromkeys(unknown))


def words_of(person: TripPerson) -> tuple[str, ...]:
    """What a person avoids, a word or a few words each."""
    return tuple(word for part in person.avoids.split(",") if (word := " ".join(part.casefold().split())))


def not_known_here(kitchen: Kitchen, person: TripPerson) -> tuple[str, ...]:
    """What a person avoids that is neither a kind nor a food known here: nothing can be found by it."""
    return tuple(
        word
        for word in words_of(person)
        if not _spoken(word) and not find_foods(kitchen, word) and not find_staples(word)
    )


def _is(word: str, kinds: frozenset[str], names: frozenset[str]) -> bool:
    """Whether an ingredient is of the kind, or called by the word."""
    if any(kinds & kind for kind in _spoken(word)):
        return True
    return word in kinds or {_singular(part) for part in word.split()} <= names


def _spoken(word: str) -> tuple[frozenset[str], ...]:
    """The whole kinds of food that a word or one of its words names."""
    return tuple(_KINDS[part] for part in (word, *word.split()) if part in _KINDS)


def _singular(word: str) -> str:
    if word.endswith("oes"):
        return word[:-2]
    return word[:-1] if len(word) > _SHORT and word.endswith("s") and not word.endswith("ss") else word


def _names(one: Held, item: Ingredient) -> frozenset[str]:
    """The words of the names of an ingredient, and of what was recorded in it."""
    bought = () if item.staple is None else (item.staple.name, *item.staple.other_names)
    names = (name for known in one.foods for name in (known.name, *known.other_names))
    return _words((*names, *bought, item.part.name))


def _words(names: Iterable[str]) -> frozenset[str]:
    """Every word of these names, in the singular."""
    said = "".join(letter if letter.isalpha() else " " for letter in " ".join(names).casefold())
    return frozenset(_singular(word) for word in said.split())
