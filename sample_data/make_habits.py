"""How the club dries each food, from `habits.csv`: the cut, what is done first, how hot, how long, what comes out.

The last columns are what the club takes each food to hold: water and refuse in percent, grams in a cup
fresh and dried. They only make the notes plausible; the program's own figures are in its handbook.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Habit:
    """One line of the table."""

    food: str
    category: str
    form: str
    thickness: str
    months: tuple[int, ...]
    pounds: tuple[float, float]
    heat_f: int
    hours: float
    final_pct: tuple[float, float]
    times: int
    pretreatment: str
    made_from: str
    precook: str
    precook_f: int | None
    per_tray_lb: float
    water_pct: float | None
    refuse_pct: float | None
    cup_g: dict[str, float | None]


def _number(text: str) -> float | None:
    return float(text) if text else None


def _habit(line: dict[str, str]) -> Habit:
    return Habit(
        food=line["food"],
        category=line["category"],
        form=line["form"],
        thickness=line["thickness"],
        months=tuple(map(int, line["months"].split())),
        pounds=(float(line["pounds_low"]), float(line["pounds_high"])),
        heat_f=int(line["heat_f"]),
        hours=float(line["hours"]),
        final_pct=(float(line["final_low"]), float(line["final_high"])),
        times=int(line["times"]),
        pretreatment=line["pretreatment"],
        made_from=line["made_from"],
        precook=line["precook"],
        precook_f=int(line["precook_f"]) if line["precook_f"] else None,
        per_tray_lb=float(line["per_tray_lb"]),
        water_pct=_number(line["water"]),
        refuse_pct=_number(line["refuse"]),
        cup_g={"fresh": _number(line["fresh_cup_g"]), "dried": _number(line["dried_cup_g"])},
    )


with (Path(__file__).resolve().parent / "habits.csv").open(encoding="utf-8", newline="") as table:
    HABITS = tuple(_habit(line) for line in csv.DictReader(table))

HABIT = {habit.food: habit for habit in HABITS}

POTS = {
    "galley-bean-chili": (
        ("kidney-bean", 0.42),
        ("tomato", 0.30),
        ("onion", 0.12),
        ("red-pepper", 0.08),
        ("ground-beef", 0.08),
    ),
    "galley-squash-lentil": (
        ("butternut-squash", 0.45),
        ("lentil", 0.35),
        ("onion", 0.10),
        ("carrot", 0.10),
    ),
}
"""What goes into the pots that are dried whole, and its share of the mass."""


def water_pct(food: str) -> float:
    """Starting moisture; a pot's from its ingredients."""
    if food in POTS:
        return sum(share * water_pct(part) for part, share in POTS[food])
    known = HABIT[food].water_pct
    assert known is not None
    return known
