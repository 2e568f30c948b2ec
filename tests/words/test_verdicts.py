"""The dryness verdict in a sentence: in the units the person reads, and never a promise of safety."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.dryness import Verdict, verdict
from dryhouse.science.moisture import LoadPart, load_of
from dryhouse.science.statuses import Feel, VerdictName
from dryhouse.science.values import Fact
from dryhouse.words.verdicts import mismatch_sentence, no_keep_by_sentence, verdict_sentence
from tests.rows import every_row

CORN = Fact(76.05, "%", "a source", low=74.0, high=78.0)
TARGET = Fact(10.0, "%", "another source")
GRAMS, OUNCES = Style(METRIC), Style()


def one(mass=1000.0, water=CORN):
    return load_of([LoadPart("corn", mass, water)])


@every_row(
    ("mass", "us", "metric"),
    [
        (230.0, "Dry enough by weight: 6 % moisture (3 % to 10 %), target 10 %. Check by hand as well.", None),
        (250.0, "Probably dry by weight: 8 % moisture (4 % to 14 %), target 10 %. Let a piece cool and break it: "
                "brittle?", None),
        (275.0, "Nearly dry by weight: 14 % moisture (7 % to 20 %), target 10 %; 0.4 oz of water still to go. Let "
                "a piece cool and break it: brittle?",
         "Nearly dry by weight: 14 % moisture (7 % to 20 %), target 10 %; 11 g of water still to go. Let a piece "
         "cool and break it: brittle?"),
        (500.0, "Still moist by weight: 52 % moisture (48 % to 56 %), target 10 %; 8.3 oz of water still to go.",
         "Still moist by weight: 52 % moisture (48 % to 56 %), target 10 %; 234 g of water still to go."),
    ],
)  # fmt: skip
def test_a_verdict_says_its_figures_in_the_units_of_the_reader(mass, us, metric):
    found = verdict(one(), mass, TARGET)
    assert verdict_sentence(found, OUNCES) == us
    assert verdict_sentence(found, GRAMS) == (metric or us)


def test_the_decimal_comma_reaches_the_verdict():
    assert "0,4 oz" in verdict_sentence(verdict(one(), 275.0, TARGET), Style(US, decimal_comma=True))


def test_what_would_settle_it_is_said():
    found = verdict(one(), 260.0, TARGET)
    assert verdict_sentence(found, GRAMS).endswith("Let a piece cool and break it: brittle?")
    assert "Weigh again after an hour" in verdict_sentence(replace(found, on_dryer=True), GRAMS)
    fruit = verdict(one(), 290.0, Fact(20.0, "%", "another source"))
    assert verdict_sentence(fruit, GRAMS).endswith("break it: leathery?")
    felt = verdict(one(), 266.0, TARGET, feel=Feel.BRITTLE)
    said = verdict_sentence(felt, GRAMS)
    assert said.startswith("Probably dry by weight and brittle to the hand: ")
    assert said.endswith("A dry-matter test of 20 g would settle it.")
    settled = verdict_sentence(verdict(one(), 250.0, TARGET, feel=Feel.BRITTLE), GRAMS)
    assert settled.startswith("Dry enough by weight and brittle to the hand: ")
    assert "by hand as well" not in settled
    assert verdict_sentence(verdict(one(), 500.0, TARGET), GRAMS).endswith("still to go.")


def test_a_sample_tray_is_named():
    found = replace(verdict(one(), 275.0, TARGET), of_sample=True)
    assert verdict_sentence(found, GRAMS).startswith("By the sample tray: Nearly dry by weight: ")


def test_why_there_is_no_keep_by_is_said():
    doubted, moist, dry = (verdict(one(), grams, TARGET) for grams in (250.0, 400.0, 225.0))
    assert "until you record how a cooled piece feels" in no_keep_by_sentence(doubted, doubted)
    assert "until it is dry enough" in no_keep_by_sentence(moist, moist)
    assert "your own target, not the drier one" in no_keep_by_sentence(dry, moist)


def test_too_little_known_says_what_it_takes():
    said = verdict_sentence(Verdict(VerdictName.UNKNOWN), GRAMS)
    assert "the loaded weight, the dried weight and the starting moisture" in said


def test_weights_that_do_not_add_up_explain_themselves():
    light = mismatch_sentence(one(), 150, GRAMS)
    assert "1 kg at 76 % moisture holds 240 g of dry matter, and 150 g is less than that" in light
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
