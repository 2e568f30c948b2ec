"""A small share of the bad inputs that `bad_inputs.py` tries by the thousand."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.faults import bad_inputs


def test_spoiled_input_is_a_sentence_and_changes_nothing() -> None:
    ends, wrong = bad_inputs.run(times=150, seed=4)
    assert wrong == []
    assert ends["2"] > 30, "what is spoiled is mostly refused"
    assert ends["0"] > 10, "and some of it is still right"


def test_what_ends_wrong_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The judge itself: a traceback, a change behind a refusal, a refusal without its sentence."""
    journal = tmp_path / "journal.dryhouse"
    bad_inputs.kitchen(journal)

    def broken(_words: list[str]) -> int:
        raise IndexError("broken")

    def changes(_words: list[str]) -> int:
        journal.write_bytes(b"changed")
        return 2

    for main, end in ((broken, "a traceback"), (lambda _words: 2, "no single sentence"), (changes, "refused, and")):
        monkeypatch.setattr(bad_inputs, "main", main)
        assert bad_inputs.tried(["shelf"], journal)[0].startswith(end)
