"""A step of workings becomes a line that can be followed with a pencil."""

import ast
from datetime import date
from functools import cache
from pathlib import Path
from string import Formatter

import dryhouse
from dryhouse.science.display import METRIC, Style
from dryhouse.science.values import Fact
from dryhouse.science.workings import StepKind, about, step
from dryhouse.words.step_lines import LINES
from dryhouse.words.workings import line, lines
from tests.rows import every_row

PACKAGE = Path(dryhouse.__file__).parent

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


@every_row("kind", StepKind, ids=str)
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


@cache
def made_steps() -> list[tuple[str, str, set[str]]]:
    """Every `step(Kind.…)` in the package whose terms are written out: where, of which kind, with which terms."""
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        if "step(" not in text:
            continue
        for node in ast.walk(ast.parse(text)):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "step"):
                continue
            if all(keyword.arg is not None for keyword in node.keywords):
                terms = {keyword.arg for keyword in node.keywords}
                terms |= {"result"} if node.args[1:] else set()
                kinds = [n.attr for n in ast.walk(node.args[0]) if isinstance(n, ast.Attribute)]
                found += [(f"{path.name}:{node.lineno}", k, terms) for k in kinds if k in StepKind.__members__]
    return found


@every_row(("where", "kind", "terms"), made_steps, ids=str)
def test_a_step_has_every_term_its_line_asks_for(where, kind, terms):
    asked = {slot for _, slot, _, _ in Formatter().parse(LINES[StepKind[kind]]) if slot is not None}
    assert asked <= terms


def test_most_steps_are_looked_at():
    assert len({kind for _, kind, _ in made_steps()}) > 0.8 * len(StepKind)
