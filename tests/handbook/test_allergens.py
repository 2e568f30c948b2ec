"""The table of allergens: the nine of the law and gluten, by what is known of a food's nature."""

from dryhouse.handbook.allergens import ALLERGENS, GLUTEN, allergens, held_by
from dryhouse.handbook.foods import load_foods
from dryhouse.handbook.staples import staples
from dryhouse.handbook.tables import CATEGORIES
from tests.rows import every_row

PLAIN = {
    *("rice-noodles", "rice-white", "rice-brown", "rice-instant", "wild-rice", "quinoa", "millet", "lentils"),
    *("split-peas", "olive-oil", "sunflower-kernels", "salt", "sugar", "honey", "raisins", "cornmeal"),
    "oats-rolled",
}
"""Staples that hold none of them by their nature."""


def test_they_are_the_nine_of_the_law_and_gluten():
    """Section 201(qq) of the Food, Drug, and Cosmetic Act with sesame, from memory."""
    nine = "milk egg fish shellfish|tree nuts|peanut wheat soy sesame".replace("|", " / ").split(" / ")
    assert len(ALLERGENS) == 10
    assert set(ALLERGENS) - {GLUTEN} == {*nine[0].split(), nine[1], *nine[2].split()}


def test_every_row_is_about_something_and_every_staple_is_spoken_of():
    about = set(allergens())
    known = set(staples()) | set(load_foods()) | set(CATEGORIES)
    assert {row for row in about - known if not row.startswith(("named ", "holds "))} == set()
    assert set(staples()) - about == PLAIN


@every_row(
    ("slug", "kinds", "holds"),
    [
        ("milk-whole-dry", (), {"milk"}),
        ("egg-noodles", ("grain",), {"wheat", "egg"}),
        ("couscous", ("grain",), {"wheat"}),
        ("shrimp", ("fish",), {"shellfish"}),
        ("cod", ("fish",), {"fish"}),
        ("yogurt", ("dairy",), {"milk"}),
        ("tofu", ("legume",), {"soy"}),
        ("peanut-butter", (), {"peanut"}),
        ("barley", (), {"gluten"}),
        ("carrot", ("vegetable",), set()),
        ("some-of-hers", ("named tahini",), {"sesame"}),
    ],
)
def test_what_a_food_holds(slug, kinds, holds):
    assert held_by(slug, kinds).allergens == holds
