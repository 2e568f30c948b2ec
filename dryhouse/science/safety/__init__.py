"""What must be said about a food, a batch, a lot or a meal: facts in, cautions out.

Rules are data with sources; a condition is one small named function; the engine only puts them together.
A fact that is missing is None and never counts as passed.
"""

from dryhouse.science.safety.engine import condition_names, evaluate, rules_that_speak
from dryhouse.science.safety.facts import BatchFacts, Facts, FoodFacts, LotFacts, MealFacts
from dryhouse.science.safety.rules import SURFACES, Rule

__all__ = [
    "SURFACES",
    "BatchFacts",
    "Facts",
    "FoodFacts",
    "LotFacts",
    "MealFacts",
    "Rule",
    "condition_names",
    "evaluate",
    "rules_that_speak",
]
