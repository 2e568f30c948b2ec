"""What stands in a form that was left: kept for the time it is opened again for the same thing."""

from __future__ import annotations

from typing import Any


class Draft:
    """`leave(of)` when a form is left, `stands(of)` when it is opened: True means leave the entries as they are."""

    def __init__(self) -> None:
        self._of: tuple[Any, ...] = ()

    def leave(self, of: Any) -> None:
        """The form was left with something typed for this."""
        self._of = (of,)

    def stands(self, of: Any) -> bool:
        """Whether what was typed for this still stands; asked once."""
        there, self._of = self._of == (of,), ()
        return there

    def drop(self, *_told: object) -> None:
        """It is void: records it was about changed."""
        self._of = ()
