"""The small frozen values every figure travels in.

A `Fact` is one published or entered number with its source. A `Figure` is one computed answer with
its interval, its basis, its workings and its cautions: the window, the command line, the export and
the label all print that same value. What is missing is `None`; no default looks measured.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from dryhouse.science.messages import Message
from dryhouse.science.statuses import Severity
from dryhouse.science.workings import Workings

SEVERITIES: tuple[Severity, ...] = tuple(Severity)
"""The gravest first."""

Moment = Literal["now", "pot", "always"]
MOMENTS: tuple[Moment, ...] = ("now", "pot", "always")
"""When a caution matters: at what is being done now, when the food is soaked, cooked and eaten, or at any time."""

Effect = Literal["", "not to be eaten", "limits storage", "instructs the pot"]
EFFECTS: tuple[Effect, ...] = ("", "not to be eaten", "limits storage", "instructs the pot")
"""What a caution does to the food it is said of. Only a stop that is *not to be eaten* makes it *do not eat*."""

MIDDLE_80_SD = 1.2815515655446004
"""Half the middle 80 % of a normal distribution, in standard deviations: its 90 % point."""

UNCHECKED = " (from memory, not yet checked)"
"""What is added to a source that was recalled and not read again."""

BasisKind = Literal["own", "handbook", "entered", "common practice", "assumption"]


@dataclass(frozen=True, slots=True)
class Basis:
    """Where a figure comes from: own records (with n), the handbook, or what was entered."""

    kind: BasisKind
    source: str = ""
    n: int | None = None
    said: Message | None = None
    """What was assumed, or which of her records it is, where that is no published source."""


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety statement with its severity and its source. `rule` names the row it comes from."""

    severity: Severity
    text: str
    source: str
    rule: str = ""
    reasons: tuple[Message | str, ...] = ()
    """Why it is said here."""
    moment: Moment = "always"
    effect: Effect = ""
    short: str = ""
    """The same in the few words of a label."""
    rank: int = 0
    """Where its rule stands in the table, the weightier the earlier."""

    @property
    def brief(self) -> str:
        """The few words of a label, or the whole text where there are none."""
        return self.short or self.text

    @property
    def forbids_eating(self) -> bool:
        """Whether this alone makes food one that is not to be eaten."""
        return self.severity == "stop" and self.effect == "not to be eaten"


@dataclass(frozen=True, slots=True)
class Measure:
    """The same answer in a household measure (cups, tablespoons, …)."""

    value: float
    unit: str
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Fact:
    """One number from the handbook, or entered by the person in its place.

    `source` is a readable citation; `how` says whether it was read at the source, recalled, computed
    from read values, entered by the person, or a fact of the trade with no source.
    `n` and `standard_error` are the source's own sample statistics, where it gives them.
    """

    value: float
    unit: str
    source: str
    how: Literal["read", "recalled", "computed", "entered", "common practice", "own rule"] = "read"
    low: float | None = None
    high: float | None = None
    n: int | None = None
    standard_error: float | None = None
    note: str = ""

    @property
    def basis(self) -> Basis:
        """The basis a figure that rests on this fact should name."""
        if self.how == "entered":
            return Basis("entered", self.source)
        if self.how == "common practice":
            return Basis("common practice", self.source)
        return Basis("handbook", self.source + (UNCHECKED if self.how == "recalled" else ""))


@dataclass(frozen=True, slots=True)
class Figure:
    """One computed answer.

    `low` and `high` bound the middle 80 % where an interval exists. `unit` is a short name such as
    `g`, `oz`, `ml`, `cup`, `%`, `day`, `h`.
    """

    value: float
    unit: str
    low: float | None = None
    high: float | None = None
    measure: Measure | None = None
    basis: tuple[Basis, ...] = ()
    workings: Workings = ()
    cautions: tuple[Caution, ...] = ()
    as_is: bool = False
    """Shown in its own unit in every system, as nutrients are on every label."""

    def with_cautions(self, cautions: Iterable[Caution]) -> Figure:
        """The same figure with further cautions, each said once, the gravest first."""
        return replace(self, cautions=gravest_first((*self.cautions, *cautions)))


def gravest_first(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Each caution once with all its reasons: stops before warnings before notes, then by moment (now, pot,
    always), then by the rank of its rule in the table, otherwise in the order given."""
    once: dict[Caution, dict[Message | str, None]] = {}
    for caution in cautions:
        bare = replace(caution, reasons=()) if caution.reasons else caution
        once.setdefault(bare, {}).update(dict.fromkeys(caution.reasons))
    said = [replace(bare, reasons=tuple(reasons)) if reasons else bare for bare, reasons in once.items()]
    return tuple(sorted(said, key=_weight))


def _weight(caution: Caution) -> tuple[int, int, int]:
    return SEVERITIES.index(caution.severity), MOMENTS.index(caution.moment), caution.rank


def merge_bases(*groups: Iterable[Basis]) -> tuple[Basis, ...]:
    """Every basis once, in the order first named."""
    return tuple(dict.fromkeys(b for group in groups for b in group))
