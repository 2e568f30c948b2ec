"""What the food is: statements that belong to it whatever was done, and foods nobody has named."""

from __future__ import annotations

from dryhouse.science.messages import Message, message
from dryhouse.science.messages import MessageKind as Why
from dryhouse.science.safety.facts import UNKNOWN_FOOD, FoodFacts
from dryhouse.science.safety.rules import Condition, Rule

ASKS = FoodFacts


def always(food: FoodFacts, rule: Rule) -> Message | None:
    """Whenever there is such a food."""
    if "any" in rule.about:
        return message(Why.EVERY_FOOD)
    which = ", ".join(sorted(k.removeprefix("named ").replace("_", " ") for k in rule.about & food.kinds))
    return message(Why.IS_OR_HOLDS, food=food.name or Why.THIS_FOOD, which=which)


def ingredients_unknown(food: FoodFacts, rule: Rule) -> Message | None:
    """The food is a mix of unnamed ingredients, or of no known kind."""
    unknown = UNKNOWN_FOOD in food.own_kinds or any(ingredients_unknown(p, rule) for p in food.parts or ())
    return message(Why.CONTENTS_UNKNOWN, food=food.name or Why.THIS_FOOD) if unknown else None


CONDITIONS: dict[str, Condition] = {"always": always, "ingredients unknown": ingredients_unknown}
