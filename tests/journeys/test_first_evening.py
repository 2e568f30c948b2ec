"""The tasks of a first evening take few entries, by the keyboard alone and by the mouse alone."""

import pytest

from tests.journeys.first_evening import by_hand, by_keys, evening

AT_MOST = {
    "log a batch": 5,
    "weigh": 1,
    "look up a yield": 1,
    "pack into three jars": 4,
    "print labels": 3,
    "start a batch": 3,
    "take it off": 1,
    "move a jar": 1,
    "take some out": 1,
    "find batches": 1,
    "read about a food": 1,
    "undo the last act": 0,
}


@pytest.mark.parametrize("way", [by_keys, by_hand])
def test_each_task_is_done_in_few_entries(own_folder, qtbot, tmp_path, monkeypatch, way):
    monkeypatch.setenv("DRYHOUSE_SETTINGS", str(tmp_path / "settings.ini"))
    took = {name: (entries, done) for name, entries, _seconds, done in evening(way, tmp_path / "labels.pdf")}
    assert [name for name, (_entries, done) in took.items() if not done] == []
    assert list(took) == list(AT_MOST)
    assert {name: n for name, (n, _done) in took.items() if n > AT_MOST[name]} == {}
