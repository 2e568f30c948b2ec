"""Every field of every kind of record spoiled in the ways JSON can: a sentence, or a record that can be kept."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest

from dryhouse.handbook.reader import handbook
from dryhouse.journal.sample import sample_folder
from dryhouse.kitchen.exchange import read_records
from dryhouse.kitchen.exchange.formats import as_json, from_json
from dryhouse.kitchen.records import RECORD_KINDS
from dryhouse.kitchen.records.field_problems import LARGEST
from dryhouse.kitchen.records.links import LINKS
from dryhouse.kitchen.records.problems import problems
from dryhouse.kitchen.records.shapes import SUFFIXES, shapes
from dryhouse.kitchen.records.typed_problems import typed_problems
from dryhouse.kitchen.surroundings import Surroundings
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity
from dryhouse.words.messages import problem_sentence

WRONG: tuple[Any, ...] = (
    None, True, -1, 0, -0.5, 1e308, -1e308, 10**400, 2**63, 2**70, -(2**70), "", " ", "\ud800", "no such thing",
    "9" * 5000, "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-14:00", "9999-12-31", "0001-01-01", [], [[[]]],
    {}, {"g": 5},
)  # fmt: skip


def spoiled(value: Any, unit: str) -> Iterator[Any]:
    """A value replaced, and of a quantity each half of it."""
    yield from WRONG
    for wrong in WRONG if unit else ():
        yield {unit: wrong, "typed": ""}
        yield {unit: 1.0, "typed": wrong}


@pytest.fixture(scope="module")
def sample() -> dict[type, Any]:
    """One whole record of each kind."""
    found: dict[type, Any] = {}
    for record in read_records(sample_folder()):
        fuller = len(as_json(record)) > len(as_json(found[type(record)])) if type(record) in found else True
        if fuller:
            found[type(record)] = record
    return found


@pytest.mark.parametrize("kind", RECORD_KINDS)
def test_whatever_stands_in_a_field_is_refused_in_a_sentence_or_can_be_kept(kind: type, sample: dict) -> None:
    record = sample[kind]
    around = Surroundings(None, handbook(), lambda moment: moment)
    for shape in shapes(kind):
        unit = SUFFIXES[shape.quantity] if shape.quantity is not None else ""
        for wrong in spoiled(getattr(record, shape.name), unit):
            try:
                made = from_json(kind, {**as_json(record), shape.name: wrong}, "entry 1")
                found = [*problems(made, around), *typed_problems(made)]
            except InputProblem as problem:
                found = [problem]
            for problem in found:
                assert 10 < len(problem_sentence(problem)) < 700
                problem_sentence(problem).encode("utf-8")
            if not [p for p in found if p.field not in LINKS.get(kind, {})]:
                assert_can_be_kept(made)


def assert_can_be_kept(record: Any) -> None:
    json.dumps(as_json(record), ensure_ascii=False, allow_nan=False).encode("utf-8")
    for shape in shapes(type(record)):
        value = getattr(record, shape.name)
        if isinstance(value, Quantity):
            assert abs(value.si) < 1e12
        elif isinstance(value, int):
            assert abs(value) <= LARGEST
        elif shape.holds is float and value is not None:
            assert abs(value) <= 1e6
        elif hasattr(value, "year"):
            assert 1900 <= value.year < 2200
