"""The ways to cook a meal, in a line each."""

from __future__ import annotations

from collections.abc import Sequence

NO_FUEL = "no fuel"
OTHER_WAYS = "Other ways to cook it"


def heat_words(heat_kj: float | None, fuel: str | None) -> str:
    """`0.4 oz of fuel`, `330 kJ of heat`, `no fuel`."""
    if heat_kj is None:
        return NO_FUEL
    return f"{fuel} of fuel" if fuel is not None else f"{round(heat_kj, -1):.0f} kJ of heat"


def way_line(way: str, cooking: str, water: str, fuel: str) -> str:
    """`short soak: soak 20 min, simmer 8 min; 1⅝ cups of water, 0.4 oz of fuel`."""
    said = f"{cooking[:1].lower()}{cooking[1:]}"
    return f"{way}: {said}; {water} of water, {fuel}"


def not_this_way(way: str, why: str) -> str:
    """`cold soak: not as a cold soak. Heat to 165 °F (74 °C)`."""
    return f"{way}: {why[:1].lower()}{why[1:]}"


def weigh_first(cups: Sequence[str], by_label: Sequence[str] = ()) -> str:
    """`weigh one cup of ground beef, and give the weight of trail sauce`; empty where nothing is missing."""
    said = [f"weigh one cup of {' and of '.join(cups)}"] if cups else []
    said += [f"give the weight of {' and of '.join(by_label)}"] if by_label else []
    return ", and ".join(said)


def taken_words(much: str, food: str, lot: str) -> str:
    """`1 oz of carrot (jar by the door)`."""
    return f"{much} of {food} ({lot})"


def taken_off_the_shelf(taken: Sequence[str], *, to_come: bool = False) -> str:
    """`taken off the shelf: 1 oz of carrot (lot 3), 0.2 oz of onion (lot 5)`."""
    return f"{'this leaves' if to_come else 'taken off'} the shelf: {', '.join(taken)}"


def about_if(text: str, doubtful: bool) -> str:
    """`about 1½ cups` where it rests on what is still to be dried."""
    return f"about {text}" if doubtful else text
