"""Everything known of one food's yield, gathered once: the handbook's figures, her batches, her trays.

Gathering reads the journal; answering from what was gathered is a few multiplications, so that the desk can
answer at every keystroke.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property

from dryhouse.handbook.tables import Food
from dryhouse.handbook.yield_comparisons import comparable_yields, yield_spread
from dryhouse.handbook.yield_spread import cup, finish, raw_water, water_with_range
from dryhouse.kitchen.batches.dryers import dryers
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import YieldPair
from dryhouse.kitchen.records.foods import DRIED_CUP
from dryhouse.kitchen.records.shapes import filled
from dryhouse.kitchen.yields.habits import TrayLoad, hours_for, tray_loads
from dryhouse.science.dryness import adds_up
from dryhouse.science.moisture import LoadPart, load_of
from dryhouse.science.units import SIZES
from dryhouse.science.values import UNCHECKED, Basis, Fact, Figure
from dryhouse.science.workings import Step, step
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.yields.measure import Density, PublishedDensity, density
from dryhouse.science.yields.ratio import HandbookRatio, OwnBatch, Ratio, by_handbook, by_own, joined

_ALL_WATER = Fact(100.0, "%", "")
"""Where nothing is known of the raw food's water, any dry matter is possible."""


@dataclass(frozen=True, slots=True)
class OwnDot:
    """One own batch as the plot and the table show it."""

    batch: int
    ratio: float
    same: bool
    """Of the form and pretreatment asked for."""
    form: str
    pretreatment: str
    started: datetime | None
    temperature_c: float | None
    dryer: str


@dataclass(frozen=True)
class YieldKnowledge:
    """One food (of one form and pretreatment, where asked for), ready to answer from."""

    food: Food
    form: str
    pretreatment: str
    handbook: HandbookRatio | None
    own: Ratio | None
    joined: Ratio | None
    dots: tuple[OwnDot, ...]
    """Oldest first; the last one is her last batch."""
    left_out: tuple[int, ...]
    """Numbers of the batches whose weights don't add up."""
    fresh: Density | None
    dried: Density | None
    refuse: Fact | None
    loads: tuple[TrayLoad, ...]
    hours: Figure | None
    forms: tuple[str, ...]
    pretreatments: tuple[str, ...]

    @property
    def lacks(self) -> str:
        """What the handbook would need to say something of this food."""
        return "water content" if self.food.fact("water") is None else "finished moisture"

    @property
    def form_known(self) -> bool:
        """Whether a batch or a published measure is of the form asked for; nothing asked for is met by all."""
        return not self.form.split() or any(_meets(self.form, known) for known in self.forms)

    @cached_property
    def missing(self) -> tuple[Step, ...]:
        """What is not known and would help."""
        lacking = (
            (self.handbook, Kind.NO_HANDBOOK_YIELD),
            (self.fresh, Kind.NO_FRESH_CUP),
            (self.dried, Kind.NO_DRIED_CUP),
        )
        return tuple(step(kind, food=self.food.name) for known, kind in lacking if known is None)


def learn(kitchen: Kitchen, food: Food, form: str = "", pretreatment: str = "") -> YieldKnowledge:
    """Gather everything known of the food's yield. `form` and `pretreatment` say which batches count in full."""
    pairs = kitchen.journal.yield_pairs(food.slug)
    kept, left_out = sound(kitchen, food, pairs)
    names = {d.id: d.name for d in dryers(kitchen, retired=True)}
    forms = {f: _meets(form, f) for f in {p.form for p in kept}}
    treated = {t: _meets(pretreatment, t) for t in {p.pretreatment for p in kept}}
    ratios = [p.dried_g / p.prepared_g for p in kept]
    same = [forms[p.form] and treated[p.pretreatment] for p in kept]
    shown = (
        (p.batch for p in kept),
        ratios,
        same,
        (p.form for p in kept),
        (p.pretreatment for p in kept),
        (p.started for p in kept),
        (p.set_temperature_c for p in kept),
        (names.get(p.dryer or 0, "") for p in kept),
    )
    dots = tuple(filled(OwnDot, len(kept), shown))
    batches = filled(OwnBatch, len(kept), (ratios, same))
    handbook = _handbook_ratio(kitchen, food)
    like = [p for p, d in zip(kept, dots, strict=True) if d.same] or list(kept)
    return YieldKnowledge(
        food,
        form,
        pretreatment,
        handbook,
        by_own(batches),
        joined(handbook, batches),
        dots,
        left_out,
        density_of(food, "fresh", form, [p.prepared_g / p.prepared_ml for p in like if p.prepared_ml]),
        density_of(food, "dried", form, [p.dried_g / p.dried_ml for p in like if p.dried_ml]),
        food.fact("refuse"),
        tray_loads(kitchen, food, kept),
        hours_for(food, like, form),
        _choices([*forms, *(m.cut for m in food.measures_for("fresh"))]),
        _choices(treated),
    )


def sound(
    kitchen: Kitchen, food: Food, pairs: Sequence[YieldPair]
) -> tuple[tuple[YieldPair, ...], tuple[int, ...]]:
    """The batches whose weights add up, and the numbers of those whose don't.

    The rule is the dryness verdict's own: lighter dried than its dry matter can be, or heavier than it was
    loaded. The dry matter is her own starting moisture where she entered one.
    """
    usual = _range(kitchen, food) or _ALL_WATER
    least = 1.0 - usual.value / 100.0
    kept: list[YieldPair] = []
    left_out: list[YieldPair] = []
    for pair in pairs:
        # between its usual dry matter and what was loaded the verdict need not be asked
        plain = pair.start_moisture_pct is None and 0.0 < least <= pair.dried_g / pair.prepared_g <= 1.0
        (kept if plain or _adds_up(pair, food, usual) else left_out).append(pair)
    return tuple(kept), tuple(p.batch for p in left_out)


def _adds_up(pair: YieldPair, food: Food, water: Fact) -> bool:
    if pair.start_moisture_pct is not None:
        water = Fact(pair.start_moisture_pct, "%", "entered for this batch", "entered")
    load = load_of([LoadPart(food.name, pair.prepared_g, water)])
    return pair.dried_g > 0 and adds_up(load, pair.dried_g)


def _published_water(kitchen: Kitchen, food: Food) -> Fact | None:
    """The water in effect; where she entered her own, the handbook's sample statistics stay with it."""
    water = food.fact("water")
    known = kitchen.handbook.foods.get(food.slug)
    printed = known.fact("water") if known is not None else None
    if water is not None and water.how == "entered" and printed is not None:
        return replace(water, n=printed.n, standard_error=printed.standard_error)
    return water


def _range(kitchen: Kitchen, food: Food) -> Fact | None:
    water = _published_water(kitchen, food)
    return None if water is None else water_with_range(food, water)


def _handbook_ratio(kitchen: Kitchen, food: Food) -> HandbookRatio | None:
    water, target = _published_water(kitchen, food), finish_of(food)
    if water is None or target is None or not target.value < water.value < 100:
        return None
    return by_handbook(water, target, raw_water(food), finish(food), yield_spread(), comparable_yields(food.slug))


def finish_of(food: Food) -> Fact | None:
    """The moisture a dried weight is reckoned at: the food's target, else the water of the article sold dried.

    The second is a yardstick for weights; its note says that it is no target.
    """
    return food.fact("target_moisture") or food.fact("dried_water")


def density_of(food: Food, state: str, form: str, own: Sequence[float]) -> Density | None:
    """Bulk density of the food in one state (`fresh` or `dried`), her own measured volumes first.

    One published measure, or the ones of the cut asked for, are taken as that cut; several cuts where none
    is asked for carry the spread from cut to cut.
    """
    measures = food.measures_for(state)
    of_form = [m for m in measures if form and _meets(form, m.cut)]
    same_cut = bool(of_form) or (not form and len(measures) == 1)
    weighed = food.fact(DRIED_CUP) if state == "dried" else None
    if weighed is not None and weighed.value > 0:
        own = [*own, weighed.value / SIZES["cup"]]
    published = [
        PublishedDensity(
            m.density,
            m.cut,
            m.source,
            Basis("handbook", m.source + (UNCHECKED if m.how == "recalled" else "")),
        )
        for m in of_form or measures
    ]
    return density(state, published, cup(state, same_cut=same_cut), own)


def _meets(asked: str, has: str) -> bool:
    """Whether a batch's form (or pretreatment) is the one asked for; nothing asked for is met by all."""
    wanted, given = asked.casefold().split(), has.casefold().split()
    return all(any(word.rstrip("s") == other.rstrip("s") for other in given) for word in wanted)


def _choices(words: Iterable[str]) -> tuple[str, ...]:
    """The different words, as first written, in order of the alphabet."""
    once = {w.casefold(): w for w in reversed([w.strip() for w in words]) if w}
    return tuple(once[key] for key in sorted(once))
