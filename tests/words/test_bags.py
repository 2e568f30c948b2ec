"""What a label says of the inside of a bag."""

from dryhouse.words import bags


def test_what_is_known_what_a_label_tells_and_what_nobody_knows():
    assert bags.ingredients(["lentils", "onion"]) == "Ingredients: lentils, onion"
    assert bags.ingredients([]) == ""
    assert bags.contains(["milk", "wheat"], [], []) == "Contains milk, wheat."
    assert bags.contains([], ["stock"], ["chili"]) == (
        "Allergens: none known by name. Read the label of stock. What is in chili is not recorded."
    )


def test_a_comma_in_a_name_does_not_look_like_the_next_ingredient():
    assert bags.ingredients(["Oats, rolled or quick", "apple"]) == "Ingredients: oats (rolled or quick), apple"
    assert bags.ingredients(["chili (beef, beans)"]) == "Ingredients: chili (beef, beans)"
