"""What is said of a field beside its type: its name for a person, its entry, and what it may be.

Kept in the field's own metadata, so that a field is described where it stands:

    rating: int | None = field(default=None, metadata=about("Rating, 1 to 5", low=1, high=5))
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

MOST_G, MOST_ML = 2e6, 2e6
"""Two tons, two cubic metres: more of one load, jar or meal is a slip of the finger. Our own bound."""
MOST_MINUTES = 24 * 60.0
"""A day of soaking or cooking. Our own bound."""


@dataclass(frozen=True, slots=True)
class About:
    """A field as a person meets it. Bounds are in the stored unit and belong to what is allowed."""

    label: str = ""
    """What its entry is called, in a form and in sentences."""
    entry: str = ""
    """The short name of its entry: of what is typed, and of the option on the command line. Empty: the field's."""
    hint: str = ""
    """An example, shown in the empty entry."""
    help: str = ""
    """What the option says of itself; the label where nothing is said."""
    low: float | None = None
    high: float | None = None
    positive: bool = False
    """Nothing, and less than nothing, is refused."""
    below: float | None = None
    """A bound that is itself too much."""
    choices: tuple[str, ...] = ()
    """The only values there are; an empty text is allowed where the field is empty unless it is set."""
    needed: bool = False
    """A text that must say something."""
    says: str = ""
    """The whole sentence for a value outside its bounds, where the general one says too little."""
    answers: bool = False
    """Its value may answer a stop: it is asked every time and never remembered."""
    kept: bool = False
    """A habit: the next batch of the food begins with it."""
    computed: bool = False
    """Worked out by the program from other records: nobody types it, and no import asks about it."""


def about(label: str = "", **more: Any) -> Mapping[str, About]:
    """The metadata of a field."""
    return {"about": About(label, **more)}


NOTHING_SAID = About()
