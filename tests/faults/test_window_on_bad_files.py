"""The real window on a damaged, foreign or half-copied file: a sentence, its page, and restoring from there."""

from __future__ import annotations

import shutil
import sqlite3
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from dryhouse.desk import fault_log, faults
from dryhouse.desk.opening import Opening
from dryhouse.desk.theme import Theme
from dryhouse.desk.widgets.found_page import FoundPage
from dryhouse.desk.window import DeskWindow
from dryhouse.house import Journals
from dryhouse.journal.check import check
from dryhouse.journal.sample import build
from dryhouse.science.errors import WorldProblem
from tests.faults.spoiling import WAYS, spoil
from tests.windows import read_for_windows

SPOILS: dict[str, Callable[[Path], object]] = {}


def spoiled(name: str) -> Callable[[Callable[[Path], object]], Callable[[Path], object]]:
    def keep(spoil: Callable[[Path], object]) -> Callable[[Path], object]:
        SPOILS[name] = spoil
        return spoil

    return keep


def sql(file: Path, *statements: str) -> None:
    raw = sqlite3.connect(file)
    for statement in statements:
        raw.execute(statement)
    raw.commit()
    raw.execute("PRAGMA journal_mode = DELETE")
    raw.close()


@spoiled("a bit of the schema")
def _bit(file: Path) -> None:
    raw = bytearray(file.read_bytes())
    raw[raw.index(b"CREATE TABLE batch (") + 9] ^= 0x80
    file.write_bytes(raw)


SPOILS |= {
    "cut short": lambda file: file.write_bytes(file.read_bytes()[:9000]),
    "overwritten": lambda file: file.write_bytes(b"corn, 2 lb\n" * 4000),
    "pages gone": lambda file: file.write_bytes(
        file.read_bytes()[:4096] + b"\xff" * (len(file.read_bytes()) - 4096)
    ),
    "a table gone": lambda file: sql(file, "DROP TABLE weighing"),
    "an index gone": lambda file: sql(file, "DROP INDEX ix_batch_filter"),
    "a planted trigger": lambda file: sql(
        file, "CREATE TRIGGER sly AFTER INSERT ON place BEGIN DELETE FROM weighing; END"
    ),
    "a newer program's": lambda file: sql(file, "UPDATE alembic_version SET version_num = '9420'"),
    "another program's": lambda file: sql(file, "PRAGMA application_id = 7"),
}


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("whole") / "whole.dryhouse"
    build(file)
    return file


@pytest.fixture
def opening(qtbot, qapp, tmp_path, monkeypatch) -> Iterator[Opening]:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    read_for_windows()
    theme = Theme(qapp, "light")
    window = DeskWindow(theme, QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat))
    made = Opening(window, Journals(tmp_path / "journal.dryhouse"))
    window.show()
    yield made
    window.close()
    window.deleteLater()
    theme.deleteLater()
    for _ in range(3):
        qapp.processEvents()
        qapp.sendPostedEvents(None, 52)  # deferred deletions


@pytest.mark.parametrize("how", SPOILS)
def test_a_file_that_cannot_be_used_has_its_page_and_a_backup_brings_it_back(
    opening: Opening, whole: Path, tmp_path: Path, how: str
) -> None:
    file = Path(shutil.copy(whole, tmp_path / "journal.dryhouse"))
    SPOILS[how](file)
    before = file.read_bytes()
    assert not opening.open(opening.journals.own)
    assert opening._page.heading.text() == "Could not open this journal"
    assert str(file) in opening._page.sentence.text()
    assert file.read_bytes() == before
    kept = Path(shutil.copy(whole, tmp_path / "kept.dryhouse"))
    opening.restore(kept)
    assert opening.session is not None
    assert opening.window.here == "journal"
    opening.close()
    assert check(file) == []


def walked(opening: Opening, file: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Open the file in the window, go through every place, and answer our own mistakes."""
    written: list[str] = []
    monkeypatch.setattr(fault_log, "write", written.append)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    faults.watch(opening.window)
    opening.open(lambda: opening.journals.file(file))
    for spec in opening.window.specs:
        for _ in range(3):
            QApplication.processEvents()
        try:
            opening.window.go(spec.id)
        except WorldProblem as problem:
            opening.session.meet(problem)
    if opening.session is not None:
        written += [said.text for said in opening.session.messages.history if said.kind == "fault"]
    return written


@pytest.mark.parametrize("seed", range(len(WAYS), 2 * len(WAYS)))
def test_whatever_is_wrong_with_a_file_every_place_can_be_gone_to(
    opening: Opening, whole: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qtbot, seed: int
) -> None:
    """What no place can be shown with has the page of what the check found."""
    file = Path(shutil.copy(whole, tmp_path / "journal.dryhouse"))
    spoil(file, seed)
    if walked(opening, file, monkeypatch):
        qtbot.waitUntil(lambda: isinstance(opening._page, FoundPage), timeout=30_000)
    opening.close()
    opening.restore(Path(shutil.copy(whole, tmp_path / "kept.dryhouse")))
    assert opening.session is not None
