"""The example in an empty entry, in the units the person reads."""

from __future__ import annotations

import re

from dryhouse.science import quantities as q
from dryhouse.science.display import METRIC, Style

_US_EXAMPLE = re.compile(r"(such as )?([\d ./]+ ?(?:lb|oz|cups?|in|F)(?: [\d ./]+ oz)?)")
_METRIC_EXAMPLE = re.compile(r"(such as )?([\d.]+ (?:g|kg|ml|l|mm|cm|C))")


def example_in(hint: str, kind: type[q.Quantity], style: Style) -> str:
    """`such as 2 lb 3 oz` as she would write it; other hints, and those in her own units, stay as they are."""
    foreign = (_US_EXAMPLE if style.system == METRIC else _METRIC_EXAMPLE).fullmatch(hint)
    if foreign is None:
        return hint
    shown = q.parse(foreign[2], kind, default_unit="")
    if style.system == METRIC and kind in (q.Mass, q.Volume):
        shown = kind(float(f"{shown.si:.1g}"))  # an example is a round one: 1000 g, not 992 g
    return f"{foreign[1] or ''}{style.show(shown)}"
