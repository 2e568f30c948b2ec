"""Whose fault it is, said in the type.

    InputProblem    what the person typed cannot be used: say what is wrong and what would be right
    WorldProblem    the file, the disk or the lock failed: say what happened and that nothing was lost

Anything else that is raised is our own mistake, and is shown as such. What is said is a `Message` where it comes
from an inner layer, and a sentence where the kitchen refuses; `words.messages.problem_sentence` reads either.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dryhouse.science.messages import Message


class InputProblem(ValueError):
    """Something a person entered cannot be used.

    `said` is what is wrong and what would be right; `field` names the entry it belongs to, where there is one.
    """

    def __init__(self, said: Message | str, field: str = "") -> None:
        super().__init__(said)
        self.said = said
        self.field = field


class NotKnown(InputProblem):
    """What was named, or what an answer hangs on, is not on record.

    `field` names it, so that who shows the sentence can say where it is listed or entered.
    """


class WorldProblem(RuntimeError):
    """The world did not play along: a file, a disk, a lock. `said` is what happened, and that nothing was lost."""

    def __init__(self, said: Message | str) -> None:
        super().__init__(said)
        self.said = said
