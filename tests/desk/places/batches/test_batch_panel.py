"""What was recorded of a batch is read beside the list, without opening its form."""

from dataclasses import replace

from dryhouse.desk.places.batches.batch_panel import facts_of
from dryhouse.science.quantities import Duration, Temperature, Volume
from tests.desk.conftest import a_batch


def test_the_heat_and_whatever_else_was_recorded_is_said(session):
    batch = replace(
        a_batch(1, "turkey"),
        precook_temperature=Temperature(73.9, "165 F"),
        precook_method="roasted in an oven",
        precook_measured="thermometer",
        finish_temperature=Temperature(135.0, "275 F"),
        finish_held=Duration(600.0),
        identified="bought",
        prepared_volume=Volume(946.4, "4 cups"),
        kitchen_humidity_pct=45.0,
    )
    said = "\n".join(facts_of(session, batch))
    assert "Precooked to 165 °F (74 °C) (roasted in an oven), read off a thermometer." in said
    assert "After drying in an oven at 275 °F (135 °C), held for 10 min; this lifts no caution." in said
    assert "mushrooms: bought, or identified by: bought" in said.casefold()
    assert "volume loaded: 4 cups" in said.casefold()
    assert "kitchen humidity, %: 45" in said.casefold()


def test_what_has_its_own_words_is_not_said_twice(session):
    said = "\n".join(facts_of(session, a_batch(1)))
    assert said.casefold().count("135 °f") == 1
    assert "Dried weight" not in said
