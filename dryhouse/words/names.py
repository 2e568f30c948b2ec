"""What things are called."""

from __future__ import annotations

from typing import Protocol


class Titled(Protocol):
    """Whatever may have been given a title of its own."""

    @property
    def title(self) -> str:
        """The title, or nothing."""


def called(batch: Titled, food: str) -> str:
    """What a batch is called everywhere: its own title where it was given one, else the food's name."""
    return batch.title or food


def capital(text: str) -> str:
    """The text with its first letter large, the rest as it is."""
    return text[:1].upper() + text[1:]
