"""Words of animals in names, in the languages of the neighbors, and the plants that only borrow them."""

from dryhouse.handbook.animal_words import _table, animal_words, near_animal_word
from tests.rows import every_row


@every_row(
    ("name", "kinds"),
    [("Duck breast", {"poultry"}), ("duck eggs", {"poultry", "egg"}), ("Hühnersuppe", {"poultry"}),
     ("saumon à la crème", {"fish", "milk"}), ("kødboller", {"meat"}), ("laxsoppa", {"fish"}),
     ("ragù di cinghiale", {"meat"}), ("gator tail", {"meat"}), ("paella", {"fish"}),
     ("hot wings", {"poultry"}), ("worcestershire", {"fish"}), ("pizza", {"milk"}), ("jambalaya", {"meat"}),
     ("kaassoep", {"milk"}), ("huevos", {"egg"}), ("brunost", {"milk"}),
     ("Räucherlachs", {"fish"}), ("Frischkäse", {"milk"}), ("Lachsforelle", {"fish"}), ("hakkekød", {"meat"}),
     ("Lachs", {"fish"}), ("laks", {"fish"}), ("kaas", {"milk"}),
     ("vlees", {"meat"}),
     ("Rinderrouladen", {"meat"}), ("rookvlees", {"meat"}), ("kycklingfilé", {"poultry"})],
)  # fmt: skip
def test_an_animal_is_seen_in_any_of_the_languages(name, kinds):
    assert set(animal_words(name).values()) == kinds


@every_row(
    "name",
    ["oyster mushrooms", "Butternut", "egg-plant", "beefsteak tomatoes", "lamb’s lettuce", "coconut milk",
     "hen-of-the-woods", "tomato, beefsteak", "Hafermilch", "chickpea", "sweet corn", "onion",
     "winged bean", "celery ribs", "lemon rind", "phoenix date", "vegetable broth"],
)  # fmt: skip
def test_a_plant_that_borrows_the_word_speaks_of_no_animal(name):
    assert animal_words(name) == {}


@every_row("name", ["oysters and mushrooms", "beefsteak with tomato", "chicken, kidney beans"])
def test_a_dish_of_an_animal_and_a_plant_still_speaks_of_the_animal(name):
    assert animal_words(name)


def test_a_slip_of_an_animal_word_is_seen():
    assert near_animal_word("steek") == "steak"
    assert near_animal_word("carrott") == ""


def test_every_word_and_every_phrase_of_the_table_speaks_of_its_animal():
    table = _table()
    for word, kind in table.whole.items():
        assert animal_words(word) in ({word: kind}, {}), word  # a plant that borrows it stands beside it
    for phrase, kind in table.phrases.items():
        assert animal_words(" ".join(phrase)).get(" ".join(phrase)) == kind, phrase
    assert {len(phrase) for phrase in table.phrases} >= {2, 3}
    for begin, kind in table.begins:
        assert kind in animal_words(begin).values() or begin == "rinds", (
            begin
        )  # the rind of a lemon is of no animal
        assert kind in animal_words(f"{begin}zzz").values(), begin
    for end, kind in table.ends:
        assert kind in animal_words(f"zzz{end}").values(), end
    assert min(len(table.begins), len(table.ends)) > 50


def test_a_letter_too_few_or_too_many_is_a_slip_and_two_are_none():
    said = {word: near_animal_word(word) for word in ("chiken", "chickenn", "chikn", "hicken", "vael", "stea")}
    assert said == {
        "chiken": "chicken",
        "chickenn": "chicken",
        "chikn": "",
        "hicken": "",
        "vael": "",
        "stea": "steak",
    }
