"""What is said after a trip: what came back, what was short, and what the next one takes in its place."""

from __future__ import annotations

from collections.abc import Sequence

NOTHING_NOTED = "Nothing is noted yet of how it was."
AGAIN = " again"
NOTHING_CHANGED = "every meal as it was"


def came_back(name: str, parts: Sequence[str], change: str) -> str:
    """`Apple oat breakfast: 6 of 36 servings came back; more cinnamon.`"""
    said = "; ".join([*parts, *([change.strip().rstrip(".")] if change.strip() else [])])
    return f"{name[:1].upper()}{name[1:]}: {said}."


def uneaten(servings: str, of: str) -> str:
    """`6 of 36 servings came back`."""
    return f"{servings} of {of} servings came back"


def short(servings: str, of: str) -> str:
    """`2 more than 12 servings were wanted`."""
    return f"{servings} more than {of} servings were wanted"


def next_time(before: str, after: str) -> str:
    """`3¼ servings a bag in place of 4`."""
    return f"{after} servings a bag in place of {before}"


def left_out(name: str) -> str:
    """A meal of which nothing was eaten."""
    return f"{name} left out, as all of it came back"


def changed(name: str, how: str) -> str:
    """`apple oat breakfast 3¼ servings a bag in place of 4`."""
    return f"{name} {how}"


def taken_from(trip: str, changes: Sequence[str]) -> str:
    """`After Lake circuit 2027: apple oat breakfast 3¼ servings a bag in place of 4.`"""
    return f"After {trip}: {'; '.join(changes) if changes else NOTHING_CHANGED}."


def next_takes(changes: Sequence[str]) -> str:
    """`The next one takes apple oat breakfast 3¼ servings a bag in place of 4.`"""
    return f"The next one takes {'; '.join(changes) if changes else NOTHING_CHANGED}."


def last_time(meal: str, trip: str, change: str) -> str:
    """`Bean chili, as noted after Lake circuit 2027: less cumin.`"""
    return f"{meal[:1].upper()}{meal[1:]}, as noted after {trip}: {change.strip().rstrip('.')}."
