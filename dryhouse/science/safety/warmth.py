"""How long food that is not dry may stand warm before it is past saving.

Limits: USDA, the danger zone: two hours in all above 40 °F, one hour where it is hotter than 90 °F.
"""

from __future__ import annotations

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Why

WARM_C, HOT_C = (40.0 - 32.0) / 1.8, (90.0 - 32.0) / 1.8
WARM_MIN, HOT_MIN = 120.0, 60.0
COUNTED_MIN = 1440.0
"""Longer than a day is not told apart."""


def stood_too_warm(warm_min: float | None, hot_min: float | None) -> Message | None:
    """Why food that is not dry has stood warm too long, or None; a time not known is too long."""
    if warm_min is None or hot_min is None:
        return message(Why.STOOD_UNKNOWN)
    if hot_min > HOT_MIN:
        return message(Why.STOOD_HOT)
    return message(Why.STOOD_WARM) if warm_min > WARM_MIN else None
