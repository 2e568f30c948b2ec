"""The dryness verdict in a sentence: in the units the person reads, and never a promise of safety."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.display import METRIC, Style
from dryhouse.science.moisture import LoadPart, Verdict, load_of, verdict
from dryhouse.science.statuses import VerdictName
from dryhouse.science.values import Fact
from dryhouse.words.verdicts import mismatch_sentence, verdict_sentence
from tests.rows import every_row

CORN = Fact(76.05, "%", "a source", low=74.0, high=78.0)
TARGET = Fact(10.0, "%", "another source")
GRAMS, OUNCES = Style(METRIC), Style()


def one(mass=1000.0, water=CORN):
    return load_of([LoadPart("corn", mass, water)])


@every_row(
    ("mass", "us", "metric"),
    [
        (266.0, "Dry enough by weight: 10 % moisture by weight, target 10 %. Check by hand as well.", None),
        (300.0, "Nearly: 20 % moisture by weight, target 10 %; 1.2 oz of water still to go.",
         "Nearly: 20 % moisture by weight, target 10 %; 33.9 g of water still to go."),
        (500.0, "Still moist: 52 % moisture by weight, target 10 %; 8.3 oz of water still to go.",
         "Still moist: 52 % moisture by weight, target 10 %; 234 g of water still to go."),
    ],
)  # fmt: skip
def test_a_verdict_says_its_figures_in_the_units_of_the_reader(mass, us, metric):
    found = verdict(one(), mass, TARGET)
    assert verdict_sentence(found, OUNCES) == us
    assert verdict_sentence(found, GRAMS) == (metric or us)


def test_the_decimal_comma_reaches_the_verdict():
    assert "33,9 g" in verdict_sentence(verdict(one(), 300.0, TARGET), Style(METRIC, decimal_comma=True))


def test_what_is_lighter_than_usual_and_still_possible_is_said():
    said = verdict_sentence(verdict(one(), 230.0, TARGET), GRAMS)
    assert said.startswith("Dry enough by weight: 3 % moisture")
    assert "lighter than the usual dry matter" in said
    assert "lighter" not in verdict_sentence(verdict(one(), 250.0, TARGET), GRAMS)


def test_a_sample_tray_is_named():
    found = replace(verdict(one(), 300.0, TARGET), of_sample=True)
    assert verdict_sentence(found, GRAMS).startswith("By the sample tray: Nearly: ")


def test_too_little_known_says_what_it_takes():
    assert "the loaded and the dried mass" in verdict_sentence(Verdict(VerdictName.UNKNOWN), GRAMS)


def test_weights_that_do_not_add_up_explain_themselves():
    light = mismatch_sentence(one(), 150, GRAMS)
    assert "150 g is less than that" in light
    assert "tare of 89.5 g or more" in light
    assert "lost" in light
    assert "above 85 % moisture" in light
    assert "tare of at least 100 g" in mismatch_sentence(one(), 1100, GRAMS)
    assert "2 lb 3.3 oz that was loaded" in mismatch_sentence(one(), 1100, OUNCES)
    assert verdict_sentence(verdict(one(), 150, TARGET), GRAMS) == light


@given(st.floats(10, 20_000), st.floats(1, 98), st.floats(1, 130), st.booleans())
def test_a_verdict_never_speaks_of_safety(mass, water, share, metric):
    load = one(mass, Fact(water, "%", "s"))
    said = verdict_sentence(verdict(load, mass * share / 100, TARGET), GRAMS if metric else OUNCES)
    assert "safe" not in said.lower()
