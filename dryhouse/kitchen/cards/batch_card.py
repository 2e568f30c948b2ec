"""The card of a batch: everything its record says, as figures with basis and workings.

The same card answers while a batch is being typed, stands beside the journal's table, and is printed by
the command line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dryhouse.kitchen.batches.dryness import felt, learned, verdicts_of
from dryhouse.kitchen.batches.loads import load_for, loaded_grams, missing_for, target_for
from dryhouse.kitchen.batches.log import BatchDraft, parts_of
from dryhouse.kitchen.cards.card_figure import CardFigure
from dryhouse.kitchen.cards.first_keep_by import keep_by_figures
from dryhouse.kitchen.cautions.cautions import batch_cautions
from dryhouse.kitchen.cautions.forbidden import Forbidden, forbidding_words, verdict_words
from dryhouse.kitchen.dryer.learned import with_learned
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.shelf.portions import each_sentence
from dryhouse.kitchen.yields.jar_water import takes_up
from dryhouse.science.display import Style, duration
from dryhouse.science.dryness import Verdict
from dryhouse.science.moisture import believed, moisture_now, target_mass
from dryhouse.science.quantities import unit_typed
from dryhouse.science.statuses import FigureId, VerdictName
from dryhouse.science.units import DIMENSIONS, MASS, SIZES, figure_in
from dryhouse.science.values import Basis, Caution, Figure, gravest_first
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step
from dryhouse.words.names import called
from dryhouse.words.verdicts import dry_already_sentence, no_keep_by_sentence, verdict_sentence

WEIGHED = Basis("own", "weighed in this batch", 1)


@dataclass(frozen=True, slots=True)
class Card:
    """What a batch comes to. `figures` are in reading order; `missing` says what else would tell more."""

    title: str
    figures: tuple[CardFigure, ...]
    verdict: Verdict | Forbidden
    sentences: tuple[str, ...]
    """What is said beside the verdict."""
    cautions: tuple[Caution, ...]
    missing: tuple[str, ...] = ()
    times: tuple[str, ...] = ()
    """How long it dried, what that took, and what was poured off."""

    def judgement(self, notation: Style) -> str:
        """The verdict in a sentence, or what stands in its place."""
        return verdict_words(self.verdict, notation)

    def said(self, notation: Style) -> tuple[str, ...]:
        """The verdict, and what else is said of the batch."""
        return self.judgement(notation), *self.sentences, *self.times

    def figure(self, id: FigureId) -> Figure | None:
        """The first figure of that name, or None where the records do not give it."""
        return next((shown.figure for shown in self.figures if shown.id == id), None)


def batch_card(kitchen: Kitchen, id: int, notation: Style | None = None) -> Card:
    """The card of a recorded batch; its sentences in her own notation, or in this one. Raises InputProblem where
    there is none."""
    return card_of(kitchen, kitchen.present(Batch, id, "batch", "batch"), parts_of(kitchen, id), notation)


def draft_card(kitchen: Kitchen, draft: BatchDraft) -> Card:
    """The card a draft would have. Raises InputProblem where the food is not known yet."""
    weighed = draft.batch.id and draft.batch.curve_mark is not None
    batch = with_learned(kitchen, draft.batch) if weighed else draft.batch
    return card_of(kitchen, batch, draft.parts)


def card_of(kitchen: Kitchen, batch: Batch, parts: Sequence[BatchPart], notation: Style | None = None) -> Card:
    """The card of a batch with these ingredients."""
    known = food(kitchen, batch.food)
    load, unit = load_for(kitchen, batch, parts, food=known), _mass_unit(batch)
    dried = batch.dried_mass.si if batch.dried_mass is not None and batch.dried_mass.si > 0 else None
    target, notation = target_for(kitchen, batch, known), notation or style(kitchen)
    figures: list[CardFigure] = []
    found, kept = verdicts_of(kitchen, batch, parts, known)
    grams = load.grams if load is not None else loaded_grams(known, batch)
    believed_now = None
    if load is not None and dried is not None and found.name != VerdictName.MISMATCH:
        known_by = learned(batch), felt(batch)
        believed_now = believed(load, dried, *known_by)
        figures.append(CardFigure(FigureId.MOISTURE_NOW, found.now or moisture_now(load, dried, *known_by)))
    cautions = gravest_first(batch_cautions(kitchen, batch, parts))
    if forbidden := forbidding_words(cautions):
        doubt = verdict_sentence(found, notation) if found.name == VerdictName.MISMATCH else ""
        judged: Verdict | Forbidden = Forbidden(forbidden)
        whole = each_sentence(kitchen, batch, notation, forbidden=True)
        sentences = [s for s in (doubt, whole) if s]
    else:
        judged = found
        further, sentences = _promises(kitchen, BatchDraft(batch, tuple(parts)), grams, (found, kept), notation)
        figures += further
    if dried is not None and grams is not None:
        figures.append(CardFigure(FigureId.YIELD_BY_WEIGHT, _yield_by_weight(grams, dried)))
    if batch.prepared_volume is not None and batch.dried_volume is not None:
        measured = _yield_by_measure(batch.prepared_volume.si, batch.dried_volume.si)
        figures.append(CardFigure(FigureId.YIELD_BY_MEASURE, measured))
    if load is not None and target is not None:
        sentences = [*sentences, *filter(None, [dry_already_sentence(load, target, notation)])]
        figures.append(CardFigure(FigureId.TARGET_WEIGHT, figure_in(target_mass(load, target, believed_now), unit)))
    return Card(
        called(batch, known.name),
        tuple(replace(shown, figure=shown.figure.with_cautions(cautions)) for shown in figures),
        judged,
        tuple(sentences),
        cautions,
        missing_for(kitchen, batch, parts, known),
        tuple(_times(batch, notation)),
    )


def _promises(
    kitchen: Kitchen,
    draft: BatchDraft,
    grams: float | None,
    verdicts: tuple[Verdict, Verdict],
    notation: Style,
) -> tuple[list[CardFigure], list[str]]:
    """The water and the keep-by of what may be eaten, and what is said of its dryness."""
    batch, (found, kept) = draft.batch, verdicts
    dried = batch.dried_mass.si if batch.dried_mass is not None and batch.dried_mass.si > 0 else None
    figures: list[CardFigure] = []
    if dried is not None and grams is not None and found.name != VerdictName.MISMATCH:
        figures += _water(kitchen, batch, dried)
    sentences = [whole] if (whole := each_sentence(kitchen, batch, notation)) else []
    if kept.dry:
        figures += keep_by_figures(kitchen, draft)
    elif dried is not None:
        sentences.append(no_keep_by_sentence(found, kept))
    return figures, sentences


def card_lines(card: Card, notation: Style) -> list[str]:
    """The card in a few lines: what goes together stands in one."""
    together = (
        (FigureId.YIELD_BY_WEIGHT, FigureId.YIELD_BY_MEASURE),
        (FigureId.MOISTURE_NOW, FigureId.TARGET_WEIGHT),
        (FigureId.WATER_BACK,),
        (FigureId.KEEPS,),
    )
    lines = [
        "; ".join(f"{f.caption}: {notation.figure(f.figure)}" for f in card.figures if f.id in ids)
        for ids in together
    ]
    return [*(line for line in lines if line), *card.said(notation)]


def _mass_unit(batch: Batch) -> str:
    """Masses are answered in the unit she weighed the batch in."""
    weighed = batch.dried_mass or batch.prepared_mass
    unit = unit_typed(weighed) if weighed is not None else "g"
    return unit if DIMENSIONS[unit] == MASS else "g"


def _yield_by_weight(grams: float, dried: float) -> Figure:
    value = 100.0 * dried / grams
    line = step(Kind.YIELD_BY_WEIGHT, (value, "%"), dried=(dried, "g"), loaded=(grams, "g"), ratio=grams / dried)
    return Figure(value, "%", basis=(WEIGHED,), workings=(line,))


def _yield_by_measure(fresh_ml: float, dried_ml: float) -> Figure:
    value = 100.0 * dried_ml / fresh_ml
    line = step(Kind.YIELD_BY_MEASURE, (value, "%"), dried=(dried_ml, "ml"), loaded=(fresh_ml, "ml"))
    return Figure(value, "%", basis=(Basis("own", "this batch, measured", 1),), workings=(line,))


def _water(kitchen: Kitchen, batch: Batch, dried: float) -> list[CardFigure]:
    whole = takes_up(kitchen, food(kitchen, batch.food), batch).water(dried)
    if whole is None:
        return []
    if batch.dried_volume is not None:
        dried_ml = batch.dried_volume.si
        per_cup = whole.value * SIZES["cup"] / dried_ml
        cup = (SIZES["cup"], "ml")
        line = step(Kind.WATER_PER_CUP, (per_cup, "ml"), water=(whole.value, "ml"), cup=cup, dried=(dried_ml, "ml"))
        whole = replace(whole, workings=(*whole.workings, line))
    return [CardFigure(FigureId.WATER_BACK, whole)]


def _times(batch: Batch, notation: Style) -> list[str]:
    said = []
    if batch.started is not None and batch.ended is not None:
        said.append(f"It dried for {duration((batch.ended - batch.started).total_seconds())} from start to end.")
        if batch.energy_kwh is not None:
            said.append(f"It took {notation.number(batch.energy_kwh, 2)} kWh.")
    if batch.drained_fat is not None or batch.drained_liquid is not None:
        drained = sum(m.si for m in (batch.drained_fat, batch.drained_liquid) if m is not None)
        said.append(f"{notation.mass(drained)} of fat and liquid were drained off before it was loaded.")
    return said
