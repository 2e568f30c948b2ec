"""Lots: what a person does with a jar or bag once it is on the shelf."""

from __future__ import annotations

from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.room import Kitchen
from dryhouse.science.errors import InputProblem


def lot_named(kitchen: Kitchen, text: str) -> Lot:
    """The lot of this number. Raises InputProblem."""
    number = text.strip().lstrip("#")
    found = kitchen.journal.get(Lot, int(number)) if number.isdigit() else None
    if found is None:
        raise InputProblem(f"There is no lot “{text}”; “dryhouse shelf” lists their numbers.", "lot")
    return found
