"""The first start of all, with an empty home, does not break however quickly it is driven."""

from tests.faults.first_starts import first_starts


def test_five_first_starts_driven_at_once_through_all_places_end_in_order(tmp_path):
    assert [wrong for wrong in first_starts(times=5, together=2, seed=1, steps=20, cache=tmp_path) if wrong] == []
