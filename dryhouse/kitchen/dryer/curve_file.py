"""A run kept in a file (hours, grams): its points, its curves, and when it was or will be dry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from dryhouse.handbook.activation import activation_of
from dryhouse.handbook.tables import Food
from dryhouse.handbook.yield_spread import water_with_range
from dryhouse.kitchen.cautions.cautions import food_cautions
from dryhouse.kitchen.dryer.curve_points import Points
from dryhouse.kitchen.dryer.doubts import RISE
from dryhouse.kitchen.dryer.earlier_runs import earlier_runs, prior_from
from dryhouse.kitchen.dryer.published_rates import published_expectation
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.curves import CurveSet, fit_all, periods
from dryhouse.science.display import METRIC, Style
from dryhouse.science.dryness import adds_up, least_dry_matter
from dryhouse.science.errors import InputProblem
from dryhouse.science.forecast import Beforehand, Forecast, Heating, Prior, forecast
from dryhouse.science.forecast.pace import SAME_HEAT_C
from dryhouse.science.moisture import (
    Load,
    LoadPart,
    dry_matter,
    load_of,
    typed_moisture,
    wet_to_dry,
)
from dryhouse.science.values import Basis, Caution, Fact, merge_bases
from dryhouse.science.workings import Step, Workings, step
from dryhouse.science.workings import StepKind as Kind
from dryhouse.words.forecasts import ALREADY, QUARTER_HOUR, finish_sentence, from_the_first, stop_sentences
from dryhouse.words.messages import message_words, problem_sentence
from dryhouse.words.verdicts import mismatch_sentence
from dryhouse.words.workings import lines

_AS_THE_FILE = Style(METRIC)
"""A file of weighings is in grams."""


_WANTED = {"start_moisture": "the starting moisture", "until_moisture": "the target"}


@dataclass(frozen=True, slots=True)
class RunAnswer:
    """What a file of weighings says. `doubt` says why there is no finish, or what to doubt in the one there is."""

    points: Points
    curves: CurveSet
    periods: str
    forecast: Forecast | None
    doubt: str
    basis: tuple[Basis, ...]
    notes: tuple[str, ...]
    """What is to be known of the weighings and of the curves, a sentence each."""
    workings: Workings
    cautions: tuple[Caution, ...]
    missing: tuple[str, ...] = ()
    """What a finish hangs on and is not known: `start_moisture`, `until_moisture`."""
    likely: float | None = None
    """How likely the load is to be dry by its last weight."""


def read_run(
    points: Points,
    *,
    kitchen: Kitchen | None = None,
    food: Food | None = None,
    start_moisture_pct: float | None = None,
    target_moisture_pct: float | None = None,
    start_moisture_tested: bool = False,
) -> RunAnswer:
    """Curves and finish of a run. Percentages wet basis; the food's own where they are not given. A starting
    moisture that was typed carries a doubt, unless it was tested.

    Weighings within half a second of another count as one. Raises InputProblem where a moisture given cannot be.
    """
    points = points.half_a_second_apart()
    water, target = _moistures(food, start_moisture_pct, target_moisture_pct, start_moisture_tested)
    cautions = food_cautions(kitchen, food) if kitchen and food else ()
    curves, spoken, line = _curves(points, water)
    notes = (*points.notes, *(message_words(told, _AS_THE_FILE) for told in (*curves.warnings, curves.why)))
    basis = merge_bases([f.basis for f in (water, target) if f is not None])
    if water is None or target is None:
        missing = tuple(name for name, fact in zip(_WANTED, (water, target), strict=True) if fact is None)
        why = " ".join(filter(None, (_amiss(points, water), _not_known(missing))))
        return RunAnswer(points, curves, spoken, None, why, basis, notes, (line,), cautions, missing)
    load = load_of([LoadPart("the load", points.grams[0], water)])
    heating = heating_in(points, food)
    heat = heating.celsius[-1] if heating is not None else None
    prior = _prior(kitchen, food, water.value, target.value, heat)
    found, doubt = _forecast(points, load, water, target, prior, heating)
    if found is None:
        return RunAnswer(points, curves, spoken, None, doubt, basis, notes, (line, *load.workings), cautions)
    likely = found.belief.dry_probability(points.grams[-1] / points.grams[0], target.value)
    steps = (line, *found.workings)
    return RunAnswer(
        points, curves, spoken, found, doubt, found.basis, notes, steps, cautions, likely=None if doubt else likely
    )


def _moistures(
    food: Food | None, start_pct: float | None, target_pct: float | None, tested: bool
) -> tuple[Fact | None, Fact | None]:
    """Starting and target moisture: given, else the food's own, else None."""
    water = _started(start_pct, tested) or _of_food(food)
    target = _given(target_pct, "the target moisture given") or (food.fact("target_moisture") if food else None)
    for fact, name, field in ((water, "starting", "start_moisture"), (target, "target", "until_moisture")):
        if fact is not None and not 0 < fact.value < 100:
            raise InputProblem(
                f"The {name} moisture lies between 0 and 100 % (wet basis), without the ends.", field
            )
    if water is not None and target is not None and target.value >= water.value:
        raise InputProblem(
            f"The target of {target.value:g} % is not below the starting moisture of {water.value:g} %.",
            "until_moisture",
        )
    return water, target


def _curves(points: Points, water: Fact | None) -> tuple[CurveSet, str, Step]:
    """The curves, the periods in words, and the step that led to them. Without water, of mass over first mass."""
    first = points.grams[0]
    dry = 0.0 if water is None else dry_matter(first, water.value)
    if sum(grams < dry for grams in points.grams) > len(points.grams) / 2:
        water, dry = None, 0.0  # a starting moisture that cannot be: nothing is reckoned from it
    ratio = [(g - dry) / (first - dry) for g in points.grams]
    curves = fit_all(points.hours, ratio)
    if water is None:
        return curves, "", step(Kind.MASS_OVER_FIRST)
    how = step(Kind.MR_FROM_MASS, solids=(dry, "g"), first=(first, "g"), water=water)
    return curves, message_words(periods(points.hours, ratio), _AS_THE_FILE), how


def _amiss(points: Points, water: Fact | None) -> str:
    """What is amiss with the weights, by the starting moisture; nothing where they add up or it is not known."""
    if water is None:
        return ""
    load, lightest = load_of([LoadPart("the load", points.grams[0], water)]), min(points.grams)
    return "" if adds_up(load, lightest) else mismatch_sentence(load, lightest, _AS_THE_FILE)


def _not_known(missing: Sequence[str]) -> str:
    """The sentence of what a finish hangs on and is not known."""
    names = " and ".join(_WANTED[one] for one in missing)
    return f"No finish: {names} {'is' if len(missing) == 1 else 'are'} not known."


def _forecast(
    points: Points, load: Load, water: Fact, target: Fact, prior: Prior | None, heating: Heating | None
) -> tuple[Forecast | None, str]:
    """The forecast, and what is amiss with the weights or why there is none.

    Where later weights don't add up, the weighings before them still say when the target was reached, and
    nothing more.
    """
    lightest = min(points.grams)
    doubt = mismatch_sentence(load, lightest, _AS_THE_FILE) if not adds_up(load, lightest) else ""
    sound = _plausible(points, least_dry_matter(load)) if doubt else len(points.grams)
    try:
        found = forecast(
            points.hours[:sound],
            points.grams[:sound],
            Beforehand(
                load.belief,
                target.value,
                prior=prior,
                as_told=water.how == "entered",
                basis=merge_bases([water.basis, target.basis]),
            ),
            heating=heating,
        )
    except InputProblem as problem:
        return None, doubt or problem_sentence(problem, _AS_THE_FILE)
    return (None if doubt and found.reached_at is None else found), doubt


def heating_in(points: Points, food: Food | None) -> Heating | None:
    """The heats of the file's column `temperature_c`; readings that hardly differ are one. None without any."""
    heats: list[tuple[float, float]] = []
    for hour, heat in points.heats:
        if not heats:
            heats.append((0.0, heat))
        elif abs(heat - heats[-1][1]) > SAME_HEAT_C:
            heats.append((max(hour, heats[-1][0] + 1e-3), heat))
    if not heats:
        return None
    energy = activation_of(food.slug if food is not None else "")
    return Heating(tuple(hour for hour, _ in heats), tuple(heat for _, heat in heats), energy)


def _plausible(points: Points, solids: float) -> int:
    """How many weighings come before the first that is lighter than the dry matter can be."""
    return next((i for i, grams in enumerate(points.grams) if grams < solids), len(points.grams))


def _given(value: float | None, what: str) -> Fact | None:
    return None if value is None else Fact(value, "%", what, "entered")


def _started(moisture_pct: float | None, tested: bool) -> Fact | None:
    said = "the starting moisture given"
    return None if moisture_pct is None else typed_moisture(moisture_pct, said, tested=tested)


def _of_food(food: Food | None) -> Fact | None:
    water = food.fact("water") if food is not None else None
    return water_with_range(food, water) if food is not None and water is not None else None


def _prior(
    kitchen: Kitchen | None, food: Food | None, water_pct: float, target_pct: float, heat_c: float | None
) -> Prior | None:
    """Her own runs of the food, else its published drying time, else its published constants, else nothing."""
    if food is None or kitchen is None:
        return None
    own = prior_from(
        earlier_runs(kitchen, food), form="", temperature_c=heat_c, activation=activation_of(food.slug)
    )
    if own is not None:
        return own
    return published_expectation(food, wet_to_dry(target_pct / 100.0) / wet_to_dry(water_pct / 100.0), heat_c)


def answer_json(answer: RunAnswer) -> dict[str, object]:
    """The keys `dryhouse curve` adds to those of every figure."""
    found = answer.forecast
    return {
        "models": [
            {
                "name": f.name,
                "formula": f.formula,
                "parameters": {
                    name: {"value": value, "standard_error": error, "unit": f.units[name]}
                    for name, (value, error) in f.parameters.items()
                },
                "sse": f.sse,
                "rmse": f.rmse,
                "r2": f.r2,
                "reduced_chi2": f.reduced_chi2,
                "aicc": f.aicc if np.isfinite(f.aicc) else None,
                "n": f.n,
                "warnings": [message_words(warning, _AS_THE_FILE) for warning in f.warnings],
            }
            for f in answer.curves.fits
        ],
        "chosen": answer.curves.chosen.name if answer.curves.chosen else None,
        "finish": found.finish.as_json() if found else None,
        "reached": found.reached_at if found else None,
        "target_g": found.target_g if found else None,
        "weigh_again": found.weigh_again_at if found else None,
        "periods": answer.periods or None,
        "sentence": " ".join(_sentences(answer, _AS_THE_FILE)),
    }


def lines_of(answer: RunAnswer, style: Style) -> tuple[str, ...]:
    """The notes, the arithmetic, and what it comes to."""
    return (*answer.notes, *lines(answer.workings, style), *_sentences(answer, style))


def _sentences(answer: RunAnswer, style: Style) -> list[str]:
    """The forecast's own sentence, and what is to be doubted."""
    found = answer.forecast
    finish = finish_sentence(found, from_the_first(style), likely=answer.likely, spans=True) if found else ""
    told = found is not None and np.isfinite(found.finish.median) and finish != ALREADY
    counted = "Hours count from the first weighing." if told else ""
    stood = stop_sentences(found, from_the_first(style)) if found else []
    return [said for said in (" ".join(filter(None, (finish, counted))), answer.doubt, *stood) if said]


def said(answer: RunAnswer) -> Sequence[str]:
    """The answer in lines, without the models."""
    sentences = [*_sentences(answer, _AS_THE_FILE), *_doubted_at_sight(answer)]
    if answer.forecast and answer.forecast.weigh_again_at is not None:
        again = from_the_first(_AS_THE_FILE)(answer.forecast.weigh_again_at, QUARTER_HOUR)
        sentences.append(f"Weigh again {again} after the first weighing.")
    if answer.periods:
        sentences.append(answer.periods)
    return sentences


def _doubted_at_sight(answer: RunAnswer) -> list[str]:
    """A rise that is no unsteadiness of the scale, told with the finish it moves: a file has nobody to ask, so that
    it stays in the curve."""
    return [
        f"{message_words(told, _AS_THE_FILE)} If it was misread, leave that line out."
        for told in answer.curves.warnings
        for term in told.terms
        if term.name == "rise" and isinstance(term.value, float) and term.value > RISE
    ]


def model_lines(answer: RunAnswer) -> Sequence[str]:
    """Every model the weighings carry, in a line each; the chosen one has a star."""
    sentences = []
    for f in answer.curves.fits:
        mark = "*" if answer.curves.chosen is not None and f.name == answer.curves.chosen.name else " "
        values = ", ".join(
            f"{name} = {value:.4g}" + (f" ± {error:.2g}" if error is not None else "")
            for name, (value, error) in f.parameters.items()
        )
        aicc = f"{f.aicc:.1f}" if np.isfinite(f.aicc) else "— (too few weighings)"
        sentences.append(
            f"{mark} {f.name:16s} {values}   SSE {f.sse:.3g}, RMSE {f.rmse:.2g}, R² {f.r2:.4f}, AICc {aicc}"
        )
    return sentences
