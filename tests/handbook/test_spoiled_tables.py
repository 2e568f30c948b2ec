"""Every table of the handbook, spoiled in one cell: its reader refuses it and says what is wrong."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from dryhouse.handbook import (
    activation,
    aisles,
    allergens,
    animal_words,
    boiling,
    cooking_yields,
    cut_hours,
    gab,
    keeping_table,
    pieces,
    pot,
    reading,
    rehydration_table,
    safety_table,
    sharing,
    softening,
    staples,
    thin_layer,
    uptake,
    yield_spread,
    yield_table,
)
from dryhouse.handbook.foods import load_foods
from dryhouse.science.errors import InputProblem

SHIPPED = reading.FOLDER


@pytest.fixture
def copied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The handbook's folder, with nothing in it yet but the sources."""
    (tmp_path / "sources.toml").write_bytes((SHIPPED / "sources.toml").read_bytes())
    load_foods(), staples.staples(), keeping_table.rule_of("month")  # as they are shipped
    monkeypatch.setattr(reading, "FOLDER", tmp_path)
    return tmp_path


def spoiled(folder: Path, table: str, **cells: str) -> None:
    """The table as it is shipped, its first row changed in these cells; `twice` gives that row a double."""
    with (SHIPPED / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        header, first, *rest = csv.reader(file)
    twice = cells.pop("twice", "")
    changed = [cells.get(column, cell) for column, cell in zip(header, first, strict=True)]
    with (folder / f"{table}.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([header, changed, *([changed] if twice else []), *rest])


SPOILED: list[tuple[Callable[[], object], str, dict[str, str], str]] = [
    (softening.softenings, "softening", {"size": "tiny"}, "“tiny”, “no soak”"),
    (softening.softenings, "softening", {"way": "long soak"}, "“fine”, “long soak”"),
    (softening.softenings, "softening", {"about": "bricks"}, "“bricks” stands twice, or is neither"),
    (softening.softenings, "softening", {"twice": "yes"}, "“any food” stands twice"),
    (softening.softenings, "softening", {"size": "bought"}, "“any food” stands twice, or is neither"),
    (softening.softenings, "softening", {"cook": ""}, "neither soak nor cook is given"),
    (softening.softenings, "softening", {"cook": "0"}, "neither soak nor cook is given"),
    (uptake.uptakes, "uptake", {"about": "bricks"}, "“bricks” stands twice, or is neither"),
    (uptake.uptakes, "uptake", {"twice": "yes"}, "“carrot” stands twice"),
    (uptake.uptakes, "uptake", {"low": "3.2"}, "3.2 to 4.126 does not hold 3.126"),
    (uptake.uptakes, "uptake", {"high": "3.1"}, "2.457 to 3.1 does not hold 3.126"),
    (uptake.uptakes, "uptake", {"low": "0"}, "0 to 4.126 does not hold 3.126"),
    (uptake.uptakes, "uptake", {"value": ""}, "value is empty"),
    (pieces.pieces, "pieces", {"food": "brick"}, "brick weighs nothing, or is no food"),
    (pieces.pieces, "pieces", {"grams": "0"}, "broccoli weighs nothing"),
    (pieces.pieces, "pieces", {"grams": ""}, "broccoli weighs nothing"),
    (sharing.sharing, "sharing", {"about": "brick"}, "“brick” is no food and no category"),
    (cut_hours.cut_hours, "hours_by_cut", {"food": "brick"}, "brick is no food"),
    (cut_hours.cut_hours, "hours_by_cut", {"twice": "yes"}, "its tip stands twice"),
    (cut_hours.cut_hours, "hours_by_cut", {"low": "7"}, "7 to 6 h is no time"),
    (cut_hours.cut_hours, "hours_by_cut", {"low": "0"}, "0 to 6 h is no time"),
    (cooking_yields.cooking_yields, "cooking_yields", {"food": "brick"}, "“brick”, survey"),
    (cooking_yields.cooking_yields, "cooking_yields", {"kind": "guessed"}, "“white-bean”, guessed"),
    (cooking_yields.cooking_yields, "cooking_yields", {"factor": ""}, "factor is empty"),
    (cooking_yields.cooking_yields, "cooking_yields", {"factor": "7"}, "no food cooks to so much"),
    (cooking_yields.cooking_yields, "cooking_yields", {"factor": "0.1"}, "no food cooks to so much"),
    (animal_words._table, "animal_words", {"kind": "insect"}, "kind “insect”"),
    (animal_words._table, "animal_words", {"language": "la"}, "language “la” is unknown"),
    (animal_words._table, "animal_words", {"words": "beef;!"}, "“!” is no word"),
    (animal_words._table, "animal_words", {"kind": "plant", "words": "beef*"}, "“beef*” is no word"),
    (allergens.allergens, "allergens", {"holds": "milk;dust"}, "dust is no allergen of this table"),
    (aisles.aisles, "aisles", {"holds": "vegetable;bricks"}, "nothing is bricks"),
    (pot.pot_figures, "pot", {"value": ""}, "value is empty"),
    (boiling.boiling_tables, "boiling", {"boiling_f": ""}, "boiling_f is empty"),
    (keeping_table.water_activity_limits, "water_activity_limits", {"water_activity": ""}, "is empty"),
    (keeping_table.keeping_points, "keeping", {"life": ""}, "life is empty"),
    (rehydration_table.rehydrations, "rehydration_table", {"cup": "heaped"}, "cup is “heaped”"),
    (rehydration_table.rehydrations, "rehydration_table", {"liquid": "icy"}, "liquid is “icy”"),
    (rehydration_table.rehydrations, "rehydration_table", {"foods": "apple;brick"}, "“brick” is no food"),
    (rehydration_table.soaking, "rehydration_kinetics", {"kind": "speed"}, "speed in “s per % dry basis”"),
    (rehydration_table.soaking, "rehydration_kinetics", {"unit": "h"}, "peleg_k1 in “h”"),
    (rehydration_table.soaking, "rehydration_kinetics", {"value": "inf"}, "value is not finite"),
    (staples.staples, "staples", {"kind": "mineral"}, "kind “mineral” is none of"),
    (staples.staples, "staples", {"cooked_ndb": ""}, "come together"),
    (staples.staples, "staples", {"cooked_water": ""}, "come together"),
    (staples.staples, "staples", {"cook_minutes": ""}, "cook_minutes is empty"),
    (yield_table.published_yields, "yield_table", {"comparable": "maybe"}, "yes, strays or no"),
    (yield_table.published_yields, "yield_table", {"why": ""}, "says why"),
    (yield_spread.spreads, "yield_spread", {"n": ""}, "n is empty"),
    (yield_spread.solids_ranges, "solids_ranges", {"low": ""}, "low is empty"),
    (activation.activation_rows, "activation", {"low_kj_mol": ""}, "low_kj_mol is empty"),
    (gab._table, "gab", {"c": ""}, "c is empty"),
    (safety_table.safety_rules, "safety_rules", {"when": "full moon"}, "“full moon” is no condition"),
    (safety_table.safety_rules, "safety_rules", {"severity": "hint"}, "severity is “hint”"),
    (safety_table.safety_rules, "safety_rules", {"effect": ""}, "a stop says what it does to the food"),
    (safety_table.safety_rules, "safety_rules", {"said_of": "lot"}, "a stop is said everywhere"),
    (safety_table.safety_rules, "safety_rules", {"said_of": "wall"}, "it names some of"),
    (safety_table.safety_rules, "safety_rules", {"standing": "fine"}, "standing is “fine”"),
    (safety_table.safety_rules, "safety_rules", {"text": ""}, "text is empty"),
    (safety_table.safety_rules, "safety_rules", {"limit": "4", "unit": "moons"}, "unit “moons”"),
    (safety_table.safety_rules, "safety_rules", {"source": "hearsay"}, "source “hearsay” is not in"),
]


def test_a_spoiled_cell_is_refused_with_its_table_and_its_line(copied: Path) -> None:
    wrong = []
    for reader, table, cells, said in SPOILED:
        spoiled(copied, table, **cells)
        try:
            reader.__wrapped__()  # type: ignore[attr-defined]
        except reading.HandbookFault as fault:
            line = 3 if cells.get("twice") else 2
            if said not in str(fault) or not str(fault).startswith(f"{table}.csv, line {line}: "):
                wrong.append((table, cells, str(fault)))
        else:
            wrong.append((table, cells, "it was read"))
    assert wrong == []


def test_constants_of_no_food_are_refused(copied: Path) -> None:
    spoiled(copied, "gab", k="1.2")
    with pytest.raises(InputProblem):
        gab._table.__wrapped__()


def test_a_limit_is_kept_in_the_unit_that_is_compared(copied: Path) -> None:
    kept = {}
    for unit, limit in (("degF", "140"), ("in", "0.25"), ("ft", "1000"), ("min", "120"), ("day", "7"), ("", "0.6")):
        spoiled(copied, "safety_rules", limit=limit, unit=unit)
        kept[unit] = safety_table.safety_rules.__wrapped__()[0].limit
    assert kept == pytest.approx({"degF": 60.0, "in": 6.35, "ft": 304.8, "min": 120.0, "day": 7.0, "": 0.6})
    spoiled(copied, "safety_rules", over_f="40", under_f="140")
    first = safety_table.safety_rules.__wrapped__()[0]
    assert (first.limit, first.over_c, first.under_c) == (None, pytest.approx(40 / 9), pytest.approx(60.0))


def test_the_first_row_of_each_table_is_read_as_it_is_written(copied: Path) -> None:
    spoiled(copied, "softening", soak="7", cook="5")
    first = next(iter(softening.softenings.__wrapped__().values()))
    assert (first.soak.value, first.cook.value) == (7.0, 5.0)
    spoiled(copied, "uptake", low="3.126", high="3.126")
    assert uptake.uptakes.__wrapped__()["carrot"].low == 3.126
    spoiled(copied, "hours_by_cut", low="4", high="9")
    assert cut_hours.cut_hours.__wrapped__()["asparagus"]["tip"].value == pytest.approx(6.0)
    spoiled(copied, "hours_by_cut", low="6", high="6")
    assert cut_hours.cut_hours.__wrapped__()["asparagus"]["tip"].value == pytest.approx(6.0)
    spoiled(copied, "staples", uptake="9")
    pasta = staples.staples.__wrapped__()["pasta-elbows"]
    assert pasta.uptake.value == pytest.approx((100 - 9.9) / (100 - 62.13) - 1)
    assert (pasta.uptake.how, pasta.cold_soak, pasta.cook_minutes.value) == ("computed", False, 9.0)
    spoiled(copied, "staples", cooked_ndb="", cooked_water="", uptake="1.4")
    assert staples.staples.__wrapped__()["pasta-elbows"].uptake.value == 1.4
    spoiled(copied, "staples", cooked_ndb="", cooked_water="", uptake="")
    assert staples.staples.__wrapped__()["pasta-elbows"].uptake is None
    spoiled(copied, "aisles", pounds="0.5", grams="250")
    produce = aisles.aisles.__wrapped__()[0]
    assert (produce.us_step, produce.metric_step) == (pytest.approx(226.796), 250.0)
    spoiled(copied, "boiling")
    for table in boiling.boiling_tables.__wrapped__():
        assert table.points == tuple(sorted(table.points))
    spoiled(copied, "yield_table")
    first_yield = yield_table.published_yields.__wrapped__()[0]
    assert (first_yield.comparable, first_yield.strays, first_yield.dried_g) == (False, True, 567.0)
    spoiled(copied, "rehydration_table", cup="packed")
    assert rehydration_table.rehydrations.__wrapped__()[0].packed
    spoiled(copied, "rehydration_table", cup="")
    assert not rehydration_table.rehydrations.__wrapped__()[0].packed
    spoiled(copied, "activation", middle_kj_mol="")
    assert activation.activation_rows.__wrapped__()[0].energy.value == pytest.approx(35.0)
    spoiled(copied, "gab", aw_low="0.2", aw_high="")
    _, isotherm = gab._table.__wrapped__()[0]
    assert (isotherm.aw_low, isotherm.aw_high, isotherm.temperature_low_c) == (0.2, 0.9, 30.0)
    spoiled(copied, "thin_layer")
    cherry = thin_layer.thin_layers.__wrapped__()[0]
    assert (cherry.k, cherry.n, cherry.b, cherry.temperature_c) == (0.7565, 0.5083, -0.138, None)
    spoiled(copied, "allergens", label="yes")
    assert allergens.allergens.__wrapped__()["dairy"].label
    spoiled(copied, "pot", note="of people")
    assert pot.pot_figures.__wrapped__()["sodium_day"].note == "of people"
    spoiled(copied, "safety_rules")
    assert safety_table.safety_rules.__wrapped__()[0].checks_first
    spoiled(copied, "safety_rules", standing="")
    assert not safety_table.safety_rules.__wrapped__()[0].checks_first
