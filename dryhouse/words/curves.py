"""What is told of the curves fitted to a run."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dryhouse.science.display import Style
from dryhouse.words.messages import message_words

if TYPE_CHECKING:
    from dryhouse.science.curves import CurveSet


def curve_lines(curves: CurveSet, style: Style | None = None) -> list[str]:
    """Why this curve is shown, or why none; then what is odd about the weighings."""
    return [message_words(told, style) for told in (curves.why, *curves.warnings)]
