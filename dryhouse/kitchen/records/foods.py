"""A person's own foods, and her own figures in place of the handbook's."""

from __future__ import annotations

from dataclasses import dataclass, field

from dryhouse.kitchen.records.describing import about

PLANT, MEAT, POULTRY, FISH, EGG, MILK, UNKNOWN = "plant", "meat", "poultry", "fish", "egg", "milk", "unknown"
CONTENTS = (PLANT, MEAT, POULTRY, FISH, EGG, MILK, UNKNOWN)
"""What may be in an own food. Only `plant` by itself says that nothing of an animal is in it."""


@dataclass(frozen=True, slots=True)
class OwnFood:
    """A food the handbook does not know. Its figures are `OwnFigure` rows of the same slug."""

    slug: str
    name: str = field(metadata=about("Name", needed=True))
    category: str = field(metadata=about("Kind", needed=True))
    other_names: str = field(default="", metadata=about("Other names"))
    """Separated by semicolons."""
    like: str = field(default="", metadata=about("Dries like"))
    """Slug of a handbook food whose cautions and drying figures also apply, if she named one."""
    contains: str = field(default="", metadata=about("What is in it", answers=True))
    """What is in it, of `CONTENTS`, separated by semicolons. Empty: nobody has said, and then it is treated as
    food of animal origin."""
    id: int = 0


def contents_of(own: OwnFood) -> tuple[str, ...]:
    """What she said is in it; empty where nobody has said."""
    return tuple(part.strip() for part in own.contains.split(";") if part.strip())


DRIED_CUP = "dried_cup"
"""What a cup of it weighs, dried: weighed once, it stands for every cup of it."""
FIGURE_UNITS = {
    "water": "%",
    "energy": "kcal/100 g",
    "protein": "g/100 g",
    "fat": "g/100 g",
    "carbohydrate": "g/100 g",
    "fibre": "g/100 g",
    "sodium": "mg/100 g",
    "refuse": "%",
    "target_moisture": "%",
    "drying_temperature": "degC",
    "drying_hours": "h",
    "tray_load": "kg/m2",
    DRIED_CUP: "g/cup",
}
"""The figures a person may enter for a food, and the unit each is kept in."""


@dataclass(frozen=True, slots=True)
class OwnFigure:
    """One figure entered for a food, by the name the handbook uses (`water`, `energy`, …)."""

    food: str
    name: str
    value: float = field(metadata=about("Value", low=0, high=1e6))
    unit: str
    typed: str = ""
    note: str = field(default="", metadata=about("How you know it"))
    id: int = 0
