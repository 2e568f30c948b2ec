"""Water boils cooler the higher the stove stands, and what simmers takes longer.

The boiling point is read from published tables (given, not held here). Time in the pot is stretched by a
rate rule: `factor` times as long for every 10 °C below the sea-level boiling point, the common kitchen and
chemistry rule of thumb, named as such by whoever passes the factor in.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.errors import InputProblem
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.values import Basis, Figure
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step

SEA_LEVEL_C = 100.0


@dataclass(frozen=True, slots=True)
class BoilingTable:
    """One published table: (elevation in metres, boiling point in °C), lowest first."""

    source: str
    how: str
    points: tuple[tuple[float, float], ...]

    def at(self, metres: float) -> float | None:
        """The boiling point on the line between the table's points; None outside them."""
        for (low, warm), (high, cool) in zip(self.points, self.points[1:], strict=False):
            if low <= metres <= high:
                return warm + (cool - warm) * (metres - low) / (high - low)
        return next((celsius for elevation, celsius in self.points if elevation == metres), None)  # of one point


def boiling_point(metres: float, tables: Sequence[BoilingTable]) -> Figure:
    """The boiling point of water in °C at this elevation: the lowest that any table gives there.

    Below sea level the sea-level point stands. Beyond the highest table it is an `InputProblem`.
    """
    height = max(metres, 0.0)
    known = [(celsius, table.source) for table in tables if (celsius := table.at(height)) is not None]
    if not known:
        top = max(table.points[-1][0] for table in tables)
        raise InputProblem(message(Told.ABOVE_THE_TABLES, top=(top, "m")), "altitude")
    celsius, source = min(known)
    highest = max(known)[0]
    return Figure(
        celsius,
        "degC",
        low=celsius if highest > celsius else None,
        high=highest if highest > celsius else None,
        basis=(Basis("handbook", source),),
        workings=(
            step(Kind.BOILS_AT, (celsius, "degC", source), height=(height, "m")),
            *((step(Kind.BOILS_ELSEWHERE, (highest, "degC")),) if highest - celsius > 0.05 else ()),
        ),
    )


def times_as_long(boiling_c: float, factor_per_10c: float) -> float:
    """How many times as long the pot simmers where water boils at `boiling_c`; never less than once."""
    return float(factor_per_10c ** (max(SEA_LEVEL_C - boiling_c, 0.0) / 10.0))
