"""The first keep-by of a batch, before it stands anywhere: its life at the published temperatures.

Once it is packed and has a place, the shelf reckons over where the jar has really been.
"""

from __future__ import annotations

from datetime import timedelta

from dryhouse.handbook.keeping_table import keeping_lines
from dryhouse.kitchen.batches.log import BatchDraft
from dryhouse.kitchen.cards.card_figure import CardFigure
from dryhouse.kitchen.cautions.cautions import batch_facts
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.keeping import life_at
from dryhouse.science.statuses import FigureId
from dryhouse.science.values import Basis, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step


def keep_by_figures(kitchen: Kitchen, draft: BatchDraft) -> list[CardFigure]:
    """Days of quality at each published temperature, of a batch that counts as dry."""
    batch = draft.batch
    known = keeping_lines(batch.food, batch_facts(kitchen, draft).food)
    temperatures = sorted({p.temperature_c for line in known.lines if not line.only_between for p in line.points})
    dried_on = kitchen.local(batch.ended or kitchen.now()).date()
    figures = []
    for celsius in temperatures:
        life = life_at(known.lines, celsius)
        if life is None:
            continue
        until = dried_on + timedelta(days=int(life.days))
        figure = Figure(
            life.days,
            "day",
            basis=(*(f.basis for f in life.facts), *(Basis("assumption", s) for s in known.supposed)),
            workings=(
                life.how,
                step(Kind.DRIED_ON, until, day=dried_on, life=(life.days, "day")),
                step(Kind.KEEPS_AIRTIGHT),
            ),
        )
        figures.append(CardFigure(FigureId.KEEPS, figure, celsius))
    return figures
