"""The ingredients of a bag in the order of their weight, each once, and the allergens in the law's order."""

from dryhouse.kitchen.meals.holds import NOTHING, Held, holds


def one(name, *allergens, label=False, unknown=False):
    return Held(name, frozenset(), (), frozenset(allergens), label, unknown)


def test_the_heaviest_first_each_once():
    found = holds([(one("salt"), None), (one("onion"), 5.0), (one("lentil"), 60.0), (one("onion"), 2.0)])
    assert found.ingredients == ("lentil", "onion", "salt")
    crumbs = [(one("air"), 0.0), (one("salt"), 0.5), (one("sugar"), None)]
    assert holds(crumbs).ingredients == ("salt", "air", "sugar")
    assert holds([]) == NOTHING


def test_allergens_stand_in_the_order_of_the_law_and_wheat_says_gluten_too():
    found = holds([(one("a", "soy", "gluten"), 1.0), (one("b", "wheat", "milk"), 1.0)])
    assert found.allergens == ("milk", "wheat", "soy")
    assert holds([(one("barley", "gluten"), 1.0)]).allergens == ("gluten",)


def test_what_is_not_known_is_not_sent_to_a_label():
    found = holds([(one("stock", label=True), 1.0), (one("chili", label=True, unknown=True), 2.0)])
    assert (found.labels, found.unknown) == (("stock",), ("chili",))
