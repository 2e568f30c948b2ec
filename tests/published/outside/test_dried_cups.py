"""What a cup of dried food weighs by a publication other than the one in the handbook: within a quarter."""

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.yields.yields import dried_density
from dryhouse.science.units import SIZES
from tests.builders import NOW
from tests.fakes import FakeJournal

CUPS = {
    # USDA FNDDS 2.0 and the survey foods of about 2020, food weights (read); a cup of each
    "carrot": 74.0, "apple": 90.0, "banana": 85.0, "cranberry": 110.0, "oatmeal": 81.0,
    # USDA release 25, WEIGHT table: low-moisture pieces (read); home-dried pieces hold more water
    "apricot": 119.0, "plum": 132.0,
    # USDA release 25: cloud ear fungus, sun-dried tomato, sun-dried hot chile (read)
    "wood-ear": 28.0, "chili-red": 37.0,
    # USDA release 25: dehydrated onion flakes by the tablespoon (read); the card's chopped onion is 94.5
    "onion": 80.0,
}  # fmt: skip


@pytest.mark.parametrize("food", CUPS)
def test_a_cup_weighs_about_what_another_publication_says(food):
    density = dried_density(Kitchen(FakeJournal(), handbook(), lambda: NOW), handbook().food(food))
    assert density.value * SIZES["cup"] == pytest.approx(CUPS[food], rel=0.35)
    assert density.value > 0.1, "freeze-dried food weighs far less, and is no yardstick for home drying"


@pytest.mark.parametrize("food", ["leek", "shallot", "kidney-bean", "lentil", "barley", "quinoa", "chickpea"])
def test_freeze_dried_and_raw_staples_are_no_home_dried_cups(food):
    """USDA release 25 has these cups freeze-dried or raw and dry only (read): none is what a jar at home holds."""
    assert handbook().food(food).measures_for("dried") == ()
