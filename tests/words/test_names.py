"""What things are called."""

from dryhouse.kitchen.records import Batch
from dryhouse.words.names import called, capital


def test_a_batch_is_called_by_its_own_title_else_by_its_food():
    assert called(Batch("apple", title="orchard slices"), "apple") == "orchard slices"
    assert called(Batch("apple"), "apple") == "apple"


def test_only_the_first_letter_is_made_large():
    assert capital("lentils, cooked and dried") == "Lentils, cooked and dried"
    assert capital("USA") == "USA"
    assert capital("") == ""
