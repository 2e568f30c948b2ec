"""A card in the window: verdict, cautions, what she asked for, and one step away what else is known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.announce import Speaker
from dryhouse.desk.widgets.basics import column, empty, tab_through, text_label
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.desk.widgets.fold import Unfolding
from dryhouse.desk.widgets.status_line import StatusLine
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.science.safety.unfolded import OF_A_PLANT
from dryhouse.science.statuses import FigureId
from dryhouse.words.captions import short_caption

if TYPE_CHECKING:
    from dryhouse.kitchen.cards.batch_card import Card
    from dryhouse.kitchen.cards.card_figure import CardFigure

_TILE = 126
"""Pixels that a figure takes at least."""
ANSWERS = (FigureId.WATER_BACK, FigureId.KEEPS)
"""What one looks a batch up for, beside the verdict, which names the moisture; the rest is one step away."""


class CardView(QWidget):
    """Shows a `Card`: the verdict, the stops and the caution that matters now, the answers; further figures, and
    the widgets `below` it, are folded. Views of figures are kept and filled anew, so that typing does not make it
    flicker."""

    def __init__(self, session: Session, *below: QWidget) -> None:
        super().__init__()
        self.session = session
        self.card: Card | None = None
        self.status = StatusLine(session.theme)
        self.cautions = CautionsView(session)
        self._answers: list[FigureView] = []
        self._others: list[FigureView] = []
        self._shown: list[CardFigure] = []
        self._speaker = Speaker(self)
        answers, further, sentences_area, times_area = QWidget(), QWidget(), QWidget(), QWidget()
        self._tiles, self._further = Tiles(least=_TILE), Tiles(least=_TILE)
        answers.setLayout(self._tiles)
        further.setLayout(self._further)
        self._sentences, self._times = column(sentences_area, space=4), column(times_area, space=4)
        self.details = Unfolding(session, "Details", further, times_area, *below)
        inside = column(self, space=10)
        for widget in (self.status, self.cautions, answers, sentences_area, self.details):
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
        self._show_figures(card)
        self._speaker.answer(self.status.accessibleName())
        empty(self._sentences)
        for sentence in card.sentences:
            self._sentences.addWidget(text_label(sentence, select=True))
        for sentence in card.missing:
            self._sentences.addWidget(text_label(sentence, "muted"))
        empty(self._times)
        for sentence in card.times:
            self._times.addWidget(text_label(sentence, select=True))

    def _show_figures(self, card: Card) -> None:
        """The answers in view, the others behind the line; each in its order."""
        self._shown = sorted(card.figures, key=lambda f: f.id not in ANSWERS)
        answers = sum(f.id in ANSWERS for f in card.figures)
        for views, tiles, figures in (
            (self._answers, self._tiles, self._shown[:answers]),
            (self._others, self._further, self._shown[answers:]),
        ):
            while len(views) < len(figures):
                views.append(FigureView(self.session, "", brief=True))
                tiles.addWidget(views[-1])
            for n, view in enumerate(views):
                view.setVisible(n < len(figures))
                if n < len(figures):
                    shown = figures[n]
                    title = short_caption(shown.id, shown.celsius, self.session.style)
                    view.set_figure(shown.figure, title=title)
        tab_through(self.cautions.fold, *self._answers, self.details.fold, *self._others)

    @property
    def figures(self) -> list[FigureView]:
        """The views in use, in the order of Tab."""
        return [view for view in (*self._answers, *self._others) if not view.isHidden()]

    def in_order(self, after: QWidget) -> None:
        """Let Tab come here from a widget, where what it stood behind was made anew."""
        tab_through(after, *self.cautions.tab_stops(), *self._answers, self.details.fold, *self._others)
