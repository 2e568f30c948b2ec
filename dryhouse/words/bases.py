"""What a figure rests on: own records, the handbook, what was entered, or what was assumed."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from dryhouse.science.display import Style, counted
from dryhouse.science.values import Basis
from dryhouse.words.messages import message_words


def basis_source(basis: Basis, style: Style | None = None) -> str:
    """The source, or what was assumed; of own records which they are."""
    return basis.source if basis.said is None else message_words(basis.said, style)


def basis_text(basis: Basis, style: Style | None = None) -> str:
    """`your 4 records (dried ÷ prepared)`, `handbook: a table`."""
    return kind_and_source(basis, basis_source(basis, style))


def kind_and_source(basis: Basis, source: str) -> str:
    """What kind of basis it is and how many records, with the source put as it is given here."""
    if basis.kind == "own":
        many = "records" if basis.n is None else counted(basis.n, "record") if basis.n != 1 else "record"
        said = f"your {many}"
        return said + (f" ({source})" if source else "")
    return f"{basis.kind}: {source}" if source else basis.kind


def bases_json(bases: Iterable[Basis], style: Style) -> list[dict[str, Any]]:
    """Every basis as the command line and the exchange write it."""
    return [{"kind": b.kind, "n": b.n, "source": basis_source(b, style)} for b in bases]
