"""How a command ends where the answer cannot be written, and what it says of words and files it cannot use."""

from __future__ import annotations

import errno
import io
import json
import os
import sys
from pathlib import Path

import pytest

from dryhouse import cli
from dryhouse.cli import main
from dryhouse.cli.verbs import files


@pytest.fixture
def journal(tmp_path: Path) -> list[str]:
    mine = ["--journal", str(tmp_path / "mine.dryhouse")]
    assert main([*mine, "log", "--food", "corn", "--fresh", "2 lb", "--dried", "8 oz"]) == 0
    return mine


def refused(capsys, *words: str) -> tuple[int, str]:
    capsys.readouterr()
    code = main(list(words))
    out = capsys.readouterr()
    assert not out.out
    assert len(out.err.splitlines()) == 1
    return code, out.err.rstrip("\n")


def test_a_file_that_cannot_be_used_is_named_with_the_reason(capsys, monkeypatch) -> None:
    def stumble(number: int, name: str | None):
        def desk(_options: object) -> int:
            raise OSError(number, os.strerror(number), name)

        return desk

    monkeypatch.setattr(cli, "_desk", stumble(errno.EACCES, "/a/file"))
    assert refused(capsys) == (1, "“/a/file” cannot be used (Permission denied).")
    monkeypatch.setattr(cli, "_desk", stumble(errno.ENAMETOOLONG, "x" * 79))
    assert refused(capsys) == (2, f"“{'x' * 79}” cannot be used (File name too long).")
    monkeypatch.setattr(cli, "_desk", stumble(errno.ENAMETOOLONG, "x" * 80))
    assert refused(capsys) == (2, f"“{'x' * 80}…” cannot be used (File name too long).")
    monkeypatch.setattr(cli, "_desk", stumble(errno.EPIPE, None))
    with pytest.raises(BrokenPipeError):
        main([])


def test_a_command_that_is_stopped_ends_as_a_shell_expects(monkeypatch) -> None:
    def stop(_options: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(cli, "_desk", stop)
    assert main([]) == 130


def test_a_word_that_is_no_text_is_refused(capsys) -> None:
    code, said = refused(capsys, "cautions", "c\udcff\udcffrn")
    assert (code, said) == (2, "“c??rn” is not text that can be read here; write it in UTF-8.")


@pytest.mark.parametrize(
    ("problem", "code", "told"),
    [
        (None, 0, ""),
        (BrokenPipeError(), 0, ""),
        (OSError(errno.ENOSPC, "No space left on device"), 1, "The answer could not be written out (No space left"),
    ],
)
def test_an_answer_nobody_reads_is_no_fault_and_one_that_cannot_be_written_is_said(
    problem, code, told, monkeypatch
) -> None:
    def answer() -> int:
        if problem is not None:
            raise problem
        return 0

    quiet: list[bool] = []
    said = io.StringIO()
    monkeypatch.setattr(cli, "main", answer)
    monkeypatch.setattr(cli, "_write_no_more", lambda: quiet.append(True))
    monkeypatch.setattr(sys, "stdout", io.StringIO())
    monkeypatch.setattr(sys, "stderr", said)
    with pytest.raises(SystemExit) as ended:
        cli.run()
    assert ended.value.code == code
    assert bool(quiet) is (problem is not None)
    assert said.getvalue().startswith(told)
    assert bool(said.getvalue()) is bool(told)


def test_a_stream_takes_any_letter_and_one_that_is_closed_takes_everything_nowhere() -> None:
    raw = io.BytesIO()
    stream = cli._any_text(io.TextIOWrapper(raw, encoding="ascii"))
    stream.write("½ cup")
    stream.flush()
    assert raw.getvalue() == b"? cup"
    with cli._any_text(None) as nowhere:
        assert nowhere.write("½") == 1
    own = io.StringIO()
    assert cli._any_text(own) is own


def test_what_still_waits_to_be_written_goes_nowhere(tmp_path, monkeypatch) -> None:
    with (tmp_path / "answer.txt").open("w", encoding="utf-8") as file:
        monkeypatch.setattr(sys, "stdout", file)
        cli._write_no_more()
        file.write("half an answer")
    assert (tmp_path / "answer.txt").read_text(encoding="utf-8") == ""


def test_an_import_says_how_far_it_is_to_a_person_and_not_to_a_file(monkeypatch) -> None:
    class Screen(io.StringIO):
        def isatty(self) -> bool:
            return True

    screen, file = Screen(), io.StringIO()
    monkeypatch.setattr(sys, "stderr", screen)
    tell = files._progress()
    tell(0.254)
    tell(1.0)
    assert screen.getvalue() == "\rReading: 25% \r\r\r"
    monkeypatch.setattr(sys, "stderr", file)
    files._progress()(0.5)
    assert file.getvalue() == ""


def test_what_is_due_is_said_once_in_words_and_in_json(capsys, journal) -> None:
    capsys.readouterr()
    assert main([*journal, "watch", "--once"]) == 0
    assert capsys.readouterr().out == "Nothing is due: nothing is on a dryer.\n"
    assert main([*journal, "watch", "--once", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["items"] == []
    assert main(["--sample", "watch", "--once"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert main(["--sample", "watch", "--once", "--json"]) == 0
    items = json.loads(capsys.readouterr().out)["items"]
    assert len(items) == len(lines) > 0
    for item, line in zip(items, lines, strict=True):
        assert set(item) == {"batch", "kind", "after", "sentence", "at"}
        assert line.endswith(f"  {item['sentence']}")


def test_hours_of_quiet_that_are_none_are_refused_before_anything_is_watched(capsys) -> None:
    code, _ = refused(capsys, "watch", "--once", "--quiet", "late")
    assert code == 2


def test_batches_are_counted_from_one(capsys, journal) -> None:
    assert refused(capsys, *journal, "batches", "--newest", "-1") == (2, "--newest counts batches, such as 20.")
    assert main([*journal, "batches", "--newest", "0"]) == 0
    assert "sweet corn" in capsys.readouterr().out


def test_a_list_without_rows_says_why(capsys, journal) -> None:
    for words, said in (
        (["batches", "zebra"], "No batch has these words."),
        (["batches", "--state", "planned"], "There is no planned batch."),
        (["batches", "zebra", "--state", "planned"], "No planned batch has these words."),
    ):
        capsys.readouterr()
        assert main([*journal, *words]) == 0
        assert capsys.readouterr().out == f"{said}\n"


def test_the_water_of_a_jar_goes_by_its_own_batch_and_another_food_is_refused(capsys, journal) -> None:
    assert main([*journal, "pack", "1"]) == 0
    code, said = refused(capsys, *journal, "water", "carrot", "--dried", "1 oz", "--lot", "1")
    assert (code, said) == (2, "Lot 1 holds another food: give the name of what is in it, such as corn.")
    ml = {}
    for lot in ([], ["--lot", "1"]):
        capsys.readouterr()
        assert main([*journal, "water", "corn", "--dried", "1 oz", "--json", *lot]) == 0
        ml[len(lot)] = json.loads(capsys.readouterr().out)
    assert any(basis["kind"] == "own" for basis in ml[2]["basis"])


def test_the_cautions_of_one_thing_are_asked_for(capsys, journal) -> None:
    told = "Name one food, or one batch with --batch, or one lot with --lot."
    assert refused(capsys, *journal, "cautions") == (2, told)
    assert refused(capsys, *journal, "cautions", "corn", "--batch", "1") == (2, told)
    capsys.readouterr()
    assert main([*journal, "cautions", "--batch", "1", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert (found["batch"], found["food"], found["value"]) == (1, "corn", len(found["cautions"]))
    assert len(found["workings"]) == found["value"] > 0
    assert main([*journal, "cautions", "--batch", "1"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "Batch 1, sweet corn"
    assert len(lines) == 1 + 2 * found["value"]


def test_published_cups_stand_beside_the_water_with_their_sources(capsys, journal) -> None:
    capsys.readouterr()
    assert main([*journal, "water", "corn", "--dried", "1/4 cup"]) == 0
    out = capsys.readouterr().out
    assert "\n  published: ½ cup   [University of Georgia Extension Bulletin 989" in out
    assert main([*journal, "water", "corn", "--dried", "1/4 cup", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)["published"]
    assert [row["unit"] for row in found] == ["ml"] * len(found)
    assert found[0]["value"] == pytest.approx(0.25 * 2.25 * 236.588, rel=1e-4)


def test_a_target_that_is_reached_already_is_said_in_words_and_in_json(capsys, journal) -> None:
    capsys.readouterr()
    said = {}
    for moisture in ("10", "76"):
        assert main([*journal, "target", "corn", "--fresh", "2 lb", "--moisture", moisture, "--json"]) == 0
        said[moisture] = json.loads(capsys.readouterr().out)["sentence"]
    assert said["10"] is None
    assert "as dry as its target already" in said["76"]
    assert main([*journal, "target", "corn", "--fresh", "2 lb", "--moisture", "76"]) == 0
    assert said["76"] in capsys.readouterr().out
