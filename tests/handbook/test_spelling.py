"""How people spell names, and what of it says nothing of which food is meant."""

from dryhouse.handbook.spelling import core_of, ordered, plain_of, singular, slips_forgiven, spoken, words


def test_a_plural_comes_down_to_one_and_what_only_looks_like_one_stays():
    said = {
        "leaves": "leaf", "zucchinis": "zucchini", "kiwis": "kiwi", "cherries": "cherry", "pies": "pie",
        "tomatoes": "tomato", "tomatos": "tomato", "radishes": "radish", "peaches": "peach", "boxes": "box",
        "glasses": "glass", "peas": "pea", "beans": "bean", "bees": "bee",
        "gas": "gas", "bus": "bus", "couscous": "couscous", "bass": "bass", "iris": "iris",
    }  # fmt: skip
    assert {word: singular(word) for word in said} == said


def test_accents_apostrophes_and_joining_words_say_nothing():
    assert spoken("Crème d'Isigny, œufs & L’huile  København") == (
        "creme", "d", "isigny", "oeuf", "l", "huile", "kobenhavn",
    )  # fmt: skip
    assert words("Beans and rice in oil n salt") == ("bean", "rice", "oil", "salt")
    assert ordered(("sweet", "corn")) == "corn sweet"


def test_words_of_preparing_are_left_out_unless_nothing_else_is_said():
    assert core_of(("fresh", "pea", "diced")) == ("pea",)
    assert core_of(("fresh", "dried")) == ("fresh", "dried")
    assert plain_of(("canned", "pea")) == ("pea",)
    assert plain_of(("canned",)) == ("canned",)


def test_longer_words_forgive_more_slips():
    assert [slips_forgiven("a" * letters) for letters in (4, 5, 7, 8)] == [0, 1, 1, 2]
