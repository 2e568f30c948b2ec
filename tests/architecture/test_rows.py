"""A table tried as one test loses no row of it."""

import inspect

import pytest

from tests.rows import every_row


def test_every_row_that_fails_is_named_and_the_others_are_tried():
    tried = []

    @every_row("number", [1, -2, 3, pytest.param(-4, id="minus four")], ids=str)
    def positive(number):
        tried.append(number)
        assert number > 0, f"{number} is below nothing"

    with pytest.raises(AssertionError) as fault:
        positive()
    assert tried == [1, -2, 3, -4]
    assert "2 of 4 rows fail" in str(fault.value)
    assert "-2: AssertionError" in str(fault.value)
    assert "minus four: AssertionError" in str(fault.value)
    assert "-4 is below nothing" in str(fault.value)


def test_a_row_of_several_values_is_handed_over_by_name_beside_what_else_is_asked_for():
    @every_row(("low", "high"), [(1, 2), (3, 4)])
    def ordered(low, high, step):
        assert low + step == high

    assert list(inspect.signature(ordered).parameters) == ["step"]
    ordered(step=1)


def test_a_table_without_rows_is_refused():
    with pytest.raises(AssertionError, match="without rows"):
        every_row("number", [])
