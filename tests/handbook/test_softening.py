"""What each food needs to come back: its own rows before those of its kind, a size before every size."""

from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.softening import SIZES, softening, softenings, staple_softening


def need(slug, size, way):
    found = softening(load_foods()[slug], size, way)
    return None if found is None else (found.soak.value, found.cook.value)


def test_published_minutes_stand_in_the_table():
    """Read: US Army Quartermaster subcourse QM6321 (chopped onions 20 to 30 min in warm water, diced potatoes
    simmered 15 to 25 min), University of Georgia Bulletin 989 (corn ½ h, beets 1½ h in boiling water, apples
    ½ h in cold), Michigan State University Extension (parsnips simmered 30 to 45 min; greens not soaked)."""
    assert need("onion", "small", "short soak")[0] == 20
    assert need("potato", "small", "no soak") == (0, 25)
    assert need("corn", "large", "short soak")[0] == 30
    assert need("beet", "large", "short soak")[0] == 90
    assert need("apple", "small", "cold soak")[0] == 30
    assert need("parsnip", "small", "no soak") == (0, 45)
    assert need("kale", "small", "short soak")[0] == 0


def test_a_food_without_rows_goes_by_its_kind_and_larger_pieces_never_take_less():
    for food in load_foods().values():
        for way in ("no soak", "short soak"):
            minutes = [sum(need(food.slug, size, way)) for size in SIZES]
            assert minutes == sorted(minutes), food.slug
        for size in SIZES:
            rest = need(food.slug, size, "boil and rest")
            assert rest is None or rest[1] >= need(food.slug, size, "no soak")[1], food.slug


def test_a_row_without_a_source_says_that_it_is_practice():
    for found in softenings().values():
        assert found.cook.how in ("read", "common practice")
        if found.cook.how == "common practice":
            assert "no source" in found.cook.source


def test_a_staple_and_a_dried_food_of_one_slug_are_two_things():
    assert staple_softening("couscous", "boil and rest").cook.value == 5
    assert need("couscous", "small", "boil and rest") is None
