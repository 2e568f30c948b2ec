"""How this person likes numbers shown. Kept in the journal, so that it travels with her."""

from __future__ import annotations

from dataclasses import replace

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Preference
from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity, unit_typed
from dryhouse.science.units import METRIC_UNITS

UNITS_KEY, COMMA_KEY = "units", "decimal_comma"


def preference(kitchen: Kitchen, key: str, missing: str = "") -> str:
    """One setting, or `missing` where it was never set."""
    found = kitchen.journal.where(Preference, key=key)
    return found[0].value if found else missing


def style(kitchen: Kitchen) -> Style:
    """US customary or metric, point or comma; US and point until she chooses."""
    chosen = {p.key: p.value for p in kitchen.journal.where(Preference, key=(UNITS_KEY, COMMA_KEY))}
    return Style(chosen.get(UNITS_KEY, US), chosen.get(COMMA_KEY) == "yes")


def style_of(kitchen: Kitchen, amount: Quantity) -> Style:
    """The same in the system of an amount as it was typed: grams typed are grams answered."""
    ours = style(kitchen)
    if not amount.typed:
        return ours
    return replace(ours, system=METRIC if unit_typed(amount) in METRIC_UNITS else US)


def set_preference(kitchen: Kitchen, key: str, value: str) -> Done[Preference]:
    """Set one setting. Raises InputProblem."""
    if key == UNITS_KEY and value not in (US, METRIC):
        raise InputProblem(f"Units are {US} or {METRIC}, not “{value}”.", "units")
    before = kitchen.journal.where(Preference, key=key)
    pending = Pending()
    if before:
        pending.edit(before[0], Preference(key, value, before[0].id))
    else:
        pending.add(Preference(key, value, kitchen.journal.next_id(Preference)))
    return kitchen.commit(f"Set {key.replace('_', ' ')} to {value}", pending)
