"""Which of her records a record from elsewhere is: the same in every field, or the same thing changed meanwhile.

In records that come, a link below 0 names a record of hers (`kitchen.ports.Staging`); hers are put in that form to
be compared.
"""

from __future__ import annotations

from collections import OrderedDict, defaultdict
from collections.abc import Callable, Iterable, Mapping
from operator import attrgetter
from typing import Any

from dryhouse.kitchen.ports import Journal
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.links import KNOWN_BY, LINKS, OWNER
from dryhouse.kitchen.records.shapes import linked, shapes

_OWNERS_HELD, _OWNERS_AT_ONCE = 500, 50
_MOST_CHANGED, _LEAST_ALIKE = 3, 3
"""Of two records of one number that stand by themselves and are known by something else: they are one and the same
where so few fields differ and so many that say anything are alike. Our own bounds: two kitchens number alike."""


def as_coming(mine: Any) -> Any:
    """A record of hers with its links as a record that comes would have them."""
    links = {name: -getattr(mine, name) for name in LINKS.get(type(mine), {}) if getattr(mine, name) is not None}
    return linked(mine, links) if links else mine


def unlike(mine: Any, coming: Any) -> tuple[str, ...]:
    """The fields in which a record of hers and one that comes differ. Most that were exported once are the same,
    and that is seen before one is put in the form of the other."""
    said, links = _said(type(mine))
    if said(mine) == said(coming) and all(_negated(getattr(mine, n)) == getattr(coming, n) for n in links):
        return ()
    return differing(as_coming(mine), coming)


def _negated(number: int | None) -> int | None:
    return None if number is None else -number


_Said = tuple[Callable[[Any], Any], tuple[str, ...]]
_SAID: dict[type[Any], _Said] = {}


def _said(kind: type[Any]) -> _Said:
    """What a record says beside its number, its links and what is worked out; and the names of its links."""
    if kind not in _SAID:
        links = tuple(LINKS.get(kind, {}))
        _SAID[kind] = attrgetter(*(name for name in _compared(kind) if name not in links)), links
    return _SAID[kind]


def _compared(kind: type[Any]) -> tuple[str, ...]:
    return tuple(shape.name for shape in shapes(kind) if shape.name != "id" and not shape.about.computed)


def settled(record: Any, bases: Mapping[type, int]) -> Any:
    """A record that came, with its links as they are in the journal."""
    links = {}
    for name, target in LINKS.get(type(record), {}).items():
        if (number := getattr(record, name)) is not None:
            links[name] = -number if number < 0 else bases[target] + number
    return linked(record, links) if links else record


def differing(one: Any, other: Any) -> tuple[str, ...]:
    """The fields in which two records of a kind differ, their numbers and what is worked out aside."""
    return tuple(name for name in _compared(type(one)) if getattr(one, name) != getattr(other, name))


class Known:
    """Her records, each of them found once."""

    def __init__(self, journal: Journal) -> None:
        self._journal = journal
        self.none_of = {kind: not journal.highest_id(kind) for kind in RECORD_KINDS}
        """The kinds of which she never had a record."""
        self._found: defaultdict[type, set[int]] = defaultdict(set)
        self._owned: OrderedDict[tuple[type, int], tuple[Any, ...]] = OrderedDict()

    def find(self, record: Any, number: int) -> tuple[Any, tuple[str, ...]] | None:
        """The record of hers that this one is, if any, and the fields in which they differ. `number` is what it was
        called where it comes from."""
        kind = type(record)
        found = self._unchanged(record, number)
        if found is None:
            near = [m for m in self._near(record, number) if m.id not in self._found[kind]]
            found = _chosen(record, number, near)
        if found is not None:
            self._found[kind].add(found[0].id)
        return found

    def _unchanged(self, record: Any, number: int) -> tuple[Any, tuple[str, ...]] | None:
        """Hers of that number where nothing in it differs: none can be nearer, and none is looked for."""
        kind = type(record)
        if kind in OWNER:
            owner = getattr(record, OWNER[kind])
            mine = next((m for m in self._parts(kind, -owner) if m.id == number), None) if owner < 0 else None
        else:
            mine = self._journal.get(kind, number)
        if mine is None or mine.id in self._found[kind] or unlike(mine, record):
            return None
        return mine, ()

    def _near(self, record: Any, number: int) -> Iterable[Any]:
        kind = type(record)
        if kind in OWNER:
            owner = getattr(record, OWNER[kind])
            return self._parts(kind, -owner) if owner < 0 else ()
        by = {name: getattr(record, name) for name in KNOWN_BY[kind] if name not in LINKS.get(kind, {})}
        near = self._journal.where(kind, **by)
        numbered = self._journal.get(kind, number)
        return near if numbered is None or numbered in near else (*near, numbered)

    def _parts(self, kind: type[Any], owner: int) -> tuple[Any, ...]:
        """All of hers that belong to one record. The next few, which mostly come next, are read too."""
        if (kind, owner) not in self._owned:
            owners = tuple(range(owner, owner + _OWNERS_AT_ONCE))
            read: dict[int, list[Any]] = {number: [] for number in owners}
            for part in self._journal.where(kind, **{OWNER[kind]: owners}):
                read[getattr(part, OWNER[kind])].append(part)
            self._owned.update(((kind, number), tuple(parts)) for number, parts in read.items())
            while len(self._owned) > _OWNERS_HELD:
                self._owned.popitem(last=False)
        return self._owned[kind, owner]


def _chosen(record: Any, number: int, near: Iterable[Any]) -> tuple[Any, tuple[str, ...]] | None:
    """The one with the fewest fields unlike, of those that may be it, and those fields."""
    beside = {mine.id: (mine, unlike(mine, record)) for mine in near}
    may_be = [
        (len(fields), id != number, id)
        for id, (_, fields) in beside.items()
        if not fields or _is_known(record, fields, id == number) or (id == number and _is_alike(record, fields))
    ]
    return beside[min(may_be)[2]] if may_be else None


def _is_known(record: Any, fields: tuple[str, ...], numbered: bool) -> bool:
    """Whether what a person knows it by is the same; where some of that is missing, more has to be alike."""
    known_by = KNOWN_BY[type(record)]
    if set(known_by).intersection(fields):
        return False
    if all(getattr(record, name) is not None for name in known_by):
        return True
    return (numbered and len(fields) <= _MOST_CHANGED) or _mostly_alike(record, fields)


def _is_alike(record: Any, fields: tuple[str, ...]) -> bool:
    """Of one number: a part of the same whole, or mostly alike."""
    return type(record) in OWNER or _mostly_alike(record, fields)


def _mostly_alike(record: Any, fields: tuple[str, ...]) -> bool:
    """Few fields differ, and enough that say anything are alike; what it was made of says twice as much."""
    counts = (shape for shape in shapes(type(record)) if shape.name != "id" and not shape.about.computed)
    every = [shape for shape in counts if shape.name not in fields]
    said = [shape.name for shape in every if getattr(record, shape.name) not in (shape.default, "")]
    made_of = set(KNOWN_BY[type(record)]).intersection(LINKS.get(type(record), {}))
    return len(fields) <= _MOST_CHANGED and len(said) + len(made_of.intersection(said)) >= _LEAST_ALIKE
