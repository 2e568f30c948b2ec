"""How the handbook's figures and sayings are called on the page, in reading order."""

from __future__ import annotations

from dryhouse.science.display import Style
from dryhouse.science.values import Fact
from dryhouse.words.bases import basis_text

FIGURES: dict[str, str] = {
    "water": "Water, fresh",
    "target_moisture": "Target moisture",
    "drying_temperature": "Dryer temperature",
    "drying_hours": "Hours in the dryer",
    "tray_load": "Load on a tray",
    "blanch_steam": "Blanching in steam",
    "blanch_water": "Blanching in water",
    "refuse": "Peel, core and other waste",
    "dried_cup": "Weight of a cup, dried",
    "dried_water": "Water in store-bought dried",
    "energy": "Energy, fresh",
    "protein": "Protein, fresh",
    "fat": "Fat, fresh",
    "carbohydrate": "Carbohydrate, fresh",
    "fibre": "Fiber, fresh",
    "sodium": "Sodium, fresh",
}

SAYINGS: dict[str, str] = {
    "dryness_test": "How to tell it is dry",
    "pretreatment": "Pretreatment",
    "blanch": "Blanching",
    "cut": "Cut",
    "note": "Note",
}

CATEGORIES: dict[str, str] = {
    "vegetable": "Vegetables",
    "fruit": "Fruits",
    "herb": "Herbs",
    "mushroom": "Mushrooms",
    "legume": "Legumes",
    "grain": "Grains",
    "meat": "Meats",
    "poultry": "Poultry",
    "fish": "Fish",
    "egg": "Eggs",
    "dairy": "Dairy",
    "mixed": "Mixes",
    "other": "Other foods",
}

CUP = "g/cup"
_SHORT = {
    "% wet basis": "%",
    "% of as-purchased mass": "% of what is bought",
    "°C": "degC",
    "kcal/100 g": "kcal per 100 g",
    "g/100 g": "g per 100 g",
    "mg/100 g": "mg per 100 g",
    "kg/m2": "kg per m²",
}


def shown(fact: Fact, style: Style) -> str:
    """A figure as it was published, with its published range, where it has one, in the person's own units."""
    unit = _SHORT.get(fact.unit, fact.unit)

    def one(value: float) -> str:
        if unit == "degC":
            return style.temperature(value)
        if unit == CUP:
            return style.mass(value)
        return f"{style.number(value, 2)} {unit}"

    if fact.low is None or fact.high is None:
        return one(fact.value)
    if one(fact.low) == one(fact.high) == one(fact.value):
        return one(fact.value)
    ends = f"{one(fact.low).removesuffix(' ' + unit)} to {one(fact.high)}"
    return ends if fact.low <= fact.value <= fact.high and unit in ("h", "degC") else f"{one(fact.value)} ({ends})"


def source_words(fact: Fact) -> str:
    """Where a figure comes from, and anything the source says of it."""
    sample = f"; mean of {fact.n} samples" if fact.n else ""
    note = f". {fact.note[:1].upper()}{fact.note[1:]}" if fact.note and fact.how != "entered" else ""
    basis = basis_text(fact.basis).removeprefix("handbook: ")
    return f"{basis}{sample}{note}"
