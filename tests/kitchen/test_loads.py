"""What a batch loaded, for the mass balance."""

import pytest

from dryhouse.kitchen.loads import load_for, loaded_grams, missing_for, target_for
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.science.quantities import Mass
from tests.builders import CORN, a_kitchen


def test_the_mass_loaded_is_weighed_before_it_is_reckoned():
    weighed = Batch("corn", prepared_mass=Mass(900), cooked_mass_out=Mass(950), purchased_mass=Mass(2500))
    assert loaded_grams(CORN, weighed) == 900
    assert loaded_grams(CORN, Batch("corn", cooked_mass_out=Mass(950), purchased_mass=Mass(2500))) == 950
    assert loaded_grams(CORN, Batch("corn", purchased_mass=Mass(2500))) is None


def test_a_mix_names_the_ingredient_whose_moisture_is_missing():
    kitchen = a_kitchen()
    parts = (BatchPart(1, 0, "corn", Mass(300), moisture_pct=70.0), BatchPart(1, 1, "apple", Mass(100)))
    load = load_for(kitchen, Batch("corn"), parts)
    assert load.solids == pytest.approx(300 * 0.3 + 100 * 0.144)
    assert load.grams == 400


def test_what_is_missing_is_said_in_words():
    said = missing_for(a_kitchen(), Batch("corn"))
    assert said == ("Enter what was loaded to see the target weight and the yield.",)
    assert missing_for(a_kitchen(), Batch("corn", prepared_mass=Mass(1))) == ()


def test_a_target_entered_for_the_batch_rules():
    assert target_for(a_kitchen(), Batch("corn", target_moisture_pct=7.0)).value == 7.0
    assert target_for(a_kitchen(), Batch("corn")).value == 10.0
