"""The dryness verdict in a sentence: in the units the person reads, and never a promise of safety."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.dryness import Verdict, verdict
from dryhouse.science.moisture import LoadPart, load_of
from dryhouse.science.statuses import Feel, Lack, VerdictName
from dryhouse.science.values import Fact, Figure
from dryhouse.words.verdicts import (
    dry_already_sentence,
    mismatch_sentence,
    no_keep_by_sentence,
    too_light_sentence,
    verdict_sentence,
)
from tests.rows import every_row

CORN = Fact(76.05, "%", "a source", low=74.0, high=78.0)
TARGET = Fact(10.0, "%", "another source")
GRAMS, OUNCES = Style(METRIC), Style()


def one(mass=1000.0, water=CORN, name="corn"):
    return load_of([LoadPart(name, mass, water)])


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
    tested = verdict(replace(one(), tested=True), 266.0, TARGET, feel=Feel.BRITTLE)
    assert verdict_sentence(tested, GRAMS).endswith("target 10 %."), "a test that was made is not asked for"
    settled = verdict_sentence(verdict(one(), 250.0, TARGET, feel=Feel.BRITTLE), GRAMS)
    assert settled.startswith("Dry enough by weight and brittle to the hand: ")
    assert "by hand as well" not in settled
    assert verdict_sentence(verdict(one(), 500.0, TARGET), GRAMS).endswith("still to go.")


def test_a_sample_tray_is_named():
    found = replace(verdict(one(), 275.0, TARGET), of_sample=True)
    assert verdict_sentence(found, GRAMS).startswith("By the sample tray: nearly dry by weight: ")


def test_why_there_is_no_keep_by_is_said():
    doubted, moist, dry = (verdict(one(), grams, TARGET) for grams in (250.0, 400.0, 225.0))
    assert "until you record how a cooled piece feels" in no_keep_by_sentence(doubted, doubted)
    assert "until it is dry enough" in no_keep_by_sentence(moist, moist)
    assert "your own target, not the drier one" in no_keep_by_sentence(dry, moist)
    assert "until it is dry enough" in no_keep_by_sentence(moist, dry)
    assert "while nothing says how dry it is" in no_keep_by_sentence(moist, Verdict(VerdictName.UNKNOWN))


def test_too_little_known_says_what_it_takes():
    said = verdict_sentence(Verdict(VerdictName.UNKNOWN), GRAMS)
    assert said == "Dryness is not known: enter the loaded weight, the dried weight and the starting moisture."
    said = verdict_sentence(Verdict(VerdictName.UNKNOWN, lacks=(Lack.TARGET,)), GRAMS)
    assert said == "Dryness is not known: enter a target moisture."


EITHER = (
    "a tare of 89.5 g or more was taken off twice or left on the first weighing, or that much food was lost "
    "(drips, crumbs, pieces eaten), or the food started wetter: above 85 % moisture."
)


def test_weights_that_do_not_add_up_explain_themselves():
    light = mismatch_sentence(one(), 150, GRAMS)
    holds = "Weights don't add up: 1 kg at 76 % moisture holds 240 g of dry matter, and 150 g is less than that. "
    assert light == f"{holds}Either {EITHER}"
    cooked = mismatch_sentence(one(name="beef, cooked"), 150, GRAMS)
    assert cooked == f"{holds}Was 1 kg the weight before cooking? If not, either {EITHER}"
    assert mismatch_sentence(one(), 1100, GRAMS) == (
        "Weights don't add up: 1.1 kg is more than the 1 kg that was loaded. Was a tray or jar weighed along? That "
        "would be a tare of at least 100 g. Or the unit is another, or the whole load was weighed where a sample "
        "tray was meant."
    )
    assert "2 lb 3.3 oz that was loaded" in mismatch_sentence(one(), 1100, OUNCES)
    assert "is less than that" in mismatch_sentence(one(), 1000, GRAMS)
    assert verdict_sentence(verdict(one(), 150, TARGET), GRAMS) == light


def test_a_weight_that_is_too_light_is_asked_about_in_a_line():
    assert too_light_sentence(one(), 150, GRAMS) == (
        "150 g is less than the dry matter in 1 kg, at least 210 g. Was a tray or jar weighed along with the load, "
        "or its tare taken off twice?"
    )
    assert too_light_sentence(one(name="beef, cooked"), 150, GRAMS) == (
        "150 g is less than the dry matter in 1 kg of cooked food, at least 210 g. Was 1 kg the weight before "
        "cooking?"
    )


def test_a_load_that_is_as_dry_as_its_target_is_told_before_it_is_dried():
    said = {t: dry_already_sentence(one(), Fact(t, "%", "another source"), GRAMS) for t in (74.0, 75.0, 76.0, 77.0)}
    assert said == {
        74.0: "",
        75.0: "It may be as dry as its target already (76 % moisture, target 75 %): feel a piece first.",
        76.0: "It may be as dry as its target already (76 % moisture, target 76 %): feel a piece first.",
        77.0: "It is as dry as its target already (76 % moisture, target 77 %): there is nothing to dry off.",
    }


def found(moisture, low=None, high=None, probability=0.3, target=10.0, name=VerdictName.NEARLY):
    now = Figure(moisture, "%", low, high)
    return Verdict(name, 300.0, one(), target, probability=probability, now=now)


def test_an_interval_is_said_where_it_shows_and_water_to_go_to_a_scale_s_step():
    nearly = "Nearly dry by weight: 10 % moisture"
    broken = "Let a piece cool and break it: brittle?"
    for verdict_found, said in (
        (found(10.2, 9.9, 10.4), f"{nearly}, target 10 %; 1 g of water still to go. {broken}"),
        (found(10.01, 8.0, None), f"{nearly}, target 10 %; 1 g of water still to go. {broken}"),
        (found(10.01, None, 12.0), f"{nearly}, target 10 %; 1 g of water still to go. {broken}"),
        (found(10.0, 8.0, 12.0), f"{nearly} (8 % to 12 %), target 10 %. {broken}"),
    ):
        assert verdict_sentence(verdict_found, GRAMS) == said
    assert "; 0.1 oz of water still to go" in verdict_sentence(found(10.01), OUNCES)


def test_nothing_need_be_broken_to_see_that_food_is_plainly_moist_and_fruit_is_leathery():
    moist = {p: "break it" in verdict_sentence(found(20.0, probability=p), GRAMS) for p in (0.049, 0.05)}
    assert moist == {0.049: False, 0.05: True}
    dry = {t: verdict_sentence(found(20.0, target=t), GRAMS)[-9:] for t in (14.9, 15.0)}
    assert dry == {14.9: " brittle?", 15.0: "leathery?"}


@given(st.floats(10, 20_000), st.floats(1, 98), st.floats(1, 130), st.booleans())
def test_a_verdict_never_speaks_of_safety(mass, water, share, metric):
    load = one(mass, Fact(water, "%", "s"))
    said = verdict_sentence(verdict(load, mass * share / 100, TARGET), GRAMS if metric else OUNCES)
    assert "safe" not in said.lower()
