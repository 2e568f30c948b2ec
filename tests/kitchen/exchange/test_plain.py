"""What is read and judged in one go is what the full reading and the full judgement would have let pass."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.handbook.reader import handbook
from dryhouse.journal.sample import sample_folder
from dryhouse.kitchen.exchange import plain as plain_module
from dryhouse.kitchen.exchange import read_records
from dryhouse.kitchen.exchange.formats import as_json, from_json
from dryhouse.kitchen.exchange.plain import plain
from dryhouse.kitchen.records import RECORD_KINDS, Weighing
from dryhouse.kitchen.records.problems import problems, problems_around
from dryhouse.kitchen.records.shapes import SUFFIXES, shapes
from dryhouse.kitchen.records.typed_problems import typed_problems
from dryhouse.kitchen.surroundings import Surroundings
from dryhouse.science.errors import InputProblem
from tests.records import records

ALONE = Surroundings(None, handbook(), lambda moment: moment)
WEIGHING = {"batch": 1, "at": "2026-08-01T10:00:00+00:00", "gross": {"g": 412.0, "typed": "412 g"}, "id": 3}


def plainly(kind: type, values: Any) -> Any:
    """What one record is read as in one go, by itself."""
    [found] = plain(kind, [values])
    return found


def in_full(kind: type, values: Any) -> tuple[Any, list[str]]:
    """The record the long way, and all that is wrong with it."""
    try:
        made = from_json(kind, values, "entry 1")
    except InputProblem as problem:
        return None, [str(problem)]
    return made, [str(problem) for problem in (*problems(made, ALONE), *typed_problems(made))]


def test_every_record_of_the_sample_is_read_in_one_go() -> None:
    sample = read_records(sample_folder())
    assert {type(record) for record in sample} == set(RECORD_KINDS)
    for record in sample:
        assert repr(plainly(type(record), json.loads(json.dumps(as_json(record))))) == repr(record)


ODD = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=6), st.just([]), st.just({}),
    st.sampled_from(("412 g", "14.5 oz", "135 F", "2 h", "2026-08-01", "2026-08-01T10:00:00+00:00", "load")),
)  # fmt: skip
QUANTITY = st.builds(
    lambda unit, si, typed: {unit: si, "typed": typed}, st.sampled_from(tuple(SUFFIXES.values())), ODD, ODD
)
"""Halves that may or may not go together."""


@given(st.data())
def test_whatever_is_put_in_a_field_passes_in_one_go_only_where_it_passes_in_full(data: st.DataObject) -> None:
    kind = data.draw(st.sampled_from(RECORD_KINDS))
    values = as_json(data.draw(records(kind)))
    for name in data.draw(st.sets(st.sampled_from([shape.name for shape in shapes(kind)]), max_size=3)):
        values[name] = data.draw(ODD | QUANTITY)
    made, wrong = in_full(kind, values)
    found = plainly(kind, values)
    if found is not None:
        assert repr(found) == repr(made)
        assert [str(problem) for problem in problems_around(found, ALONE)] == wrong


@pytest.mark.parametrize(
    "changed",
    [
        {"gross": {"g": 14.5, "typed": "14.5 oz"}},
        {"gross": {"g": True, "typed": "1 g"}},
        {"gross": {"g": 412.0, "typed": "412 g", "more": 1}},
        {"gross": {"g": float("nan"), "typed": ""}},
        {"tare": {"g": -3.0, "typed": ""}},
        {"gross": None},
        {"at": "2026-08-01T10:00:00"},
        {"at": "1492-08-01T10:00:00+00:00"},
        {"scope": "the lid"},
        {"left_out": 1},
        {"id": 2**70},
        {"dryer_humidity_pct": 140.0},
        {"colour": "red"},
    ],
)
def test_a_weighing_with_anything_wrong_is_left_to_the_full_judgement(changed: dict[str, Any]) -> None:
    plain_module._KINDS.clear()  # worked out anew for this very field
    wrong_one = {**WEIGHING, **changed}
    assert plainly(Weighing, wrong_one) is None
    among = plain(Weighing, [WEIGHING, {**WEIGHING, "gross": {"g": 1.0, "typed": "1 g"}}, wrong_one, WEIGHING])
    assert [found is None for found in among] == [False, False, True, False]
    made, wrong = in_full(Weighing, {**WEIGHING, **changed})
    assert made is None or wrong


@given(st.data())
def test_records_read_many_at_once_are_what_each_is_by_itself(data: st.DataObject) -> None:
    kind = data.draw(st.sampled_from(RECORD_KINDS))
    many = [as_json(record) for record in data.draw(st.lists(records(kind), min_size=1, max_size=6))]
    for values in many:
        for name in data.draw(st.sets(st.sampled_from([shape.name for shape in shapes(kind)]), max_size=1)):
            values[name] = data.draw(ODD | QUANTITY)
    assert repr(plain(kind, many)) == repr([plainly(kind, values) for values in many])


def test_nought_keeps_its_sign() -> None:
    for nought in (0.0, -0.0, 0.0):
        read = plainly(Weighing, {**WEIGHING, "tare": {"g": nought, "typed": ""}})
        assert str(read.tare.si) == str(nought)
