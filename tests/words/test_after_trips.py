"""What is said after a trip."""

from dryhouse.words import after_trips as words


def test_how_a_meal_was_and_what_the_next_trip_takes():
    said = words.came_back("apple oats", [words.uneaten("6", "36"), words.short("2", "36")], "more cinnamon. ")
    assert said == "Apple oats: 6 of 36 servings came back; 2 more than 36 servings were wanted; more cinnamon."
    how = words.changed("apple oats", words.next_time("4", "3¼"))
    assert words.next_takes([how]) == "The next one takes apple oats 3¼ servings a bag in place of 4."
    assert words.next_takes([]) == "The next one takes every meal as it was."
    assert words.taken_from("lakes", [how]) == "After lakes: apple oats 3¼ servings a bag in place of 4."
    assert words.taken_from("lakes", []) == "After lakes: every meal as it was."
    assert words.next_takes([how, words.left_out("barley pot")]).endswith(
        "in place of 4; barley pot left out, as all of it came back."
    )
    assert (
        words.came_back("apple oats", [words.uneaten("6", "36")], " ") == "Apple oats: 6 of 36 servings came back."
    )
    assert words.last_time("chili", "lakes", "less cumin.") == "Chili, as noted after lakes: less cumin."
