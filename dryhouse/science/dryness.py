"""The dryness verdict: how likely it is that a load is at its target moisture, in a word.

It speaks of dryness only, never of safety. The probability is read from one belief about the dry matter of the
load (`dry_matter.py`): what its food says, no weight below its dry matter, what the run's curve taught, how a
cooled piece felt. The borders of the words are our own choice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dryhouse.science.moisture import Load, believed, load_spread, mass_at, moisture_at, moisture_now, scale_step
from dryhouse.science.statuses import Feel, Lack, VerdictName
from dryhouse.science.values import Fact, Figure

if TYPE_CHECKING:
    from dryhouse.science.dry_matter import Belief

BORDERS = (
    (VerdictName.DRY_ENOUGH, 0.80),
    (VerdictName.PROBABLY_DRY, 0.50),
    (VerdictName.NEARLY, 0.20),
    (VerdictName.STILL_MOIST, 0.0),
)
"""The least probability of each word."""
HARDLY_EVER_SD = 2.05
"""Fewer than 2 in 100 loads hold so little: a lighter weight does not add up (our own border, in standard
deviations of ln S)."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a load is dry enough: the word, how likely that is, and what it rests on (g, %)."""

    name: VerdictName
    grams: float = 0.0
    load: Load | None = None
    target_pct: float = 0.0
    of_sample: bool = False
    """Of the one sample tray that stands for the load."""
    on_dryer: bool = False
    probability: float | None = None
    """That the load is at its target moisture or below; None where the weights cannot say."""
    now: Figure | None = None
    """The moisture, % wet basis, of the same belief."""
    feel: Feel | None = None
    """How a cooled piece felt, where that is recorded."""
    hand_agrees: bool = False
    """Whether that made it more likely to be dry."""
    lacks: tuple[Lack, ...] = ()
    """What is not recorded, where it is unknown."""

    @property
    def moisture_pct(self) -> float:
        """Moisture, % wet basis: the same figure as is shown beside the verdict."""
        return self.now.value if self.now is not None else 0.0

    @property
    def to_go_g(self) -> float:
        """Water still to go, in grams, by that moisture; none where the target is reached."""
        solids = self.grams * (1.0 - self.moisture_pct / 100.0)
        return 0.0 if self.now is None else max(self.grams - mass_at(solids, self.target_pct), 0.0)

    @property
    def dry(self) -> bool | None:
        """Whether it counts as dry: where it is, or probably is and a hand test says so too; not, where a hand test
        or the table's own figure says that it is moist; None where the doubt alone is wide or nothing is known."""
        if self.name in (VerdictName.UNKNOWN, VerdictName.MISMATCH):
            return None
        if self.name == VerdictName.DRY_ENOUGH:
            return True
        if self.feel is not None:
            return self.name == VerdictName.PROBABLY_DRY and self.hand_agrees
        return None if self.name == VerdictName.PROBABLY_DRY or self._dry_by_the_table else False

    @property
    def in_doubt(self) -> bool:
        """Weighed, and it may be dry and may not."""
        return self.probability is not None and self.dry is None

    @property
    def _dry_by_the_table(self) -> bool:
        return self.load is not None and _dry_as_told(self.load, self.grams, self.target_pct)


def _dry_as_told(load: Load, grams: float, target_pct: float) -> bool:
    """Whether it is at its target by the food's own figure, within the scale's step."""
    return moisture_at(max(grams - scale_step(load), 1e-9), load.solids) <= target_pct + 1e-9


def adds_up(load: Load, grams: float) -> bool:
    """Whether such a load can weigh that: no more than was loaded, and no less than its dry matter may be."""
    step = scale_step(load)
    return 0.0 < grams <= load.grams + step and grams + step >= least_dry_matter(load)


def least_dry_matter(load: Load) -> float:
    """Grams of dry matter that such a load hardly ever falls short of."""
    return load.solids * math.exp(-HARDLY_EVER_SD * load_spread(load)) if load.solids > 0 else 0.0


def verdict(
    load: Load, grams: float, target: Fact, learned: Belief | None = None, feel: Feel | None = None
) -> Verdict:
    """The verdict on a load that weighs `grams` (net g), dried to `target` (% wet basis).

    `learned` is what the run's curve taught of the dry matter, as shares of the load; `feel` how a cooled piece
    felt at this weight. A load without any doubt is dry or it is not.
    """
    if not adds_up(load, grams):
        return Verdict(VerdictName.MISMATCH, grams, load, target.value)
    by_weight = believed(load, grams, learned)
    found = by_weight if feel is None else by_weight.felt(feel, grams / load.grams)

    def likely_by(belief: Belief) -> float:
        if not load.doubted:
            return float(_dry_as_told(load, grams, target.value))
        return belief.dry_probability(max(grams - scale_step(load), 1e-9) / load.grams, target.value)

    likely = likely_by(found)
    name = next(name for name, least in BORDERS if likely >= least)
    agrees = feel is not None and likely >= likely_by(by_weight)
    now = moisture_now(load, grams, found)
    return Verdict(name, grams, load, target.value, probability=likely, now=now, feel=feel, hand_agrees=agrees)
