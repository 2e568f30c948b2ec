"""One figure of a batch, by the name it goes by."""

from __future__ import annotations

from dataclasses import dataclass

from dryhouse.science.statuses import FigureId
from dryhouse.science.values import Figure
from dryhouse.words.captions import caption


@dataclass(frozen=True, slots=True)
class CardFigure:
    """A figure with its name; `celsius` is the temperature it holds at, where that is part of it."""

    id: FigureId
    figure: Figure
    celsius: float | None = None

    @property
    def caption(self) -> str:
        """What it is called where it is shown."""
        return caption(self.id, self.celsius)
