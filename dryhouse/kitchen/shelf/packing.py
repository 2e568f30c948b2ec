"""Packing a batch into jars and bags, and shelving dried food that was bought."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from dryhouse.kitchen.batches.log import batch_named
from dryhouse.kitchen.batches.naming import batch_name
from dryhouse.kitchen.calendar import start_of, today
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.shelved import name_of_lot
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, Done, Pending
from dryhouse.kitchen.records import Batch, Lot, LotMove
from dryhouse.kitchen.records.batches import FINISHED, PLANNED
from dryhouse.kitchen.records.lots import BOUGHT
from dryhouse.kitchen.search_words import number_typed
from dryhouse.kitchen.settings import style, style_of
from dryhouse.science.errors import InputProblem, NotKnown
from dryhouse.science.quantities import Mass, Volume
from dryhouse.words.portions import portion_name

_CRUMB = 0.05
"""Of a serving: less is nothing left."""
_SCALE_G = 0.5
_SLACK = 1.02
"""Scales and spoons differ: two in a hundred more than was dried is let pass."""


@dataclass(frozen=True, slots=True)
class Package:
    """One jar or bag as it is packed."""

    kind: str = "jar"
    mass: Mass | None = None
    volume: Volume | None = None
    place: int | None = None
    sealed: bool = True
    name: str = ""
    notes: str = ""
    in_oil: bool | None = None


def unpacked_g(kitchen: Kitchen, batch: Batch) -> float | None:
    """How much of the dried mass is not in a lot yet; None where the dried mass is not recorded."""
    if batch.dried_mass is None:
        return None
    packed = sum(lot.mass.si for lot in kitchen.journal.where(Lot, batch=batch.id) if lot.mass)
    return max(0.0, batch.dried_mass.si - packed)


def may_be_packed(kitchen: Kitchen, batch: Batch) -> bool:
    """Whether it is off the dryer, and some of it is not in a lot yet as far as is known."""
    left = unpacked_g(kitchen, batch)
    return batch.state == FINISHED and (left is None or left > 1.0)


def unpacked_ml(kitchen: Kitchen, batch: Batch) -> float | None:
    """The same by measure, of a batch that was measured and not weighed."""
    if batch.dried_volume is None or batch.dried_mass is not None:
        return None
    packed = sum(lot.volume.si for lot in kitchen.journal.where(Lot, batch=batch.id) if lot.volume)
    return max(0.0, batch.dried_volume.si - packed)


def batch_to_pack(kitchen: Kitchen, text: str) -> Batch:
    """The batch of this number, or the one finished batch of this name that waits to be packed. Raises
    InputProblem."""
    if number_typed(text) is not None:
        return batch_named(kitchen, text)
    ids = kitchen.journal.batch_ids(BatchQuery(text=text, states=(FINISHED,)))
    packed = {lot.batch for lot in kitchen.journal.where(Lot, batch=tuple(ids))} if ids else set()
    open_ones = sorted(id for id in ids if id not in packed)
    if len(open_ones) == 1:
        return kitchen.present(Batch, open_ones[0], "batch", "batch")
    if open_ones:
        listed = ", ".join(map(str, open_ones))
        raise InputProblem(
            f"More than one batch called “{text}” is to be packed ({listed}); give its number.", "batch"
        )
    raise NotKnown(f"No finished batch called “{text}” is still to be packed.", "batch")


def split(kitchen: Kitchen, batch: Batch, count: int, package: Package | None = None) -> tuple[Package, ...]:
    """What is not packed yet, in `count` equal packages like the one given. Raises InputProblem."""
    if not 1 <= count <= 200:
        raise InputProblem("Pack into between 1 and 200 jars or bags.", "count")
    like = package or Package()
    rest = unpacked_g(kitchen, batch)
    dried = batch.dried_mass.si if batch.dried_mass else None
    share = rest / count if rest else None
    volume = None
    if batch.dried_volume is not None and share is not None and dried:
        volume = Volume(batch.dried_volume.si * share / dried)
    elif left := unpacked_ml(kitchen, batch):
        volume = Volume(left / count)
    mass = Mass(share) if share is not None else None
    return tuple(replace(like, mass=mass, volume=volume) for _ in range(count))


def servings_left(kitchen: Kitchen, batch: Batch) -> float | None:
    """Servings of a dried pot that are not packed yet; None where the batch says none, or has no dried weight."""
    rest = unpacked_g(kitchen, batch)
    if batch.servings is None or rest is None or not batch.dried_mass:
        return None
    return batch.servings * rest / batch.dried_mass.si


def split_servings(
    kitchen: Kitchen, batch: Batch, each: float = 1.0, package: Package | None = None
) -> tuple[Package, ...]:
    """What is not packed yet of a dried pot, in packages of `each` servings, called `1 of 6` where that is one.

    Raises InputProblem where the batch says no servings, or fewer are left than one package holds.
    """
    left = servings_left(kitchen, batch)
    if left is None or batch.servings is None:
        raise InputProblem("Say first how many servings this pot made; then it is packed by them.", "servings")
    count = round(left / each) if each > 0 else 0
    if count < 1:
        said = "pack fewer servings into each bag" if left > _CRUMB else "all of it is packed already"
        raise InputProblem(f"There is not so much left of it: {said}.", "servings")
    shares = split(kitchen, batch, count, package or Package("bag"))
    if each != 1.0:
        return shares
    whole = round(batch.servings)
    first = whole - count
    return tuple(replace(share, name=portion_name(first + n, whole)) for n, share in enumerate(shares, 1))


def pack(
    kitchen: Kitchen,
    batch: int,
    packages: Sequence[Package],
    *,
    packed_on: date | None = None,
    conditioned_from: date | None = None,
    conditioned_to: date | None = None,
    more_than_dried: bool = False,
) -> Done[Lot]:
    """Pack a batch into jars and bags, each a lot of its own.

    Raises InputProblem where the masses together exceed what was dried and is not packed yet, unless
    `more_than_dried` says that this is meant. One package without a mass holds all that is left.
    """
    source = kitchen.present(Batch, batch, "batch", "batch")
    if not packages:
        raise InputProblem("Pack it into at least one jar or bag.", "packages")
    if source.state == PLANNED:
        raise InputProblem(f"Batch {batch} has not been dried yet: start it or log it first.", "batch")
    if source.state != FINISHED:
        raise InputProblem(f"Batch {batch} is still on the dryer: take it off first.", "batch")
    day = _packed_on(kitchen, packed_on)
    if source.started is not None and start_of(kitchen, day + timedelta(days=1)) <= source.started:
        raise InputProblem("That is before the batch went into the dryer.", "packed_on")
    rest = unpacked_g(kitchen, source)
    if len(packages) == 1 and packages[0].mass is None and rest:
        packages = (replace(packages[0], mass=Mass(rest)),)
    together = sum(p.mass.si for p in packages if p.mass)
    told = style_of(kitchen, packages[0].mass) if packages[0].mass else style(kitchen)
    if rest is not None and together > rest * _SLACK + 0.5 and not more_than_dried:
        raise InputProblem(
            f"The packages hold {told.mass(together)} together, but only {told.mass(rest)} of the batch is left to "
            "pack. Correct the weights, or say that more was packed than was weighed.",
            "mass",
        )
    if not more_than_dried and not any(p.mass for p in packages):
        _refuse_what_is_packed(kitchen, source, packages)
    pending = Pending()
    for package in packages:
        lot = _lot_of(kitchen, package, source.food, day)
        lot = replace(lot, batch=batch, conditioned_from=conditioned_from, conditioned_to=conditioned_to)
        pending.add(lot, *_put(kitchen, lot, package.place))
    name = batch_name(kitchen, source)
    said = " (more than was weighed dry)" if rest is not None and together > rest * _SLACK + 0.5 else ""
    return kitchen.commit(f"Packed {name} into {_count(packages)}{said}", pending)


def _refuse_what_is_packed(kitchen: Kitchen, batch: Batch, packages: Sequence[Package]) -> None:
    """Raises InputProblem where packages that say no weight would hold what is in others already."""
    grams, ml = unpacked_g(kitchen, batch), unpacked_ml(kitchen, batch)
    together = sum(p.volume.si for p in packages if p.volume)
    if (grams is not None and grams <= _SCALE_G) or (ml is not None and (ml <= 0 or together > ml * _SLACK)):
        raise InputProblem(
            f"All of {batch_name(kitchen, batch)} is packed already. To pack it otherwise, remove its lots first; "
            "where it came to more than was weighed, give the weight of each package.",
            "packages",
        )


def shelve(
    kitchen: Kitchen,
    text: str,
    package: Package,
    keep_by: date | None,
    *,
    bought_on: date | None = None,
) -> Done[Lot]:
    """Put bought dried food on the shelf, with the date printed on its package. Raises InputProblem without one."""
    known = food(kitchen, text)
    if keep_by is None:
        raise InputProblem(
            "Which date is printed on the package? Without one this program cannot tell.", "bought_keep_by"
        )
    day = _packed_on(kitchen, bought_on)
    lot = replace(_lot_of(kitchen, package, known.slug, day), bought_keep_by=keep_by, origin=BOUGHT)
    pending = Pending()
    pending.add(lot, *_put(kitchen, lot, package.place))
    return kitchen.commit(f"Added {package.name.strip() or name_of_lot(kitchen, lot)} to the shelf", pending)


def _lot_of(kitchen: Kitchen, package: Package, food: str, day: date) -> Lot:
    """The package as a lot of its own. An open container is never sealed."""
    return Lot(
        food=food,
        packed_on=day,
        name=package.name.strip(),
        package=package.kind,
        sealed=package.sealed and package.kind != "open container",
        mass=package.mass,
        volume=package.volume,
        notes=package.notes.strip(),
        in_oil=package.in_oil,
        id=kitchen.journal.next_id(Lot),
    )


def _put(kitchen: Kitchen, lot: Lot, place: int | None) -> list[LotMove]:
    """The first move, on the packing day. None without a place; the shelf says so."""
    if place is None:
        return []
    moment = min(kitchen.now(), start_of(kitchen, lot.packed_on + timedelta(days=1)) - timedelta(seconds=1))
    return [LotMove(lot.id, place, max(moment, start_of(kitchen, lot.packed_on)), kitchen.journal.next_id(LotMove))]


def _packed_on(kitchen: Kitchen, day: date | None) -> date:
    chosen = day or today(kitchen)
    if chosen > today(kitchen) + timedelta(days=1):
        raise InputProblem("That day is still to come.", "packed_on")
    return chosen


_PLURALS = {"jar with absorber": "jars with absorber"}


def _count(packages: Sequence[Package]) -> str:
    kinds: dict[str, int] = {}
    for package in packages:
        kinds[package.kind] = kinds.get(package.kind, 0) + 1
    return ", ".join(f"{n} {kind if n == 1 else _PLURALS.get(kind, kind + 's')}" for kind, n in kinds.items())
