"""What 100 g of home-dried food takes up, against published rehydration; the range stands beside each."""

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.yields.quick_answers import water
from tests.builders import NOW
from tests.fakes import FakeJournal

TAKEN_UP = {
    # Akinola, Malomo & Ezeorah: 2.457 after 10 min, 4.126 after 60 min (read)
    "carrot": (2.457, 4.126),
    # Armed Forces Recipe Service card A-11: 3-1/3 oz to 13 oz, 2 oz to 8 oz, 1 lb to 4 lb (read)
    "onion": (2.9, 3.0),
    # the same card: 1 oz to 6.5 oz, 1 lb to 6 lb 8 oz (read)
    "green-pepper": (5.4, 5.6),
    # USDA FNDDS 2.0: an ounce of dried corn gives 91 g (read)
    "corn": (2.1, 2.3),
    # USDA FNDDS 2.0: an ounce of dried potato shreds gives 92 g fried (read); general 3 to 5 (from memory)
    "potato": (2.25, 5.0),
    # general figures for dried vegetables, pulses and meat (from memory)
    "green-bean": (3.0, 5.0), "zucchini": (3.0, 5.0), "tomato": (3.0, 5.0), "celery": (3.0, 5.0),
    "black-bean": (1.3, 1.8), "kidney-bean": (1.3, 1.8), "pinto-bean": (1.3, 1.8), "lentil": (1.3, 1.8),
    "ground-beef": (1.0, 1.5), "turkey": (1.0, 1.5),
    # microwave-vacuum dried mushrooms: 2.3 to 3.4 g soaked for 1 g dried (read)
    "mushroom": (1.3, 2.4),
    # oyster mushrooms dried at 60 °C: 6.3 g for 1 g (read)
    "oyster-mushroom": (5.2, 5.4),
    # USDA SR: stewed dried fruit, dry matter conserved, from 20 % moisture (computed from read)
    "apple": (2.88, 4.04), "apricot": (1.2, 2.27), "fig": (1.6, 1.7), "pear": (1.2, 1.3), "plum": (1.49, 1.65),
    "peach": (1.1, 2.65),
}  # fmt: skip


@pytest.mark.parametrize("food", TAKEN_UP)
def test_a_gram_dried_takes_up_what_was_published(food):
    figure, _ = water(Kitchen(FakeJournal(), handbook(), lambda: NOW), food, "100 g")
    low, high = TAKEN_UP[food]
    assert low - 1e-9 <= figure.value / 100 <= high + 1e-9
    assert figure.low <= figure.value <= figure.high
    assert figure.low <= 100 * high
