"""Finding foods by what people write, and never guessing which animal or plant was meant."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.handbook.finder import Finder, WhichFood
from dryhouse.handbook.neighbors import neighbors
from dryhouse.handbook.reader import Handbook, handbook
from dryhouse.handbook.spelling import ordered, singular, words
from dryhouse.handbook.tables import Food
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import problem_sentence
from tests.rows import every_row

FOODS = handbook().foods

SPELLINGS = {
    "corn": ("corn", "Sweet Corn", "sweetcorn", "maize", "corn, sweet", "corn kernels", "fresh corn", "maise"),
    "sour-cherry": ("sour cherry", "cherries sour", "sour cherries", "tart cherry", "pie cherries", "sour chery"),
    "sweet-cherry": ("sweet cherries", "cherry, sweet"),
    "tomato": ("tomato", "tomatoes", "tomatos", "tomatoe", "TOMATO", "sliced tomatoes", "tomatto"),
    "ground-beef": ("ground beef", "mince", "hamburger", "beef mince", "beef ground", "minced beef",
        "cooked ground beef"),
    "broccoli": ("brocoli", "broccolli", "broccoli florets"),
    "green-bean": ("green beans", "string beans", "snap bean", "green been", "beans, green"),
    "green-pea": ("peas", "garden peas", "pea"),
    "squash-winter": ("winter squash", "squash winter", "winter sqash"),
    "butternut-squash": ("butternut", "butternut squash", "squash, butternut", "buternut squash"),
    "zucchini": ("zucchini", "courgette", "courgettes", "zuchini", "zucchinis"),
    "eggplant": ("aubergine", "egg plant", "eggplants"),
    "rutabaga": ("swede", "rutabagas"),
    "brussels-sprout": ("Brussels sprouts", "brussel sprouts"),
    "sweet-potato": ("sweet potato", "sweetpotato", "sweet potatos"),
    "jalapeno": ("jalapeño", "jalapeno"),
    "blackberry": ("blackberries", "black berry", "blackberrys"),
    "strawberry": ("strawberries", "strawbery"),
    "grape": ("raisins", "grapes", "sultana"),
    "plum": ("prunes", "plums"),
    "cilantro": ("cilantro", "coriander leaves", "cillantro"),
    "chickpea": ("chick peas", "garbanzo beans", "chickpeas"),
    "kidney-bean": ("kidney beans", "red kidney bean", "beans, kidney"),
    "lentil": ("lentils", "cooked lentils"),
    "rice-white": ("rice", "white rice", "cooked rice"),
    "rice-wild": ("wild rice",),
    "mushroom": ("mushrooms", "button mushrooms", "mushroms"),
    "chicken": ("chicken", "chiken", "cooked chicken breast"),
    "turkey": ("turkey", "turky", "turkey breast"),
    "beef-jerky": ("beef jerky", "jerky beef", "beef strips"),
    "venison-jerky": ("venison", "deer jerky"),
    "salmon": ("salmon", "salmon fillet"),
}  # fmt: skip


@every_row(("slug", "typed"), [(s, t) for s, all_ in SPELLINGS.items() for t in all_])
def test_what_people_write(slug, typed):
    assert handbook().identify(typed).slug == slug
    assert handbook().find(typed)[0].slug == slug


@every_row(
    ("typed", "offered"),
    [
        ("cherry", {"sour-cherry", "sweet-cherry"}),
        ("squash", {"squash-winter", "squash-summer"}),
        ("bell pepper", {"red-pepper", "green-pepper", "yellow-pepper"}),
        ("beans", {"green-bean"}),
        ("beef", {"beef-jerky", "beef-roast", "ground-beef"}),
        ("chili", {"chili-meat", "chili-bean"}),
        ("stew", {"stew-meat", "vegetable-stew"}),
        ("jerky", {"beef-jerky"}),
        ("sqash", {"squash-winter", "squash-summer"}),
        ("ground beef 90", {"ground-beef", "ground-beef-80", "ground-beef-extra-lean"}),
        ("ground beef 85 % lean", {"ground-beef-80", "ground-beef-extra-lean"}),
        ("lean ground beef 90/10", {"ground-beef-extra-lean"}),
    ],
)
def test_two_foods_of_one_name_are_asked_back(typed, offered):
    with pytest.raises(InputProblem) as problem:
        handbook().identify(typed)
    assert problem.value.field == "food"
    assert offered <= {food.slug for food in handbook().find(typed, limit=12)}
    assert any(FOODS[slug].name in problem_sentence(problem.value) for slug in offered)


@every_row(
    "typed",
    [
        "oat",
        "oyster",
        "crab",
        "kidney",
        "goose",
        "hen",
        "duck",
        "salmonberry",
        "beer",
        "lean beef",
        "turkey berry",
        "buffalo berry",
        "bear berry",
        "venison berry",
    ],
)
def test_an_animal_never_turns_into_a_plant_nor_a_plant_into_an_animal(typed):
    with pytest.raises(InputProblem):
        handbook().identify(typed)


@every_row(
    ("typed", "slug"),
    [("goat", "goat"), ("bear", "bear"), ("pear", "pear"), ("ham", "ham"), ("yam", "yam"),
     ("pea", "green-pea"), ("hominy", "hominy"), ("quince", "quince"), ("quinoa", "quinoa"),
     ("parsnip", "parsnip"), ("parsley", "parsley")],
)  # fmt: skip
def test_short_and_like_names_mean_themselves(typed, slug):
    assert handbook().identify(typed).slug == slug


def test_an_unknown_food_is_said_to_be_unknown():
    with pytest.raises(InputProblem, match="No food called “xyzzyplugh” is known"):
        handbook().identify("xyzzyplugh")


@every_row("typed", ["", "   ", "?!"])
def test_nothing_is_no_food(typed):
    assert handbook().find(typed) == []
    with pytest.raises(InputProblem, match="sour cherry"):
        handbook().identify(typed)


@every_row("food", FOODS.values(), ids=FOODS)
def test_every_food_answers_to_all_its_names(food):
    for name in (food.slug, food.name, *food.other_names):
        assert handbook().identify(name) is food, name
        assert handbook().find(name)[0] is food, name


@every_row(
    ("typed", "slug"),
    [("tom", "tomato"), ("broc", "broccoli"), ("appl", "apple"), ("sour ch", "sour-cherry"),
     ("gr be", "green-bean"), ("butt", "butternut-squash"), ("shi", "shiitake"), ("wild r", "rice-wild"),
     ("turk", "turkey")],
)  # fmt: skip
def test_half_a_word_is_enough_while_typing(typed, slug):
    assert slug in [food.slug for food in handbook().find(typed)[:3]]


def test_whole_words_come_before_half_ones():
    assert [food.slug for food in handbook().find("egg")][:2] == ["egg", "egg-noodles"]
    assert handbook().find("grape")[0].slug == "grape"
    peas = [food.slug for food in handbook().find("pea", limit=20)]
    assert max(map(peas.index, ("snow-pea", "split-pea"))) < peas.index("peach")
    black = [food.slug for food in handbook().find("black", limit=20)]
    assert black.index("black-bean") < black.index("blackberry")


def test_the_end_of_a_word_finds_its_kind():
    berries = {food.slug for food in handbook().find("berries", limit=20)}
    assert {"blueberry", "raspberry", "strawberry", "cranberry", "gooseberry"} <= berries


def test_a_word_we_do_not_know_does_not_hide_the_others():
    assert "mushroom" in [food.slug for food in handbook().find("bay bolete mushrooms")]


def test_no_more_are_offered_than_asked_for():
    assert len(handbook().find("a", limit=3)) == 3
    assert len(handbook().find("bean", limit=5)) == 5


@given(st.text(max_size=40))
def test_any_text_is_either_a_food_or_a_plain_sentence(text):
    offered = handbook().find(text)
    assert len(offered) <= 8
    assert len({food.slug for food in offered}) == len(offered)
    try:
        said = handbook().identify(text).slug
    except InputProblem as problem:
        said = problem_sentence(problem)
    assert said in FOODS or said.endswith(".")


@given(st.sampled_from(sorted(FOODS)), st.randoms(use_true_random=False))
def test_word_order_and_capitals_do_not_matter(slug, random):
    parts = FOODS[slug].name.replace(",", "").split()
    random.shuffle(parts)
    assert handbook().identify(" ".join(parts).upper()).slug == slug


@given(st.sampled_from([f for f in FOODS.values() if len(f.name) >= 8]), st.data())
def test_one_letter_left_out_of_a_long_name_still_finds_it(food, data):
    place = data.draw(st.integers(1, len(food.name) - 1))
    if not food.name[place].isalpha():
        return
    assert food in handbook().find(food.name[:place] + food.name[place + 1 :])


@every_row(
    ("plural", "one"),
    [("cherries", "cherry"), ("tomatoes", "tomato"), ("peaches", "peach"), ("radishes", "radish"),
     ("leaves", "leaf"), ("peas", "pea"), ("asparagus", "asparagus"), ("swiss", "swiss"), ("couscous", "couscous"),
     ("olives", "olive")],
)  # fmt: skip
def test_plurals(plural, one):
    assert singular(plural) == one
    assert singular(one) == one


def test_accents_and_marks_are_looked_past():
    assert words("Jalapeño-Peppers, (hot)") == ("jalapeno", "pepper", "hot")
    assert words("Lady's fingers") == ("lady", "finger") or words("Lady's fingers") == ("ladys", "finger")


def test_a_handbook_of_other_foods_finds_only_those():
    small = Handbook({"corn": FOODS["corn"]})
    assert [food.slug for food in small.find("corn")] == ["corn"]
    assert small.find("tomato") == []


def test_the_handbook_answers_for_slugs_and_sources():
    assert handbook().food("corn").name == "sweet corn"
    assert handbook() is handbook()
    assert handbook().sources["usda_sr28"].how == "read"
    with pytest.raises(InputProblem, match="no food “ambrosia”"):
        handbook().food("ambrosia")


@every_row("typed", ["pea soup", "rice milk", "chile", "beary", "bulberry", "baril"])
def test_known_words_and_slips_that_could_be_two_words_are_asked_back(typed):
    with pytest.raises(InputProblem):
        handbook().identify(typed)


@every_row(
    ("typed", "first"),
    [("canned peaches", "peach"), ("canned pineapple", "pineapple"), ("smoked salmon", "salmon"),
     ("rotisserie chicken", "chicken"), ("crushed tomatoes", "tomato"), ("sun-dried tomatoes", "tomato"),
     ("canned black beans", "black-bean")],
)  # fmt: skip
def test_food_put_up_in_another_way_is_asked_about_with_the_plain_one_first(typed, first):
    with pytest.raises(InputProblem):
        handbook().identify(typed)
    assert handbook().find(typed)[0].slug == first


@every_row(
    "typed, near",
    [
        ("bacon", "ham"),
        ("Sausages", "ground-pork"),
        ("canned chicken", "chicken"),
        ("chicken, canned", "chicken"),
        ("imitation crab", "white-fish"),
        ("pesto", "basil"),
        ("cole slaw", "cabbage"),
        ("canned beans", "black-bean"),
    ],
)
def test_what_the_handbook_does_not_hold_is_said_with_what_is_nearest(typed, near):
    with pytest.raises(WhichFood) as asked:
        handbook().finder.identify(typed)
    assert asked.value.near[0].slug == near
    assert problem_sentence(asked.value).startswith(f"The handbook has no “{typed}”")
    assert handbook().finder.find(typed)[0].slug == near


def test_every_neighbor_is_a_food_and_no_name_beside_it_is():
    foods = handbook().foods
    assert not [slug for near in neighbors().values() for slug in near if slug not in foods]
    taken = {ordered(words(name)) for food in foods.values() for name in (food.name, *food.other_names)}
    assert not set(neighbors()) & taken


@every_row(
    "typed, slug",
    [
        ("kimchee", "kimchi"),
        ("hash browns", "hash-brown"),
        ("baked beans", "baked-beans"),
        ("celery leaves", "celery-leaf"),
        ("celery", "celery"),
        ("frozen hash browns", "hash-brown"),
    ],
)
def test_foods_that_were_missing_are_known_by_their_names(typed, slug):
    assert handbook().finder.identify(typed).slug == slug


def test_four_letters_at_the_end_of_a_name_find_it_and_three_do_not():
    assert {"blackberry", "raspberry"} <= {food.slug for food in handbook().find("berry", limit=20)}
    assert "banana" in [food.slug for food in handbook().find("nana")]
    assert "banana" not in [food.slug for food in handbook().find("ana")]


def test_a_pawpaw_is_no_papaya_without_asking():
    """In North America it is another fruit, which makes people ill when it is dried."""
    with pytest.raises(InputProblem):
        handbook().identify("pawpaw")
    with pytest.raises(InputProblem):
        handbook().identify("papaw")


@every_row(("typed", "slug"), [("grape tomatoes", "tomato"), ("daikon radish", "daikon"), ("papaya", "papaya")])
def test_kinds_of_one_food_are_that_food(typed, slug):
    assert handbook().identify(typed).slug == slug


def small(*names):
    """A finder over foods of these names, in this order; after a bar stand other names."""
    foods = [Food(n.partition("|")[0].replace(" ", "-"), n.partition("|")[0], tuple(filter(None, n.split("|")[1:])),
                  "vegetable") for n in names]  # fmt: skip
    return Finder(foods)


def test_whole_words_come_first_then_the_name_shown_then_names_that_begin_as_typed():
    finder = small("maize|corn meal", "white corn", "cornel", "corn bread")
    assert [food.name for food in finder.find("corn")] == ["corn bread", "white corn", "maize", "cornel"]


def test_so_many_are_offered_and_no_more():
    finder = small(*(f"corn {letter}" for letter in "abcdefghijk"))
    assert len(finder.find("corn")) == 8
    assert len(finder.find("corn", limit=3)) == 3
    assert finder.find("") == []


def test_the_end_of_a_word_says_something_from_four_letters_on():
    finder = small("raspberry", "crabapple", "strawberry|gooseberry")
    assert [food.name for food in finder.find("berry")] == ["raspberry", "strawberry"]
    assert finder.find("rry") == []
    assert finder.find("ry") == []


def test_foods_that_share_most_words_come_first():
    finder = small("red bean", "red kidney bean", "green pea")
    assert [food.name for food in finder.find("kidney bean zzzzzz")][:2] == ["red kidney bean", "red bean"]
