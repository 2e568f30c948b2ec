"""A step of workings becomes a line that can be followed with a pencil."""

from datetime import date
from string import Formatter

import pytest

from dryhouse.science.display import METRIC, Style
from dryhouse.science.values import Fact
from dryhouse.science.workings import StepKind, about, step
from dryhouse.words.step_lines import LINES
from dryhouse.words.workings import line, lines

WATER = Fact(86.0, "%", "a table")
DRY_MATTER = step(StepKind.DRY_MATTER, (158.757, "g"), food="Sour cherry", loaded=(1133.981, "g"), water=WATER)


def test_an_answer_in_ounces_has_workings_in_ounces_and_one_in_grams_in_grams():
    assert line(DRY_MATTER, Style()) == "Sour cherry: 40 oz × (1 − 86 %) = 5.6 oz dry matter   [a table]"
    assert line(DRY_MATTER, Style(METRIC)) == "Sour cherry: 1134 g × (1 − 86 %) = 158.8 g dry matter   [a table]"


def test_the_decimal_comma_reaches_the_workings():
    assert "158,8 g" in line(DRY_MATTER, Style(METRIC, decimal_comma=True))


def test_a_step_about_one_part_begins_with_its_name():
    assert lines(about("jar 3", (DRY_MATTER,)), Style())[0].startswith("jar 3: Sour cherry: 40 oz")


def test_each_source_is_named_once_after_the_line():
    weight, wanted = Fact(7.0, "oz", "a book"), Fact(20, "%", "a book")
    made = step(StepKind.TARGET_MASS, weight, solids=(5.6, "oz"), target=wanted)
    assert line(made, Style()) == "Target mass = 5.6 oz ÷ (1 − 20 %) = 7 oz   [a book]"


def test_every_kind_of_step_has_its_line_and_no_line_is_left_over():
    assert set(LINES) == set(StepKind)


@pytest.mark.parametrize("kind", StepKind, ids=str)
def test_every_line_asks_only_for_what_a_slot_can_say(kind):
    for _, slot, spec, conversion in Formatter().parse(LINES[kind]):
        if slot is not None:
            assert slot.isidentifier()
            assert conversion is None
            assert spec in ("", "own", "bare") or spec.isdigit() or spec.count("|") == 1


def test_days_are_written_in_english():
    made = step(StepKind.TARGET_MASS, date(2027, 8, 6), solids=(5.6, "oz"), target=(20.0, "%"))
    assert line(made, Style()).endswith("= 6 Aug 2027")


def test_one_is_one_and_two_are_several():
    told = {
        n: line(step(StepKind.OWN_TRAY_LOAD, (500.0, "g"), dryer="box dryer", n=n), Style(METRIC)) for n in (1, 2)
    }
    assert told[1].endswith("the middle of your 1 load")
    assert told[2].endswith("the middle of your 2 loads")
