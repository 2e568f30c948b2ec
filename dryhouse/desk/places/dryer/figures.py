"""The figures of a run with their workings, and for a finished batch what it came to."""

from __future__ import annotations

from PySide6.QtWidgets import QGridLayout, QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import column, scrolling, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.cards.card_figure import CardFigure
from dryhouse.kitchen.cautions.cautions import batch_facts
from dryhouse.kitchen.dryer.run_words import judged_words
from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.records.batches import FINISHED
from dryhouse.kitchen.records.weighings import SAMPLE
from dryhouse.science.errors import InputProblem
from dryhouse.science.safety.unfolded import most_for
from dryhouse.science.statuses import FigureId

_ACROSS = 2


_ON_THE_CARD_TOO = frozenset({FigureId.MOISTURE_NOW, FigureId.TARGET_WEIGHT})
"""Of the card's figures, those that the run has as its own."""


def figures_of(session: Session, run: DryingRun) -> list[CardFigure]:
    """The figures of a run, in reading order; of a finished one what it came to first."""
    target = FigureId.SAMPLE_TARGET if run.scope == SAMPLE else FigureId.LOAD_TARGET
    expected = run.expected
    found = {
        FigureId.MOISTURE_WET: run.moisture,
        target: run.target_mass,
        FigureId.HOURS_UNTIL_DRY: expected.forecast.figure() if expected.forecast else None,
        FigureId.SETTLES_AT: expected.equilibrium,
        FigureId.WATER_ACTIVITY: expected.water_activity,
    }
    came_to: list[CardFigure] = []
    if run.batch.state == FINISHED:
        try:
            card = batch_card(session.kitchen, run.batch.id)
            came_to = [f for f in card.figures if f.id not in _ON_THE_CARD_TOO]
        except InputProblem:
            pass
    return came_to + [CardFigure(id, figure) for id, figure in found.items() if figure is not None]


class FiguresPane(QWidget):
    """A grid of figures; Enter on one opens its workings."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.views: list[FigureView] = []
        self.sentence = text_label("", "label")
        self.cautions = CautionsView(session)
        grid = QWidget()
        self._grid = QGridLayout(grid)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(8)
        page = QWidget()
        inside = column(page, space=8)
        for widget in (self.sentence, self.cautions, grid):
            inside.addWidget(widget)
        inside.addStretch(1)
        column(self).addWidget(scrolling(page))

    def show_run(self, run: DryingRun | None) -> None:
        """Show the figures of a run."""
        figures = figures_of(self.session, run) if run else []
        self.sentence.setText(judged_words(run, self.session.style) if run else "")
        self.sentence.setVisible(bool(self.sentence.text()))
        kinds = batch_facts(self.session.kitchen, run.batch).kinds if run else ()
        self.cautions.set_cautions(run.cautions if run else (), most_for(kinds))
        while len(self.views) < len(figures):
            view = FigureView(self.session, "", compact=True)
            self._grid.addWidget(view, len(self.views) // _ACROSS, len(self.views) % _ACROSS)
            self.views.append(view)
        for place, view in enumerate(self.views):
            view.setVisible(place < len(figures))
            if place < len(figures):
                view.set_figure(figures[place].figure, title=figures[place].caption)
