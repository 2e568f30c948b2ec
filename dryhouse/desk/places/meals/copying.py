"""What stands in a meal's card becomes a meal of its own; the recorded one stays as it was."""

from __future__ import annotations

from dryhouse.desk.places.meals.meal_card import MealCard
from dryhouse.kitchen.meals.meals import save_as_new


def copy_of_card(card: MealCard) -> None:
    """Record the copy and go on with it, its name ready to be typed over."""
    card.reckon()
    problems = card.parts.problems()
    if problems:
        card.session.say(problems[0], "input")
    elif not card.meal.id:
        card.session.say("Save the meal first; then a copy can be saved as new.", "input")
    elif card.meal.id and not card.has_problem():
        done = card.session.act(save_as_new, card.draft(), card.parts.parts())
        if done is not None:
            card.kept.saved()
            card.show_new(done.record.id)
            card.name.setFocus()
            card.name.edit.selectAll()
