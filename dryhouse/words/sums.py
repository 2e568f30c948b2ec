"""A sum that leaves something out says so beside the figure."""

from __future__ import annotations

from collections.abc import Sequence

from dryhouse.science.display import calories

_NAMED = 2


def at_least(figure: str, lacking: Sequence[str]) -> str:
    """`at least 1840 kcal` where something is left out, else the figure as it is."""
    return f"at least {figure}" if lacking else figure


def at_least_title(title: str, lacking: Sequence[str]) -> str:
    """`Energy, at least`."""
    return f"{title}, at least" if lacking else title


def not_known_for(lacking: Sequence[str]) -> str:
    """`not known for nori, kelp and 2 more`; empty where nothing is left out."""
    if not lacking:
        return ""
    more = len(lacking) - _NAMED
    return f"not known for {', '.join(lacking[:_NAMED])}{f' and {more} more' if more > 0 else ''}"


def bracketed(lacking: Sequence[str]) -> str:
    """` (not known for nori)`, or nothing."""
    return f" ({not_known_for(lacking)})" if lacking else ""


def energy_words(kcal: float, lacking: Sequence[str], wish: float | None = None) -> str:
    """`at least 1840 kcal of 2500 wanted (not known for nori)`."""
    wanted = "" if wish is None else f" of {wish:.0f} wanted"
    return f"{at_least(f'{calories(kcal)} kcal', lacking)}{wanted}{bracketed(lacking)}"


def gap_words(gap: float, lacking: Sequence[str]) -> str:
    """`660 short`, `120 over`; what a sum leaves out makes it `at most 660 short`, `at least 120 over`."""
    if gap >= 0:
        return f"{at_least(calories(gap), lacking)} over"
    return f"{'at most ' if lacking else ''}{calories(-gap)} short"
