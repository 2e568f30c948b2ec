"""The rule table keeps its form, names good sources and promises nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from dryhouse.handbook.keeping_table import pasteurising, water_activity_limits
from dryhouse.handbook.reader import handbook
from dryhouse.handbook.reading import HandbookFault, Row
from dryhouse.handbook.safety_table import _rule, rules_by_id, safety_rules, short_text
from dryhouse.kitchen.cautions.cautions import food_cautions
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.science.safety import FoodFacts, evaluate
from dryhouse.science.values import Caution
from tests.fakes import FakeJournal
from tests.rows import every_row

PROMISE = re.compile(
    r"\b(?<!not )(?<!never )(?:is|are|be|stays?|perfectly|completely|now) (?:\w+ )?safe\b"
    r"|\bsafe to (?:eat|use|keep|store)\b|\bsafely\b|\bguarantee|\bharmless\b|\brisk.free\b|\bno (?:risk|danger)\b"
    r"|\bfit to eat\b",
    re.IGNORECASE,
)
PACKAGE = Path(__file__).parents[2] / "dryhouse"


def strings_of(path: Path) -> list[str]:
    import ast

    found = []
    tree = ast.parse(path.read_text(encoding="utf-8"))
    documented = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in documented:
            found.append(node.value)
    return found


def test_the_scan_would_notice_a_promise():
    for promise in ("This food is safe.", "It is now safe", "safe to eat", "dry it safely", "guaranteed to keep"):
        assert PROMISE.search(promise), promise
    for plain in ("treat it as not safe", "never safe without heat", "Making Safe Jerky at Home"):
        assert not PROMISE.search(plain), plain


def test_no_caution_promises_safety():
    for rule in safety_rules():
        assert not PROMISE.search(f"{rule.text} {rule.short}"), rule.id
        assert "safe" not in f"{rule.text} {rule.short}".casefold().replace("safety", ""), rule.id


@every_row("folder", ["desk", "kitchen", "cli", "plots", "science"])
def test_no_string_of_the_program_promises_safety(folder):
    for path in sorted((PACKAGE / folder).rglob("*.py")):
        for text in strings_of(path):
            assert not PROMISE.search(text), f"{path.name}: {text}"


def test_no_table_of_the_handbook_promises_safety():
    for path in sorted((PACKAGE / "handbook" / "data").glob("*.csv")):
        for line in path.read_text(encoding="utf-8").splitlines():
            assert not PROMISE.search(line), f"{path.name}: {line[:120]}"


def test_every_animal_food_of_the_handbook_has_a_stop_and_a_usda_or_extension_source():
    kitchen = Kitchen(FakeJournal(), handbook())
    animals = [food for food in handbook().foods.values() if food.animal]
    assert len(animals) > 20
    for food in animals:
        cautions = food_cautions(kitchen, food)
        assert any(c.severity == "stop" for c in cautions), food.slug
        assert any("USDA" in c.source or "Extension" in c.source for c in cautions), food.slug


def test_mushrooms_beans_and_garlic_have_their_cautions():
    kitchen = Kitchen(FakeJournal(), handbook())
    assert "mushroom-kind" in {c.rule for c in food_cautions(kitchen, "mushroom") if c.severity == "stop"}
    assert "oil-never-garlic" in {c.rule for c in food_cautions(kitchen, "garlic") if c.severity == "warn"}
    raw = [f for f in handbook().foods.values() if "raw_bean" in f.traits]
    assert raw
    for food in raw:
        assert "beans-not-boiled" in {c.rule for c in food_cautions(kitchen, food)}


def test_recalled_rows_say_so():
    recalled = [r for r in safety_rules() if r.id in ("dairy-not-at-home", "absorber-limits", "taro")]
    assert all("from memory, not yet checked" in r.source for r in recalled)
    assert len(recalled) == 3


def test_losing_sides_of_a_conflict_stand_in_no_caution():
    texts = " ".join(rule.text for rule in safety_rules())
    for losing in ("0.88", "0.91", "0.85", "30 to 60", "21 days", "10 days at the most", "145 °F"):
        assert losing not in texts


def test_the_limit_stands_in_the_words_of_its_rule():
    for rule in safety_rules():
        if rule.id.startswith("heat-") and rule.limit is not None and rule.id != "heat-to-165":
            if rule.id == "fish-held":
                continue
            fahrenheit = rule.limit * 1.8 + 32
            (said,) = set(re.findall(rf"{fahrenheit:.0f} °F \(([\d.]+) °C\)", rule.text))
            assert float(said) * 1.8 + 32 > fahrenheit - 0.05, rule.id


def test_a_label_has_few_words_and_a_foreign_caution_its_whole_text():
    assert all(len(rule.short) <= 60 for rule in safety_rules())
    first = safety_rules()[0]
    first = rules_by_id()["heat-meat-missing"]
    (said,) = evaluate(FoodFacts("beef", "meat"), [first])
    assert (short_text(said), said.moment, said.effect) == (first.short, first.moment, first.effect)
    assert short_text(Caution("note", "A note.", "a source")) == "A note."
    assert rules_by_id()[first.id] is first


@every_row(
    ("column", "value"),
    [
        ("when", "never heard of"),
        ("severity", "grave"),
        ("moment", "later"),
        ("moment", ""),
        ("effect", "tastes odd"),
        ("effect", ""),
        ("text", ""),
        ("standing", "nowhere"),
        ("unit", "furlong"),
        ("said_of", "moon"),
        ("said_of", "food;lot"),
    ],
)
def test_a_row_that_breaks_the_form_is_a_fault(column, value):
    good = dict(  # noqa: C408
        rule="x", about="any", said_of="", when="always", answered_by="", limit="1", unit="day", over_f="",
        under_f="", severity="stop", moment="now", effect="not to be eaten",
        text="t", short="s", source="usda_danger_zone", how="", standing="",
    )  # fmt: skip
    assert _rule(Row("safety_rules", 2, good)).id == "x"
    with pytest.raises(HandbookFault):
        _rule(Row("safety_rules", 2, {**good, column: value}))


def test_what_is_no_stop_may_leave_the_food_alone_and_be_said_of_a_jar():
    note = dict(  # noqa: C408
        rule="y", about="any;fruit", said_of="food;lot", when="always", answered_by="look", limit="", unit="",
        over_f="", under_f="", severity="note", moment="always", effect="", text="t", short="s",
        source="usda_danger_zone", how="recalled", standing="",
    )  # fmt: skip
    rule = _rule(Row("safety_rules", 2, note), 3)
    assert (rule.severity, rule.effect, rule.said_of, rule.limit) == ("note", "", {"food", "lot"}, None)
    assert (rule.about, rule.answered_by, rule.rank) == ({"any", "fruit"}, {"look"}, 3)
    assert rule.source.endswith("(from memory, not yet checked)")
    everywhere = _rule(Row("safety_rules", 2, {**note, "said_of": "", "how": "", "standing": "check first"}))
    assert len(everywhere.said_of) > 2
    assert "from memory" not in everywhere.source
    assert (everywhere.checks_first, rule.checks_first, everywhere.rank) == (True, False, 0)


def test_treatments_against_insects_and_limits_of_water_activity_are_there():
    assert [p.method for p in pasteurising()] == ["freezer", "oven"]
    assert {"no growth", "jerky", "low acid"} <= set(water_activity_limits())
