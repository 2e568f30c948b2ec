"""A record as JSON and as cells, and back: unchanged, or a sentence that says what is wrong where."""

import json
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.kitchen.exchange.cells import as_cells, columns, from_cells
from dryhouse.kitchen.exchange.formats import as_json, from_json
from dryhouse.kitchen.records import RECORD_KINDS, Batch, Lot, Weighing
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from dryhouse.words.messages import problem_sentence
from tests.records import records
from tests.rows import every_row

anything = st.sampled_from(RECORD_KINDS).flatmap(records)


@given(anything)
def test_json_and_back_is_the_same_record(record):
    text = json.dumps(as_json(record), ensure_ascii=False, allow_nan=False)
    assert from_json(type(record), json.loads(text), "entry 1") == record


@given(anything)
def test_cells_and_back_is_the_same_record(record):
    cells = as_cells(record)
    names = columns(type(record))
    assert len(cells) == len(names) == len(set(names))
    assert from_cells(type(record), dict(zip(names, cells, strict=True)), "line 2") == record


def test_a_table_kept_by_hand_gives_quantities_as_typed():
    made = from_cells(Batch, {"food": "corn", "prepared_mass": "2 lb 3 oz", "set_temperature": "125 F"}, "line 2")
    assert made.prepared_mass.si == pytest.approx(35 * 28.349523125)
    assert made.prepared_mass.typed == "2 lb 3 oz"
    assert made.set_temperature.si == pytest.approx(51.667, abs=0.001)
    assert made.dried_mass is None


WEIGHING = as_json(Weighing(1, datetime(2026, 8, 1, 10, tzinfo=UTC), Mass(400.0, "400 g"), id=1))


@every_row(
    ("change", "said"),
    [
        ({"colour": "red"}, "“colour”, which Weighing records do not have"),
        ({"gross": 400}, "“gross” should look like"),
        ({"gross": {"g": "heavy", "typed": ""}}, "should be a number"),
        ({"gross": {"g": float("nan"), "typed": ""}}, "should be a number"),
        ({"at": "2026-08-01T10:00"}, "without its zone"),
        ({"at": "yesterday"}, "should be a moment such as"),
        ({"batch": "one"}, "should be a whole number"),
        ({"batch": True}, "should be a whole number"),
        ({"batch": None}, "has no “batch”"),
    ],
)
def test_what_cannot_be_read_names_the_entry_and_the_value(change, said):
    with pytest.raises(InputProblem) as problem:
        from_json(Weighing, {**WEIGHING, **change}, "entry 7")
    assert problem_sentence(problem.value).startswith("entry 7")
    assert said in problem_sentence(problem.value)


def test_a_list_is_no_record():
    with pytest.raises(InputProblem, match="is not a record"):
        from_json(Lot, [1, 2], "entry 7")


def test_yes_and_no_are_the_words_of_a_table():
    lot = {"food": "corn", "packed_on": "2026-08-01", "name": "", "package": "jar", "pasteurised": "", "notes": ""}
    assert from_cells(Lot, {**lot, "sealed": "NO"}, "line 2").sealed is False
    with pytest.raises(InputProblem, match="should be yes or no"):
        from_cells(Lot, {**lot, "sealed": "maybe"}, "line 2")
