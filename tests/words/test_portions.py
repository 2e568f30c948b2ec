"""A pot that was dried whole, in words."""

from dryhouse.words.portions import each_of, portion_name, portion_sentence, servings_held


def test_a_serving_says_what_is_known_of_it():
    assert portion_sentence(portion_name(1, 6), "58 g", "1¼ cups", "410 kcal") == (
        "1 of 6: 58 g dried, about 1¼ cups of water, 410 kcal"
    )
    assert portion_sentence("1 of 6", "58 g") == "1 of 6: 58 g dried"
    assert servings_held("2", "6") == "2 of 6 servings"
    assert (each_of("1"), each_of("6")) == ("1 serving", "6 servings, each")
