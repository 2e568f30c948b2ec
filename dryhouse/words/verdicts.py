"""The dryness verdict in a sentence, in the units the person reads. It speaks of dryness, never of safety."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from dryhouse.science.display import Style
from dryhouse.science.moisture import Load, Verdict
from dryhouse.science.statuses import VerdictName


def verdict_sentence(verdict: Verdict, style: Style) -> str:
    """The verdict with its figures, such as `Nearly: 18 % moisture by weight, target 10 %; 0.8 oz of water still
    to go.`"""
    said = _SAY[verdict.name](verdict, style)
    return f"By the sample tray: {said}" if verdict.of_sample else said


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


def is_cooked(load: Load) -> bool:
    """Whether its food goes by its cooked figures: then the raw weight is the likeliest slip."""
    return any("cooked" in item.name for item in load.ingredients)


def _now(verdict: Verdict, style: Style) -> str:
    return (
        f"{style.percent(verdict.moisture_pct, 0)} moisture by weight, target {style.percent(verdict.target_pct)}"
    )


def _dry_enough(verdict: Verdict, style: Style) -> str:
    note = " It is a little lighter than the usual dry matter; still within the published range."
    return f"Dry enough by weight: {_now(verdict, style)}.{note if verdict.lean else ''} Check by hand as well."


def _to_go(verdict: Verdict, style: Style) -> str:
    word = verdict.name.value.capitalize()
    return f"{word}: {_now(verdict, style)}; {style.mass(verdict.to_go_g)} of water still to go."


def _mismatch(verdict: Verdict, style: Style) -> str:
    assert verdict.load is not None
    return mismatch_sentence(verdict.load, verdict.grams, style)


def _unknown(_verdict: Verdict, _style: Style) -> str:
    return "Dryness is not known: it takes the loaded and the dried mass."


_SAY: Mapping[VerdictName, Callable[[Verdict, Style], str]] = {
    VerdictName.DRY_ENOUGH: _dry_enough,
    VerdictName.NEARLY: _to_go,
    VerdictName.STILL_MOIST: _to_go,
    VerdictName.MISMATCH: _mismatch,
    VerdictName.UNKNOWN: _unknown,
}
