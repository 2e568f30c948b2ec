"""How large the pieces of a dried food are: by the thickness and the cut its batch says."""

from __future__ import annotations

from dataclasses import dataclass

from dryhouse.handbook.pot import pot
from dryhouse.handbook.softening import FINE, LARGE, SMALL
from dryhouse.kitchen.records import Batch

_FINE = (
    "shred",
    "grate",
    "flake",
    "powder",
    "crumb",
    "pur",
    "leather",
    "spread",
    "leaves",
    "mince",
    "rice",
    "ground",
)
_LARGE = ("hal", "whole", "quarter", "chunk", "wedge", "ear", "cob")


@dataclass(frozen=True, slots=True)
class Pieces:
    """Their size, and whether a batch says so; where none does they are taken to be small."""

    size: str
    said: bool


def pieces_of(batch: Batch | None) -> Pieces:
    """The pieces of a batch, by its thickness where it has one, else by the word for its cut."""
    if batch is not None and batch.thickness is not None:
        thick = batch.thickness.si
        if thick <= pot("fine_piece").value:
            return Pieces(FINE, True)
        return Pieces(SMALL if thick <= pot("small_piece").value else LARGE, True)
    words = "" if batch is None else batch.form.casefold()
    if any(word.startswith(_FINE) for word in words.split()):
        return Pieces(FINE, True)
    if any(word.startswith(_LARGE) for word in words.split()):
        return Pieces(LARGE, True)
    return Pieces(SMALL, bool(words.strip()))
