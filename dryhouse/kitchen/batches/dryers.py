"""The dryers of this kitchen."""

from __future__ import annotations

from dataclasses import replace

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.kitchen.records.problems import refuse
from dryhouse.kitchen.search_words import one_named
from dryhouse.science.errors import InputProblem


def dryers(kitchen: Kitchen, *, retired: bool = False) -> tuple[Dryer, ...]:
    """Every dryer in use, and those put away too where asked."""
    return tuple(d for d in kitchen.journal.where(Dryer) if retired or not d.retired)


def find_dryer(kitchen: Kitchen, text: str) -> Dryer:
    """The dryer of this name or number, or the only one whose name holds the words. Raises InputProblem."""
    return one_named(dryers(kitchen), text, "dryer")


def save_dryer(kitchen: Kitchen, dryer: Dryer) -> Done[Dryer]:
    """A new dryer (id 0), or an edited one."""
    _check(kitchen, dryer)
    pending = Pending()
    if dryer.id == 0:
        pending.add(replace(dryer, id=kitchen.journal.next_id(Dryer)))
        return kitchen.commit(f"Added the dryer {dryer.name}", pending)
    before = kitchen.present(Dryer, dryer.id, "dryer")
    pending.edit(before, dryer)
    return kitchen.commit(f"Changed the dryer {dryer.name}", pending)


def remove_dryer(kitchen: Kitchen, id: int) -> Done[Dryer]:
    """Remove a dryer that no batch used; one that was used is put away instead, so its batches keep it."""
    dryer = kitchen.present(Dryer, id, "dryer")
    pending = Pending()
    if kitchen.journal.where(Batch, dryer=id):
        pending.edit(dryer, replace(dryer, retired=True))
        return kitchen.commit(f"Archived the dryer {dryer.name}; its batches keep it", pending)
    pending.remove(dryer)
    return kitchen.commit(f"Removed the dryer {dryer.name}", pending)


def _check(kitchen: Kitchen, dryer: Dryer) -> None:
    refuse(dryer, kitchen.around())
    if any(d.name.casefold() == dryer.name.strip().casefold() and d.id != dryer.id for d in dryers(kitchen)):
        raise InputProblem(f"There is already a dryer called {dryer.name}.", "name")
