"""Water activity and equilibrium moisture by the GAB isotherm, inside the range it was measured in and no further.

    X = m0 C K a / ((1 - K a)(1 - K a + C K a))          X dry basis (g/g), a water activity

Guggenheim, Anderson and de Boer; equation as in Sci. Rep. 15 (2025) s41598-025-01935-x, Table 1. Physical
constants have 0.24 < K <= 1 and C > 0; others are refused.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dryhouse.science.errors import InputProblem
from dryhouse.science.messages import MessageKind as Told
from dryhouse.science.messages import message
from dryhouse.science.values import Basis, Figure, merge_bases
from dryhouse.science.workings import StepKind as Kind
from dryhouse.science.workings import step

SMALLEST_K, LARGEST_K, LARGEST_C = 0.24, 1.0, 5000.0
USUAL_RANGE = (0.1, 0.9)
"""Water activities a GAB fit is trusted in where its source gives no range."""
STUDIES_DIFFER = 0.15
"""Share of an equilibrium moisture by which studies of one food differ at the least (assumption)."""
DEGREES_ASIDE = 7.5
"""An isotherm is used up to so many degrees from the temperature it was measured at
(assumption: isotherms move little in that range, and the interval is wider than the move)."""


@dataclass(frozen=True, slots=True)
class Isotherm:
    """One set of GAB constants: m0 (g/g), C and K, valid between two water activities and two temperatures (°C)."""

    m0: float
    c: float
    k: float
    temperature_low_c: float
    temperature_high_c: float
    basis: Basis
    aw_low: float = USUAL_RANGE[0]
    aw_high: float = USUAL_RANGE[1]

    def near(self, temperature_c: float) -> bool:
        """Whether it may be used at this temperature."""
        return self.temperature_low_c - DEGREES_ASIDE <= temperature_c <= self.temperature_high_c + DEGREES_ASIDE


def refuse_unphysical(m0: float, c: float, k: float) -> None:
    """InputProblem where the constants are no isotherm of a food."""
    if not all(math.isfinite(v) for v in (m0, c, k)) or not (0 < m0 < 1 and 0 < c <= LARGEST_C):
        raise InputProblem(message(Told.GAB_CONSTANTS))
    if not SMALLEST_K < k <= LARGEST_K:
        raise InputProblem(message(Told.GAB_SLOPE, k=k, low=SMALLEST_K, high=LARGEST_K))


def gab(m0: float, c: float, k: float, aw: float) -> float:
    """The formula itself."""
    ka = k * aw
    return m0 * c * ka / ((1.0 - ka) * (1.0 - ka + c * ka))


def water_activity(isotherm: Isotherm, moisture_db: float) -> float | None:
    """Water activity of food at this moisture (dry basis, g/g), or None outside the isotherm's range."""
    refuse_unphysical(isotherm.m0, isotherm.c, isotherm.k)
    if moisture_db <= 0:
        return None
    aw = gab_inverse(isotherm.m0, isotherm.c, isotherm.k, moisture_db)
    return aw if isotherm.aw_low - 1e-9 <= aw <= isotherm.aw_high + 1e-9 else None


def gab_inverse(m0: float, c: float, k: float, moisture_db: float) -> float:
    """The formula turned round: with u = K a, the root in (0, 1) of (1 - C) u² + (C - 2 - C m0/X) u + 1 = 0."""
    a, b = 1.0 - c, c - 2.0 - c * m0 / moisture_db
    return 2.0 / (math.sqrt(max(b * b - 4.0 * a, 0.0)) - b) / k


def equilibrium_moisture(isotherms: Sequence[Isotherm], aw: float, temperature_c: float) -> Figure | None:
    """What the food settles at in air of this relative humidity (as `aw`), g water per g dry matter.

    From every isotherm measured near the temperature; the interval spans them, and `STUDIES_DIFFER` of each.
    In air drier than an isotherm was measured in, the food holds less than at its driest point and more than
    nothing: that is the interval. None where no isotherm covers the air.
    """
    found = []
    low, high = math.inf, 0.0
    for i in isotherms:
        refuse_unphysical(i.m0, i.c, i.k)
        if not i.near(temperature_c) or not 0 < aw <= i.aw_high:
            continue
        x = gab(i.m0, i.c, i.k, aw)
        dry = aw < i.aw_low
        low = min(low, 0.0 if dry else (1.0 - STUDIES_DIFFER) * x)
        high = max(high, gab(i.m0, i.c, i.k, i.aw_low) if dry else (1.0 + STUDIES_DIFFER) * x)
        found.append((x, i))
    if not found:
        return None
    return Figure(
        sum(x for x, _ in found) / len(found),
        "g/g",
        low=low,
        high=high,
        basis=merge_bases([i.basis for _, i in found]),
        workings=tuple(
            step(Kind.GAB_MOISTURE, (x, "g/g", i.basis.source), m0=i.m0, c=i.c, k=i.k, activity=aw)
            for x, i in found
        ),
    )


def water_activity_figure(
    isotherms: Sequence[Isotherm], low_db: float, middle_db: float, high_db: float, temperature_c: float
) -> Figure | None:
    """Water activity at a moisture known within `low_db` to `high_db` (dry basis, g/g). `high` is the cautious end.

    The interval runs from the lowest isotherm at the low moisture to the highest at the high one. Food drier than
    an isotherm's driest point lies between nothing and that point. None where there is no isotherm near the
    temperature, and where one of them does not reach up to the moisture: what the others say would be the
    mildest reading alone. No constants, or outside their range, no number.
    """
    found = []
    for i in isotherms:
        refuse_unphysical(i.m0, i.c, i.k)
        if not i.near(temperature_c) or not 0 < low_db <= middle_db <= high_db:
            continue
        low, middle, high = (gab_inverse(i.m0, i.c, i.k, x) for x in (low_db, middle_db, high_db))
        if high > i.aw_high:
            return None
        found.append((i, low if low >= i.aw_low else 0.0, middle, max(high, i.aw_low)))
    if not found:
        return None
    middle = sum(m for _, _, m, _ in found) / len(found)
    return Figure(
        middle,
        "aw",
        low=min(lo for _, lo, _, _ in found),
        high=max(hi for _, _, _, hi in found),
        basis=merge_bases([i.basis for i, *_ in found]),
        workings=(
            step(Kind.MOISTURE_RANGE, moisture=(middle_db, "g/g"), low=(low_db, "g/g"), high=(high_db, "g/g")),
            *(step(Kind.GAB_ACTIVITY, (m, "aw", i.basis.source), m0=i.m0, c=i.c, k=i.k) for i, _, m, _ in found),
        ),
    )


def below(figure: Figure, limit: float) -> bool:
    """Whether even the cautious end lies below a limit. An estimate is no measurement: it never proves safety."""
    return (figure.high if figure.high is not None else figure.value) < limit
