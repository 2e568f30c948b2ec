"""How long a drying calendar takes: 60 foods over 6 months, in the hours of a household.

python tests/benchmarks/drying_calendar_speed.py
"""

from __future__ import annotations

import random
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from dryhouse.science.drying_calendar import Household, calendar
from dryhouse.science.drying_hours import AtHand, Hours
from dryhouse.science.drying_runs import Asked, Machine
from dryhouse.science.provisioning import Recipe, Span, to_dry

FIRST = datetime(2027, 3, 1, tzinfo=UTC)
DAYS, FOODS, ALLOWED_S = 184, 60, 2.0
DRYERS = (Machine(1, "shelf dryer", 6), Machine(2, "box dryer", 10), Machine(3, "small dryer", 4))


def hours() -> Hours:
    """Evenings and weekends."""
    stretches = []
    for n in range(DAYS):
        day = FIRST + timedelta(days=n)
        if day.weekday() < 5:
            stretches.append(AtHand(day + timedelta(hours=7), day + timedelta(hours=8), starts=False))
        begin = 17.5 if day.weekday() < 5 else 7
        stretches.append(AtHand(day + timedelta(hours=begin), day + timedelta(hours=22)))
    return Hours(tuple(stretches))


def foods(most: float) -> list[Asked]:
    """Sixty foods of all kinds, up to so many dried grams each."""
    chance = random.Random(1)
    asked = []
    for n in range(FOODS):
        longest = chance.uniform(5, 16)
        recipe = Recipe(
            f"food {n}",
            Span(8, 7, 9),
            tray_grams={1: 400.0, 2: 400.0, 3: 350.0},
            hours=Span(longest - 2, longest - 4, longest),
            conditioning_days=chance.choice([0, 0, 10]),
            company=chance.choice(["vegetables", "fruit", "onions", "grains"]),
            temperature_c=60.0,
        )
        earliest = FIRST + timedelta(days=chance.choice([0, 50]))
        asked.append(
            Asked(to_dry(chance.uniform(50, most), recipe), recipe, earliest, chance.choice([0, 0, 0, 1, 2]))
        )
    return asked


def main() -> None:
    """A row for each number of dryers, and for a plan that cannot be met."""
    household = Household(hours(), FIRST, FIRST + timedelta(hours=9), FIRST + timedelta(days=DAYS))
    print(f"{'dryers':>7}{'asked up to':>13}{'runs':>6}{'left over':>11}{'seconds':>9}   allowed {ALLOWED_S:g} s")
    for most in (1500.0, 8000.0):
        for count in (1, 2, 3):
            begun = time.perf_counter()
            made = calendar(foods(most), DRYERS[:count], household)
            took = time.perf_counter() - begun
            left = sum(made.left_over.values())
            print(f"{count:>7}{most:>11.0f} g{len(made.runs):>6}{left:>9.0f} g{took:>9.2f}")


if __name__ == "__main__":
    main()
