"""A few of the files that `damaged_files.py` tries by the thousand."""

from __future__ import annotations

from tests.faults.damaged_files import damaged_files
from tests.faults.spoiling import WAYS


def test_a_dozen_damaged_files_end_in_sentences_and_come_back() -> None:
    tried = list(damaged_files(12, seed=3))
    assert [(seed, way, wrong) for seed, way, wrong in tried if wrong] == []
    assert len({way for _, way, _ in tried}) == len(WAYS)
