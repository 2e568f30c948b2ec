"""How records of the first version are read today: what their words say, and what nobody was asked then.

Frozen: the migration from that version and the reading of its exports say the same of a record because both
ask here. Nothing is taken for an answer that was only a preset.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from dryhouse.kitchen.records.batches import OTHER_PRECOOK, PRECOOK_METHODS, ROASTED, STEAMED, Batch
from dryhouse.kitchen.records.foods import OwnFood
from dryhouse.kitchen.records.lots import BOUGHT, HOME, Lot
from dryhouse.kitchen.records.meals import SHORT_SOAK, Meal

_WAYS = {
    STEAMED: re.compile(r"\b(simmered|steamed|boiled)\b"),
    ROASTED: re.compile(r"\b(oven[- ]roasted|roasted (?:in|till|until|to|\d+)|roasted$|roasted,)"),
}
_DOUBTFUL = re.compile(
    r"\b(not|no|never|hardly|barely|half|part|partly|par|pan|dryer|dehydrator|campfire|fire|coals|grill|or|"
    r"fried|browned|seared|raw|cold|egg|eggs|if|maybe|perhaps|seeds?|nuts?)\b|\?"
)
_HELD = {"meat": "meat", "poultry": "poultry", "fish": "fish", "egg": "egg", "dairy": "milk"}


def precook_of(words: str) -> str:
    """The method that free words unmistakably name; `other` where they may mean anything else."""
    said = " ".join(words.split()).casefold()
    if not said:
        return ""
    if said in PRECOOK_METHODS:
        return said
    named = [method for method, way in _WAYS.items() if way.search(said)]
    return named[0] if len(named) == 1 and not _DOUBTFUL.search(said) else OTHER_PRECOOK


def notes_with(notes: str, words: str) -> str:
    """The notes of a batch with the words its cooking was once described in, so that none of them is lost."""
    if not words.strip() or words.strip().casefold() in PRECOOK_METHODS:
        return notes
    kept = f"Cooked first: {words.strip()}."
    return f"{notes.rstrip()} {kept}" if notes.strip() else kept


def contents_of(category: str) -> str:
    """What an own food holds by its kind. Only a kind of animal food is an answer: the rest had a preset kind."""
    return _HELD.get(category, "")


def origin_of(batch: object, bought_keep_by: object) -> str:
    """Where a lot came from: what had no batch and a printed date was bought."""
    return BOUGHT if not batch and bought_keep_by else HOME


def cooking_of(words: str) -> str:
    """How a meal is cooked: what was once called simmering was soaked first."""
    return SHORT_SOAK if words == "simmer" else words


def read_today(kind: type[Any], values: Mapping[str, Any]) -> Mapping[str, Any]:
    """The values of an exported record; one written before a field was there gets it as the migration gives it."""
    if kind is Lot and "origin" not in values:
        return {**values, "origin": origin_of(values.get("batch"), values.get("bought_keep_by"))}
    if kind is OwnFood and "contains" not in values:
        return {**values, "contains": contents_of(str(values.get("category", "")))}
    if kind is Meal and isinstance(values.get("cooking"), str):
        return {**values, "cooking": cooking_of(values["cooking"])}
    words, notes = values.get("precook_method"), values.get("notes") or ""
    if kind is Batch and "identified" not in values and isinstance(words, str) and isinstance(notes, str):
        return {**values, "precook_method": precook_of(words), "notes": notes_with(notes, words)}
    return values
