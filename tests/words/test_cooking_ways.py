"""The ways to cook a meal, as they are read."""

from dryhouse.words.cooking_ways import (
    about_if,
    heat_words,
    not_this_way,
    taken_off_the_shelf,
    taken_words,
    way_line,
    weigh_first,
)


def test_a_way_is_one_line_with_its_minutes_its_water_and_its_fuel():
    line = way_line("short soak", "Soak 20 min, simmer 8 min", "1⅝ cups", heat_words(384.0, None))
    assert line == "short soak: soak 20 min, simmer 8 min; 1⅝ cups of water, 380 kJ of heat"
    assert heat_words(384.0, "0.4 oz") == "0.4 oz of fuel"
    assert heat_words(None, None) == "no fuel"
    assert not_this_way("cold soak", "Not as a cold soak. Boil it") == "cold soak: not as a cold soak. Boil it"


def test_what_is_not_known_is_asked_for_or_called_about():
    assert weigh_first(["ground beef", "bouillon"]) == "weigh one cup of ground beef and of bouillon"
    assert weigh_first(["beef"], ["sauce"]) == "weigh one cup of beef, and give the weight of sauce"
    assert weigh_first([]) == ""
    assert (about_if("2 cups", True), about_if("2 cups", False)) == ("about 2 cups", "2 cups")


def test_what_leaves_the_shelf_is_said_before_and_after():
    assert taken_off_the_shelf([taken_words("1 oz", "corn", "lot 3"), "2 oz of leek (lot 5)"]) == (
        "taken off the shelf: 1 oz of corn (lot 3), 2 oz of leek (lot 5)"
    )
    assert taken_off_the_shelf(["1 oz of corn (lot 3)"], to_come=True).startswith("this leaves the shelf: ")
