"""export, import, backup, restore and check, as a script would use them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from dryhouse.cli import main
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "journal.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch(food, id=n)) for n, food in enumerate(("corn", "apple"), 1)])
    journal.close()
    return file


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, dict, str]:
    code = main([str(a) for a in arguments])
    said = capsys.readouterr()
    return code, json.loads(said.out) if said.out.startswith("{") else {"text": said.out}, said.err


def test_export_and_import_carry_everything_over(file: Path, tmp_path: Path, capsys) -> None:
    out = tmp_path / "all.json"
    assert run(capsys, "--journal", file, "export", out, "--json")[1] == {"file": str(out), "records": 2}
    code, answer, _ = run(capsys, "--journal", tmp_path / "new.dryhouse", "import", out, "--json")
    assert (code, answer["records"], answer["added"]) == (0, 2, 2)
    again = run(capsys, "--journal", tmp_path / "new.dryhouse", "import", out, "--json")[1]
    assert again["added"] == 0
    new = open_journal(tmp_path / "new.dryhouse", write=False)
    assert [b.food for b in new.where(Batch)] == ["corn", "apple"]
    new.close()


def test_export_to_a_folder_writes_tables(file: Path, tmp_path: Path, capsys) -> None:
    code, answer, _ = run(capsys, "--journal", file, "export", tmp_path / "tables")
    assert code == 0
    assert "2 records" in answer["text"]
    assert (tmp_path / "tables" / "batch.csv").is_file()


def test_exporting_where_no_journal_is_makes_none(tmp_path: Path, capsys) -> None:
    code, _, said = run(capsys, "--journal", tmp_path / "no.dryhouse", "export", tmp_path / "all.json", "--json")
    assert code == 2
    assert "nothing to export" in said
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("content", ["", "[]", "not json at all"])
def test_a_bad_file_is_one_sentence_and_code_2_and_changes_nothing(
    file: Path, tmp_path: Path, capsys, content: str
) -> None:
    bad = tmp_path / "bad.json"
    bad.write_text(content)
    before = file.read_bytes()
    code, answer, error = run(capsys, "--journal", file, "import", bad)
    assert (code, answer["text"]) == (2, "")
    assert error.strip().endswith(".")
    assert len(error.strip().splitlines()) == 1
    assert file.read_bytes() == before


def test_importing_a_bad_file_makes_no_journal(tmp_path: Path, capsys) -> None:
    code, _, _ = run(capsys, "--journal", tmp_path / "new.dryhouse", "import", tmp_path / "missing.json")
    assert code == 2
    assert not (tmp_path / "new.dryhouse").exists()


def test_backup_and_restore_go_back_to_it(file: Path, tmp_path: Path, capsys) -> None:
    made = run(capsys, "--journal", file, "backup", "--json")[1]["file"]
    journal = open_journal(file, write=True)
    journal.write([Change(Batch("corn", id=1), None)])
    journal.close()
    code, answer, _ = run(capsys, "--journal", file, "restore", made, "--json")
    assert code == 0
    assert Path(answer["former"]).is_file()
    back = open_journal(file, write=False)
    assert [b.food for b in back.where(Batch)] == ["corn", "apple"]
    back.close()


def test_restoring_what_is_no_journal_is_refused(file: Path, tmp_path: Path, capsys) -> None:
    wrong = tmp_path / "list.txt"
    wrong.write_text("corn, apples\n")
    before = file.read_bytes()
    code, _, error = run(capsys, "--journal", file, "restore", wrong)
    assert code == 1
    assert "not a Dryhouse journal" in error
    assert file.read_bytes() == before


def test_check_says_that_a_journal_is_whole(file: Path, capsys) -> None:
    assert run(capsys, "--journal", file, "check", "--json")[:2] == (0, {"whole": True, "faults": []})
    assert run(capsys, "--journal", file, "check")[1]["text"] == "No damage found.\n"


def test_check_says_what_is_wrong(file: Path, capsys) -> None:
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("", id=3))])
    journal.close()
    code, answer, _ = run(capsys, "--journal", file, "check", "--json")
    assert (code, answer) == (
        1,
        {"whole": False, "faults": ["Batch 3: Which food was it? Type its name, such as sweet corn."]},
    )


@pytest.mark.parametrize("verb", [("check",), ("backup",), ("export", "all.json"), ("restore", "none.dryhouse")])
def test_a_file_that_is_not_there_was_named_wrongly(tmp_path: Path, capsys, verb) -> None:
    code, _, said = run(capsys, "--journal", tmp_path / "no.dryhouse", *verb)
    assert code == 2
    assert "There is no" in said
    assert list(tmp_path.iterdir()) == []


def test_a_journal_is_not_restored_from_itself(tmp_path: Path, capsys) -> None:
    file = tmp_path / "mine.dryhouse"
    open_journal(file, write=True).close()
    before = file.read_bytes()
    code, _, said = run(capsys, "--journal", file, "restore", file)
    assert code == 2
    assert "the journal itself" in said
    assert file.read_bytes() == before
