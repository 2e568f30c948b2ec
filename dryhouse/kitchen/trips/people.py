"""Those who go on a trip: how much they eat, what they don't eat, and who falls ill more easily."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from dryhouse.handbook.staples import find_staples
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.cautions.cautions import facts_of_food
from dryhouse.kitchen.foods.catalog import find_foods, food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.meals.ingredients import Ingredient
from dryhouse.kitchen.records import BatchPart, TripPerson
from dryhouse.kitchen.trips.lists import Bag
from dryhouse.kitchen.trips.sheet import DaySheet, TripSheet, appetites_of
from dryhouse.science.safety.facts import UNKNOWN_ANIMAL, UNKNOWN_FOOD
from dryhouse.words import people as words
from dryhouse.words.dates import weekday_words

_KINDS: dict[str, frozenset[str]] = {
    "meat": frozenset({"meat", "poultry", "game", "jerky"}),
    "vegetarian": frozenset({"meat", "poultry", "fish", "game", "jerky"}),
    "vegan": frozenset({"meat", "poultry", "fish", "egg", "dairy", "game", "jerky", "holds egg", "holds dairy"}),
    "milk": frozenset({"dairy", "holds dairy"}),
    "eggs": frozenset({"egg", "holds egg"}),
    "egg": frozenset({"egg", "holds egg"}),
    "dairy": frozenset({"dairy", "holds dairy"}),
    "nuts": frozenset({"nut"}),
    "nut": frozenset({"nut"}),
    "animal food": frozenset({"animal"}),
}
"""Words for whole kinds of food; any other word is looked for in the names of what is eaten."""
_SHORT = 3
_NOT_KNOWN = frozenset({UNKNOWN_ANIMAL, UNKNOWN_FOOD})


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
    for one, bag in zip(eaten, bags, strict=True):
        when = f"{weekday_words(bag.day)} {bag.slot}"
        items = [line.ingredient for line in one.sheet.parts]
        for person in people:
            avoided, unknown = _avoided(kitchen, person, items)
            if avoided:
                yield words.does_not_eat(person.name, avoided, bag.name, when)
            elif unknown:
                yield words.may_hold(person.name, person.avoids, unknown, bag.name)
        if risky and any(c.rule.startswith("heat-") and c.severity == "stop" for c in bag.cautions):
            yield words.at_risk(risky, bag.name, when)


def _avoided(kitchen: Kitchen, person: TripPerson, items: Iterable[Ingredient]) -> tuple[list[str], list[str]]:
    """The ingredients a person does not eat, and those of which nobody can tell."""
    avoids = words_of(person)
    found: list[str] = []
    unknown: list[str] = []
    for item in items if avoids else ():
        kinds, names = _of(kitchen, item)
        if any(_is(word, kinds, names) for word in avoids):
            found.append(item.part.name)
        elif not kinds or kinds & _NOT_KNOWN:
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
        if not set(word.split()) & set(_KINDS) and not find_foods(kitchen, word) and not find_staples(word)
    )


def _is(word: str, kinds: frozenset[str], names: frozenset[str]) -> bool:
    """Whether an ingredient is of the kind, or called by the word."""
    if any(kinds & _KINDS[part] for part in word.split() if part in _KINDS):
        return True
    return word in kinds or {_singular(part) for part in word.split()} <= names


def _singular(word: str) -> str:
    if len(word) > _SHORT and word.endswith("oes"):
        return word[:-2]
    return word[:-1] if len(word) > _SHORT and word.endswith("s") and not word.endswith("ss") else word


def _of(kitchen: Kitchen, item: Ingredient) -> tuple[frozenset[str], frozenset[str]]:
    """The kinds of an ingredient and the words of its names; of a mix those of what was recorded in it, and where
    nothing was, nobody can tell."""
    if item.staple is not None:
        bought = item.staple
        kinds = {bought.kind, *([bought.animal] if bought.animal else [])}
        return frozenset(kinds), _words((bought.name, *bought.other_names, item.part.name))
    if item.food is None:
        return frozenset(), _words((item.part.name,))
    inside = _inside(kitchen, item)
    found: set[str] = set(facts_of_food(item.food).kinds)
    if inside:
        found = (found - _NOT_KNOWN).union(*(facts_of_food(known).kinds for known in inside))
    elif item.food.category == "mixed":
        found.add(UNKNOWN_FOOD)
    names = (name for known in (item.food, *inside) for name in (known.name, *known.other_names))
    return frozenset(found), _words((*names, item.part.name))


def _words(names: Iterable[str]) -> frozenset[str]:
    """Every word of these names, in the singular."""
    said = "".join(letter if letter.isalpha() else " " for letter in " ".join(names).casefold())
    return frozenset(_singular(word) for word in said.split())


def _inside(kitchen: Kitchen, item: Ingredient) -> list[Food]:
    """What was recorded in the batch of a named lot of a mix."""
    batch = None if item.lot is None else item.lot.batch
    parts = () if batch is None else kitchen.journal.where(BatchPart, batch=batch)
    return [food(kitchen, part.food) for part in parts]
