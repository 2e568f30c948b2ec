"""What the food is: statements that belong to it whatever was done, and foods nobody has named."""

from __future__ import annotations

from dryhouse.science.safety.facts import UNKNOWN_FOOD, FoodFacts
from dryhouse.science.safety.rules import Condition, Rule

ASKS = FoodFacts


def always(food: FoodFacts, rule: Rule) -> str:
    """Whenever there is such a food."""
    if "any" in rule.about:
        return "said of every food"
    which = ", ".join(sorted(k.removeprefix("named ").replace("_", " ") for k in rule.about & food.kinds))
    return f"{food.name or 'this food'} is or holds: {which}"


def ingredients_unknown(food: FoodFacts, rule: Rule) -> str:
    """The food is a mix of unnamed ingredients, or of no known kind."""
    unknown = UNKNOWN_FOOD in food.own_kinds or any(ingredients_unknown(p, rule) for p in food.parts or ())
    return f"what {food.name or 'this food'} is made of is not recorded" if unknown else ""


CONDITIONS: dict[str, Condition] = {"always": always, "ingredients unknown": ingredients_unknown}
