"""What the inner layers and the kitchen have to tell, in sentences."""

from __future__ import annotations

import re

from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.messages import Message
from dryhouse.words.message_lines import LINES, NOTHING_CHANGED
from dryhouse.words.slots import Slot

_ENDLESS = re.compile(r"(“[^”]{57})[^”]{143,}(?=”)|(\S{57})\S{143,}")
"""What somebody typed or pasted, of over 200 characters: its beginning is enough to know it by."""


def message_words(message: Message, style: Style | None = None) -> str:
    """A message in the units and the notation the person reads (US where nobody says which)."""
    style = style or Style()
    slots: dict[str, object] = {"because": said(message.because, style), "unchanged": NOTHING_CHANGED}
    slots |= {term.name: Slot(term, style) for term in message.terms}
    return LINES[message.kind].format_map(slots)


def said(what: Message | str, style: Style) -> str:
    """A message in words; a sentence as it stands."""
    return what if isinstance(what, str) else message_words(what, style)


def problem_sentence(problem: InputProblem | WorldProblem, style: Style | None = None) -> str:
    """What is wrong and what would be right, in the units the person reads (US where nobody says which)."""
    return _ENDLESS.sub(lambda long: f"{long[1] or long[2]}…", said(problem.said, style or Style()))
