"""Export and import from the window: beside it, over a real file, to be chosen, stopped and undone."""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from dryhouse.desk import exchange_pages
from dryhouse.desk.exchange_pages import ChoicePage, WorkPage
from dryhouse.desk.long_work import work_beside
from dryhouse.desk.opening import Opening
from dryhouse.desk.window import DeskWindow
from dryhouse.house import Journals
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.exchange import bringing
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from tests.desk.conftest import BOX, SHELF, a_batch


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "mine.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, r) for r in (SHELF, BOX, a_batch(1), a_batch(2, "apple", form="slices"))])
    journal.close()
    return file


@pytest.fixture
def opening(qtbot, theme, settings, file: Path) -> Iterator[Opening]:
    window = DeskWindow(theme, settings)
    made = Opening(window, Journals(file))
    window.show()
    qtbot.waitExposed(window)
    made.open_own()
    yield made
    window.close()
    window.deleteLater()


def said(opening: Opening) -> str:
    assert opening.session is not None
    shown = opening.session.messages.latest
    return "" if shown is None else shown.text


def told(opening: Opening, words: str) -> Callable[[], bool]:
    return lambda: words in said(opening)


def page(opening: Opening) -> Any:
    return opening.window.stack.currentWidget()


def edited(opening: Opening, qtbot, tmp_path: Path, **fields: Any) -> Path:
    """An export of what is open, its first batch changed and a new one added."""
    out = tmp_path / "theirs.json"
    opening.exchange.export(out)
    qtbot.waitUntil(out.exists)
    qtbot.waitUntil(told(opening, "Exported"))
    content = json.loads(out.read_text(encoding="utf-8"))
    content["records"]["Batch"][0].update(fields)
    content["records"]["Batch"].append({"food": "carrot", "id": 40})
    out.write_text(json.dumps(content), encoding="utf-8")
    return out


def foods(opening: Opening) -> list[str]:
    assert opening.session is not None
    return [b.food for b in opening.session.kitchen.journal.where(Batch)]


def test_everything_is_exported_and_the_message_says_where(opening, qtbot, tmp_path) -> None:
    opening.exchange.export(tmp_path / "all.json")
    qtbot.waitUntil(told(opening, "Exported 4 records"))
    assert json.loads((tmp_path / "all.json").read_text(encoding="utf-8"))["counts"]["Batch"] == 2
    assert not isinstance(page(opening), WorkPage)


def test_a_name_that_is_taken_is_said_and_nothing_is_written_over(opening, qtbot, tmp_path, monkeypatch) -> None:
    taken = tmp_path / "all.json"
    taken.write_text("mine", encoding="utf-8")
    name = str(tmp_path / "all")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_a, **_k: (name, "One JSON file (*.json)"))
    opening.exchange.ask_export()
    qtbot.waitUntil(told(opening, "all-2.json"))
    assert taken.read_text(encoding="utf-8") == "mine"


def test_new_records_come_at_once_and_undo_takes_them_out(opening, qtbot, tmp_path, monkeypatch) -> None:
    out = edited(opening, qtbot, tmp_path)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_a, **_k: (str(out), ""))
    opening.exchange.ask_import()
    qtbot.waitUntil(told(opening, "Imported 1 record"))
    assert foods(opening) == ["corn", "apple", "carrot"]
    opening.session.undo()
    assert foods(opening) == ["corn", "apple"]


def test_what_differs_is_listed_and_stays_unless_it_is_checked(opening, qtbot, tmp_path) -> None:
    out = edited(opening, qtbot, tmp_path, notes="crisp")
    opening.exchange.bring_in(out)
    qtbot.waitUntil(lambda: isinstance(page(opening), ChoicePage))
    choice = page(opening)
    assert choice.heading.text() == "1 record of yours differs from the file"
    assert choice.list.item(0).text() == "Batch 1 (corn): “Notes” is empty here and “crisp” there."
    assert choice.chosen() == []
    choice.buttons[1].click()
    assert len(choice.chosen()) == 1
    choice.buttons[2].click()
    assert choice.chosen() == []
    choice.list.item(0).setCheckState(Qt.CheckState.Checked)
    choice.buttons[0].click()
    qtbot.waitUntil(told(opening, "1 record of yours changed"))
    assert opening.session.kitchen.journal.get(Batch, 1).notes == "crisp"
    opening.session.undo()
    assert opening.session.kitchen.journal.get(Batch, 1).notes == ""
    assert foods(opening) == ["corn", "apple"]


def test_leaving_the_list_leaves_the_journal_as_it_was(opening, qtbot, tmp_path) -> None:
    out = edited(opening, qtbot, tmp_path, notes="crisp")
    opening.exchange.bring_in(out)
    qtbot.waitUntil(lambda: isinstance(page(opening), ChoicePage))
    waits = opening.exchange._waiting
    page(opening).buttons[3].click()
    qtbot.waitUntil(lambda: opening.exchange._waiting is None)
    assert waits is not None
    assert foods(opening) == ["corn", "apple"]
    assert opening.window.here == "journal"


def test_what_cannot_be_right_says_why_and_she_can_choose_again(opening, qtbot, tmp_path) -> None:
    out = edited(opening, qtbot, tmp_path, trays=9)
    opening.exchange.bring_in(out)
    qtbot.waitUntil(lambda: isinstance(page(opening), ChoicePage))
    choice = page(opening)
    choice.buttons[1].click()
    choice.buttons[0].click()
    assert "The shelf dryer has 6 trays, not 9." in said(opening)
    assert page(opening) is choice
    assert foods(opening) == ["corn", "apple"]
    choice.buttons[2].click()
    choice.buttons[0].click()
    assert foods(opening) == ["corn", "apple", "carrot"]


def test_more_differences_than_are_listed_go_with_the_buttons_for_all(
    opening, qtbot, tmp_path, monkeypatch
) -> None:
    monkeypatch.setattr(exchange_pages, "_SHOWN", 0)
    opening.exchange.bring_in(edited(opening, qtbot, tmp_path, notes="crisp"))
    qtbot.waitUntil(lambda: isinstance(page(opening), ChoicePage))
    choice = page(opening)
    assert choice.list.item(0).text().startswith("And 1 more")
    assert choice.chosen() == []
    choice.buttons[1].click()
    assert len(choice.chosen()) == 1


def test_a_bad_file_is_one_sentence_in_the_bar(opening, qtbot, tmp_path) -> None:
    bad = tmp_path / "bad.json"
    bad.write_text("{", encoding="utf-8")
    opening.exchange.bring_in(bad)
    qtbot.waitUntil(told(opening, "not a journal's export"))
    assert not isinstance(page(opening), WorkPage)


def test_reading_can_be_stopped(opening, qtbot, tmp_path, monkeypatch) -> None:
    started: list[bool] = []

    def look(_path: Path, _source: Path, tell: Callable[[float], None]) -> None:
        started.append(True)
        while True:
            tell(0.4)
            time.sleep(0.001)

    monkeypatch.setattr(opening.journals, "look_through", look)
    opening.exchange.bring_in(tmp_path / "endless.json")
    qtbot.waitUntil(lambda: bool(started) and page(opening).bar.value() == 40)
    page(opening).buttons[0].click()
    qtbot.waitUntil(told(opening, "was stopped; nothing was changed"))
    assert foods(opening) == ["corn", "apple"]


def test_more_than_undo_keeps_comes_with_a_backup_first(opening, qtbot, tmp_path, monkeypatch) -> None:
    out = edited(opening, qtbot, tmp_path)
    monkeypatch.setattr(bringing, "MOST_UNDONE", 0)
    opening.exchange.bring_in(out)
    qtbot.waitUntil(told(opening, "This can't be undone"), timeout=20_000)
    assert foods(opening) == ["corn", "apple", "carrot"]
    assert Path(said(opening).rpartition("kept as ")[2]).is_file()


def test_nothing_is_told_by_work_that_was_stopped(qtbot, window) -> None:
    news: list[object] = []

    def endless(report: Callable[[str, float | None], None]) -> None:
        while True:
            report("on", None)  # faster than a window can hear

    stop = work_beside(
        window, endless, told=lambda *t: news.append(t), done=news.append, failed=news.append, name="test"
    )
    qtbot.waitUntil(lambda: bool(news))
    stop()
    count = len(news)
    qtbot.wait(150)
    assert len(news) == count
