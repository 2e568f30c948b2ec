"""One rule: whom it concerns, when it speaks, what it says and which fact answers it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from dryhouse.science.messages import Message
from dryhouse.science.statuses import Severity
from dryhouse.science.values import Effect, Moment

ROUNDING_C = 0.05 / 1.8
"""Half a tenth of a degree Fahrenheit: limits were published in whole °F, and 71.1 °C is how 160 °F is written in
the other scale. 159.9 °F and 71 °C are below it."""
SURFACES = frozenset({"food", "batch", "lot", "meal"})
"""What a person may be looking at."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A row of the rule table. `limit` is in °C, m, mm, minutes or days, as its condition expects."""

    id: str
    about: frozenset[str]
    """The kinds of food it concerns; `any` concerns all."""
    said_of: frozenset[str]
    """The surfaces it is said on. Stops are said on all."""
    when: str
    """The name of the condition under which it speaks."""
    answered_by: frozenset[str]
    """The one fact (or the few that are one) that can silence it; none where nothing can."""
    limit: float | None
    severity: Severity
    text: str
    short: str
    """The same on a label."""
    source: str
    moment: Moment = "always"
    """When it matters: at what is being done now, for the pot, always."""
    effect: Effect = ""
    """What it does to the food. Only a stop that is *not to be eaten* makes a lot one not to be eaten."""
    rank: int = 0
    """Where it stands in the table, the weightier the earlier."""
    over_c: float | None = None
    under_c: float | None = None
    """Where the limit holds between two temperatures: from which, to which."""
    checks_first: bool = False
    """Whether a lot of which it speaks is one to check before anything else."""

    def concerns(self, kinds: frozenset[str]) -> bool:
        """Whether a food of these kinds is meant."""
        return "any" in self.about or not self.about.isdisjoint(kinds)

    @property
    def bound(self) -> float:
        """The limit of a rule whose condition compares with one."""
        assert self.limit is not None, f"rule {self.id} compares with a limit it does not have"
        return self.limit


Condition = Callable[[Any, Rule], Message | None]
"""Answers why the rule speaks, or None where it is silent."""
