"""The heat a batch saw is said in both scales, and an oven afterwards never sounds like an answer."""

from dryhouse.kitchen.cards.heating import heating_lines
from dryhouse.kitchen.records import Batch
from dryhouse.science.quantities import Duration, Temperature
from dryhouse.science.units import to_celsius

HEATED = Batch(
    "turkey",
    precook_temperature=Temperature(71.111, "160"),
    precook_method="simmered or steamed",
    precook_measured="thermometer",
    precook_held=Duration(1800.0),
)


def test_a_measured_heat_is_said_in_both_scales_with_how_it_is_known():
    (line,) = heating_lines(HEATED)
    assert line == ("Precooked to 160 °F (71 °C), held for 30 min (simmered or steamed), read off a thermometer.")


def test_what_is_missing_is_said_and_nothing_is_made_up():
    assert heating_lines(Batch("turkey")) == ()
    assert heating_lines(Batch("turkey", precook_method="none")) == (
        "Cooked first: none; no temperature is recorded.",
    )
    (line,) = heating_lines(Batch("turkey", precook_temperature=Temperature(73.9)))
    assert "nobody wrote down how that is known" in line


def test_an_oven_after_drying_is_shown_and_lifts_nothing():
    finished = Batch("turkey", finish_temperature=Temperature(135.0, "275 F"), finish_held=Duration(600.0))
    (line,) = heating_lines(finished)
    assert line == "After drying in an oven at 275 °F (135 °C), held for 10 min; this lifts no caution."


def test_a_tenth_of_a_degree_below_the_limit_does_not_look_like_the_limit():
    read = {
        to_celsius(164.9): "164.9 °F (73.8 °C)",
        71.0: "159.8 °F (71 °C)",
        to_celsius(164.96): "165 °F (74 °C)",
        to_celsius(164.94): "164.9 °F (73.9 °C)",
        to_celsius(165.0): "165 °F (74 °C)",
        to_celsius(166.0): "166 °F (74 °C)",
    }
    for celsius, said in read.items():
        (line,) = heating_lines(Batch("turkey", precook_temperature=Temperature(celsius)))
        assert line.startswith(f"Precooked to {said};"), line
