"""export, import, backup, restore and check, as a script would use them."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path
from shutil import rmtree

import pytest

from dryhouse.cli import main
from dryhouse.journal.backup import back_up
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
    assert run(capsys, "--journal", file, "export", out, "--json")[1] == {
        "file": str(out),
        "records": 2,
        "schema": 2,
    }
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
    assert run(capsys, "--journal", file, "check", "--json")[:2] == (0, {"whole": True, "faults": [], "schema": 2})
    assert run(capsys, "--journal", file, "check")[1]["text"] == "No damage found.\n"


def test_check_says_what_is_wrong(file: Path, capsys) -> None:
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("", id=3))])
    journal.close()
    code, answer, _ = run(capsys, "--journal", file, "check", "--json")
    assert (code, answer) == (
        1,
        {"whole": False, "faults": ["Batch 3: Which food was it? Type its name, such as sweet corn."], "schema": 2},
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


def test_check_mends_where_it_is_asked_to(file: Path, capsys) -> None:
    with closing(sqlite3.connect(file)) as raw:
        raw.execute("DROP INDEX ix_batch_filter")
        raw.commit()
    assert main(["--journal", str(file), "check"]) == 1
    assert f"dryhouse --journal {file} check --repair" in capsys.readouterr().out
    code, answer, _ = run(capsys, "--journal", file, "check", "--repair", "--json")
    assert (code, answer["whole"], answer["faults"]) == (0, True, [])
    assert answer["repaired"][0] == "The index ix_batch_filter was rebuilt."
    assert run(capsys, "--journal", file, "check", "--json")[:2] == (
        0,
        {"whole": True, "faults": [], "schema": 2},
    )


def test_a_damaged_journal_without_a_backup_says_so_and_names_no_folder_that_is_not_there(
    file: Path, tmp_path: Path, capsys
) -> None:
    kept = back_up(file).rename(tmp_path / "kept.dryhouse")
    rmtree(file.parent / "backups")
    ruined = file.read_bytes().replace(b"CREATE TABLE batch (", b"CREATE TABL\xc5 batch (")
    file.write_bytes(ruined)
    for verb in (["batches"], ["check"], ["restore", str(file.with_name("copy.dryhouse"))]):
        if verb[0] == "restore":
            Path(verb[1]).write_bytes(ruined)
        assert main(["--journal", str(file), *verb]) == 1
        said = capsys.readouterr().err
        assert said.count("\n") == 1
        assert "backups" not in said
        assert ("no backup of it" in said) == (verb[0] != "restore")
    assert "is itself damaged; choose another" in said
    assert main(["--journal", str(file), "restore", str(kept)]) == 0
    assert main(["--journal", str(file), "check"]) == 0


def test_a_backup_that_is_no_help_is_not_the_one_that_is_offered(file: Path, capsys) -> None:
    good = back_up(file)
    with closing(sqlite3.connect(file)) as raw:
        raw.execute("UPDATE batch SET prepared_mass_g = 9e999, prepared_mass_typed = '2 lb' WHERE id = 1")
        raw.commit()
    no_help, not_whole = back_up(file), back_up(file)
    with closing(sqlite3.connect(not_whole)) as raw:
        raw.execute("UPDATE batch SET prepared_mass_g = 900 WHERE id = 1")
        raw.execute("DROP INDEX ix_batch_filter")
        raw.commit()
    assert main(["--journal", str(file), "batches"]) == 1
    said = capsys.readouterr().err
    assert f"restore {good}" in said
    assert no_help.name not in said


def test_a_damaged_journal_names_the_command_that_restores_its_newest_backup(file: Path, capsys) -> None:
    made = back_up(file)
    file.write_bytes(b"corn, 2 lb\n" * 900)
    assert main(["--journal", str(file), "batches"]) == 1
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert f"dryhouse --journal {file} restore {made}" in told
    assert main(["--journal", str(file), "restore", str(made)]) == 0
    assert main(["--journal", str(file), "batches"]) == 0


# --- differences, and being stopped -----------------------------------------------------------------------------


@pytest.fixture
def edited(file: Path, tmp_path: Path, capsys) -> Path:
    """An export of the journal with the notes of a batch changed."""
    out = tmp_path / "theirs.json"
    run(capsys, "--journal", file, "export", out)
    content = json.loads(out.read_text(encoding="utf-8"))
    content["records"]["Batch"][0]["notes"] = "crisp"
    out.write_text(json.dumps(content), encoding="utf-8")
    return out


def notes(file: Path) -> list[str]:
    journal = open_journal(file, write=False)
    try:
        return [b.notes for b in journal.where(Batch)]
    finally:
        journal.close()


def test_an_import_lists_what_differs_and_keeps_hers_until_she_says_otherwise(file, edited, capsys) -> None:
    code, answer, _ = run(capsys, "--journal", file, "import", edited)
    assert (code, notes(file)) == (0, ["", ""])
    assert answer["text"].splitlines() == [
        "Nothing new; 1 was there already; 1 record of yours kept, where the file says otherwise",
        "  Batch 1 (corn): “Notes” is empty here and “crisp” there.",
        "To have them as they are there, import again with --take-theirs.",
    ]
    assert "take-theirs" not in run(capsys, "--journal", file, "import", edited, "--keep-mine")[1]["text"]
    code, answer, _ = run(capsys, "--journal", file, "import", edited, "--take-theirs")
    assert "1 record of yours changed to what the file says" in answer["text"]
    assert notes(file) == ["crisp", ""]
    assert run(capsys, "--journal", file, "import", edited, "--json")[1]["same"] == 2


def test_all_differences_are_listed_as_json(file, edited, capsys) -> None:
    answer = run(capsys, "--journal", file, "import", edited, "--json")[1]
    assert (answer["records"], answer["added"], answer["same"]) == (2, 0, 1)
    assert answer["differ"] == ["Batch 1 (corn): “Notes” is empty here and “crisp” there."]


def test_an_import_that_is_stopped_says_so_and_changes_nothing(file, edited, capsys, monkeypatch) -> None:
    def stopped(*_given: object) -> None:
        raise KeyboardInterrupt

    before = file.read_bytes()
    monkeypatch.setattr("dryhouse.kitchen.exchange.take_in", stopped)
    assert run(capsys, "--journal", file, "import", edited) == (
        130,
        {"text": ""},
        "Stopped; nothing was changed.\n",
    )
    assert file.read_bytes() == before


def test_a_file_that_is_refused_half_way_makes_no_journal(file, edited, tmp_path, capsys) -> None:
    edited.write_text(edited.read_text(encoding="utf-8").replace('"apple"', '"moon rock"'), encoding="utf-8")
    code, _, said = run(capsys, "--journal", tmp_path / "new.dryhouse", "import", edited)
    assert code == 2
    assert "moon rock" in said
    assert not list(tmp_path.glob("new*"))


def test_the_schema_is_printed_without_a_journal(tmp_path: Path, capsys) -> None:
    code, answer, _ = run(capsys, "--journal", tmp_path / "no.dryhouse", "export", "--schema")
    assert (code, answer["properties"]["version"]) == (0, {"const": 1})
    code, _, said = run(capsys, "export")
    assert (code, said) == (2, "Name a file or a folder to export to, such as kitchen.json.\n")


@pytest.mark.parametrize("how", ["emptied", "gone", "copied without its log"])
def test_a_journal_that_was_lost_is_not_begun_anew_beside_its_backups(
    file: Path, tmp_path: Path, capsys, how
) -> None:
    made = back_up(file)
    if how == "emptied":
        file.write_bytes(b"")
    elif how == "gone":
        file.unlink()
    else:
        begun = tmp_path / "begun" / "journal.dryhouse"
        journal = open_journal(begun, write=True)
        journal.write([Change(None, Batch("corn", id=1))])
        half = begun.read_bytes()
        journal.close()
        file.write_bytes(half)
    before = file.read_bytes() if file.exists() else None
    logging = ["log", "--food", "corn", "--fresh", "2 lb", "--dried", "8 oz", "--hours", "8"]
    for verb in (["yields", "corn", "--fresh", "2 lb"], ["batches"], logging):
        assert main(["--journal", str(file), *verb]) == 1
        told = capsys.readouterr().err
        assert "there are backups of it" in told
        assert f"restore {made}" in told
    assert (file.read_bytes() if file.exists() else None) == before
    assert main(["--journal", str(file), "restore", str(made)]) == 0
    assert main(["--journal", str(file), "batches"]) == 0


def test_a_journal_whose_file_is_gone_and_not_its_log_is_not_begun_anew(file: Path, tmp_path: Path, capsys) -> None:
    """SQLite would throw the log away with the first entry of a new file."""
    made = back_up(file).rename(tmp_path / "kept.dryhouse")
    rmtree(file.parent / "backups")
    journal = open_journal(file, write=True)
    for number in (3, 4):
        journal.write([Change(None, Batch("pear", id=number))])
    log = file.with_name(file.name + "-wal")
    held = log.read_bytes()
    away = file.rename(tmp_path / "away.dryhouse")
    assert held
    for verb in (["log", "--food", "corn", "--fresh", "2 lb", "--dried", "8 oz"], ["batches"], ["check"]):
        assert main(["--journal", str(file), *verb]) == 1
        assert f"“{log.name}”, which belongs to it" in capsys.readouterr().err
    assert log.read_bytes() == held
    assert not file.exists()
    away.rename(file)
    answer = run(capsys, "--journal", file, "batches", "--json")[1]
    assert [item["food"] for item in answer["items"]] == ["pear", "pear", "apple", "corn"]
    journal.close()
    file.unlink()
    log.write_bytes(held)
    assert main(["--journal", str(file), "restore", str(made)]) == 0
    assert main(["--journal", str(file), "check"]) == 0


def test_a_name_that_is_too_long_is_said_to_be(tmp_path: Path, capsys) -> None:
    for arguments in (
        ["--journal", "j" * 400, "batches"],
        ["j" * 400],
        ["--journal", "j" * 400, "restore", "b" * 400],
    ):
        assert main(arguments) == 2
        told = capsys.readouterr().err
        assert told.count("\n") == 1
        assert "too long" in told or "no journal" in told or "VERB" in told, told


@pytest.fixture
def broken(monkeypatch) -> None:
    """A list that cannot be worked out."""

    def broken(*_given: object, **_named: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("dryhouse.kitchen.cards.batch_list.batch_items", broken)


def test_what_cannot_be_worked_out_of_records_that_cannot_be_right_is_a_sentence(
    file: Path, broken, capsys
) -> None:
    with closing(sqlite3.connect(file)) as raw:
        raw.execute("UPDATE batch SET trays = -2")
        raw.commit()
    assert main(["--journal", str(file), "batches"]) == 1
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "holds records that cannot be right" in told
    assert "dryhouse check" in told


def test_a_mistake_of_ours_on_a_sound_journal_stays_one(file: Path, broken) -> None:
    with pytest.raises(ZeroDivisionError):
        main(["--journal", str(file), "batches"])
