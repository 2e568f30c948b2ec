"""The dryness verdict in a sentence, in the units the person reads. It speaks of dryness, never of safety."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from dryhouse.science.display import US, Style
from dryhouse.science.dryness import BORDERS, Verdict, least_dry_matter
from dryhouse.science.moisture import Load, dry_as_loaded
from dryhouse.science.statuses import Feel, Lack, VerdictName
from dryhouse.science.units import SIZES
from dryhouse.science.values import Fact

LEAST_NEARLY, LEAST_PROBABLY = dict(BORDERS)[VerdictName.NEARLY], dict(BORDERS)[VerdictName.PROBABLY_DRY]
HARDLY_OPEN = 0.05
"""Below this probability of being dry nothing need be broken to see that it is moist (our own choice)."""
BRITTLE_BELOW = 15.0
"""Food dried to less moisture than this (% wet basis) is brittle when it is dry; the rest is leathery."""


def verdict_sentence(verdict: Verdict, style: Style) -> str:
    """The verdict with its figures, such as `Nearly dry by weight: 12 % moisture (4 % to 19 %), target 10 %; 0.8 oz
    of water still to go.`"""
    said = _SAY[verdict.name](verdict, style)
    return f"By the sample tray: {said[:1].lower()}{said[1:]}" if verdict.of_sample else said


def mismatch_sentence(load: Load, grams: float, style: Style) -> str:
    """Which of tare, loss or starting moisture could explain weights that don't add up, and which starting
    moisture would."""
    loaded, now = style.mass(load.grams), style.mass(grams)
    if grams > load.grams:
        return (
            f"Weights don't add up: {now} is more than the {loaded} that was loaded. Was a tray or jar weighed "
            f"along? That would be a tare of at least {style.mass(grams - load.grams)}. Or the unit is another, or "
            "the whole load was weighed where a sample tray was meant."
        )
    needed = 100.0 * (1.0 - grams / load.grams)
    raw = f"Was {loaded} the weight before cooking? If not, either" if is_cooked(load) else "Either"
    return (
        f"Weights don't add up: {loaded} at {style.percent(load.moisture_pct, 0)} moisture holds "
        f"{style.mass(load.solids)} of dry matter, and {now} is less than that. {raw} a tare of "
        f"{style.mass(load.solids - grams)} or more was taken off twice or left on the first weighing, or that "
        "much food was lost (drips, crumbs, pieces eaten), or the food started wetter: above "
        f"{style.percent(needed)} moisture."
    )


def too_light_sentence(load: Load, grams: float, style: Style) -> str:
    """`90 g is less than the dry matter in 1000 g of cooked food, at least 200 g. Was 1000 g the weight before
    cooking?`: the likeliest reason of weights that don't add up, as a question."""
    if is_cooked(load):
        return f"{too_light(load, grams, style)}. Was {style.mass(load.grams)} the weight before cooking?"
    why = "Was a tray or jar weighed along with the load, or its tare taken off twice?"
    return f"{too_light(load, grams, style)}. {why}"


def too_light(load: Load, grams: float, style: Style) -> str:
    """`90 g is less than the dry matter in 1000 g, at least 200 g`, to be gone on with."""
    of, least = " of cooked food" if is_cooked(load) else "", style.mass(least_dry_matter(load))
    return f"{style.mass(grams)} is less than the dry matter in {style.mass(load.grams)}{of}, at least {least}"


def is_cooked(load: Load) -> bool:
    """Whether its food goes by its cooked figures: then the raw weight is the likeliest slip."""
    return any("cooked" in item.name for item in load.ingredients)


def dry_already_sentence(load: Load, target: Fact, style: Style) -> str:
    """That a load is as dry as its target before it is dried, or may be; nothing where it is plainly moister."""
    likely = dry_as_loaded(load, target)
    if likely < LEAST_NEARLY:
        return ""
    wet = f"{style.percent(load.moisture_pct)} moisture, target {style.percent(target.value)}"
    if likely < LEAST_PROBABLY:
        return f"It may be as dry as its target already ({wet}): feel a piece first."
    return f"It is as dry as its target already ({wet}): there is nothing to dry off."


def no_keep_by_sentence(own: Verdict, keeping: Verdict) -> str:
    """Why no keep-by is given: by the target of what keeps it is not dry, or that is open."""
    if own.dry and not keeping.dry:
        return "It reached your own target, not the drier one that is published: no keep-by is given."
    if keeping.in_doubt:
        return "No keep-by is given until you record how a cooled piece feels."
    if keeping.name == VerdictName.UNKNOWN:
        return "No keep-by is given while nothing says how dry it is."
    return "No keep-by is given until it is dry enough."


def _now(verdict: Verdict, style: Style) -> str:
    assert verdict.now is not None
    between = ""
    if verdict.now.low is not None and verdict.now.high is not None:
        low, high = (style.percent(m, 0) for m in (verdict.now.low, verdict.now.high))
        between = f" ({low} to {high})" if low != high else ""
    return f"{style.percent(verdict.moisture_pct, 0)} moisture{between}, target {style.percent(verdict.target_pct)}"


def _by(verdict: Verdict) -> str:
    return f"by weight and {verdict.feel} to the hand" if verdict.feel else "by weight"


def _dry_enough(verdict: Verdict, style: Style) -> str:
    check = "" if verdict.feel else " Check by hand as well."
    return f"Dry enough {_by(verdict)}: {_now(verdict, style)}.{check}"


def _probably(verdict: Verdict, style: Style) -> str:
    return f"Probably dry {_by(verdict)}: {_now(verdict, style)}.{_settles(verdict)}"


def _to_go(verdict: Verdict, style: Style) -> str:
    word = "Nearly dry" if verdict.name == VerdictName.NEARLY else "Still moist"
    left = verdict.to_go_g
    still = f"; {style.mass(_as_weighed(left, style))} of water still to go" if left > 0 else ""
    return f"{word} {_by(verdict)}: {_now(verdict, style)}{still}.{_settles(verdict)}"


def _as_weighed(grams: float, style: Style) -> float:
    """The grams to the step of a kitchen scale, a gram or a tenth of an ounce, and never none."""
    step = SIZES["oz"] / 10.0 if style.system == US else 1.0
    return max(round(grams / step), 1) * step


def _settles(verdict: Verdict) -> str:
    """What would settle it, where that is open; nothing where it is plainly moist."""
    if verdict.probability is None or verdict.probability < HARDLY_OPEN:
        return ""
    if verdict.feel is not None:
        tested = verdict.load is not None and verdict.load.tested
        return "" if tested else " A dry-matter test of 20 g would settle it."
    feels = Feel.BRITTLE if verdict.target_pct < BRITTLE_BELOW else Feel.LEATHERY
    if verdict.on_dryer:
        return f" Weigh again after an hour, or let a piece cool and break it: {feels}?"
    return f" Let a piece cool and break it: {feels}?"


def _mismatch(verdict: Verdict, style: Style) -> str:
    assert verdict.load is not None
    return mismatch_sentence(verdict.load, verdict.grams, style)


_LACKS: Mapping[Lack, str] = {
    Lack.LOADED: "the loaded weight",
    Lack.START_MOISTURE: "the starting moisture",
    Lack.DRIED: "the dried weight",
    Lack.TARGET: "a target moisture",
}


def _unknown(verdict: Verdict, _style: Style) -> str:
    *first, last = (_LACKS[lack] for lack in verdict.lacks or (Lack.LOADED, Lack.DRIED, Lack.START_MOISTURE))
    return f"Dryness is not known: enter {' and '.join(filter(None, (', '.join(first), last)))}."


_SAY: Mapping[VerdictName, Callable[[Verdict, Style], str]] = {
    VerdictName.DRY_ENOUGH: _dry_enough,
    VerdictName.PROBABLY_DRY: _probably,
    VerdictName.NEARLY: _to_go,
    VerdictName.STILL_MOIST: _to_go,
    VerdictName.MISMATCH: _mismatch,
    VerdictName.UNKNOWN: _unknown,
}
