"""A card in the window: verdict, cautions, figures, and what else is known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.announce import Speaker
from dryhouse.desk.widgets.basics import column, empty, tab_through, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.desk.widgets.status_line import StatusLine
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.science.safety.unfolded import OF_A_PLANT
from dryhouse.science.statuses import FigureId

if TYPE_CHECKING:
    from dryhouse.kitchen.cards.batch_card import Card

_TILE = 148
"""Pixels that a figure takes at least."""


class CardView(QWidget):
    """Shows a `Card`: the verdict, the figures, and between them the stops and the caution that matters now.
    Views of figures are kept and filled anew, so that typing does not make it flicker."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.card: Card | None = None
        self.status = StatusLine(session.theme)
        self.cautions = CautionsView(session)
        self.figures: list[FigureView] = []
        self._speaker = Speaker(self)
        grid = QWidget()
        self._tiles = Tiles(least=_TILE)
        grid.setLayout(self._tiles)
        sentences_area = QWidget()
        self._sentences = column(sentences_area, space=4)
        inside = column(self, space=10)
        for widget in (self.status, self.cautions, grid, sentences_area):
            inside.addWidget(widget)

    def set_card(self, card: Card | None, status: tuple[str, str] | None = None, *, most: int = OF_A_PLANT) -> None:
        """Show a card; None shows nothing. `status` is said in place of the verdict, while there can be none;
        `most` cautions beside the stops stand unfolded."""
        self.card = card
        self.setVisible(card is not None)
        if card is None:
            return
        self.status.say(*(status or (card.verdict.name, card.judgement(self.session.style))))
        self.cautions.set_cautions(card.cautions, most)
        while len(self.figures) < len(card.figures):
            self._add_view()
        for i, view in enumerate(self.figures):
            view.setVisible(i < len(card.figures))
            if i < len(card.figures):
                view.set_figure(card.figures[i].figure, title=card.figures[i].caption)
        self._speaker.answer(self.status.accessibleName())
        empty(self._sentences)
        for sentence in card.sentences:
            self._sentences.addWidget(text_label(sentence, select=True))
        for sentence in card.missing:
            self._sentences.addWidget(text_label(sentence, "muted"))

    def figure_view(self, id: FigureId) -> FigureView | None:
        """The view of the first figure of that name, where the card has one."""
        shown = () if self.card is None else self.card.figures
        return next((view for view, f in zip(self.figures, shown, strict=False) if f.id == id), None)

    def in_order(self, after: QWidget) -> None:
        """Let Tab come here from a widget, where what it stood behind was made anew."""
        tab_through(after, *self.cautions.tab_stops(), *self.figures)

    def _add_view(self) -> None:
        view = FigureView(self.session, "", compact=True, room=0)
        self._tiles.addWidget(view)
        tab_through(self.figures[-1] if self.figures else self.cautions.fold, view)
        self.figures.append(view)
