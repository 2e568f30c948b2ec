"""The desk's own options are read without the parser of the verbs, and mean the same."""

from pathlib import Path

import pytest

from dryhouse.cli import DeskOptions, desk_options, main, parser
from dryhouse.science.errors import InputProblem
from tests.rows import every_row


@every_row(
    "given",
    [
        [],
        ["--sample"],
        ["--timings", "--quit-when-ready"],
        ["--journal", "a.dryhouse"],
        ["--timings", "--journal", "b"],
    ],
)
def test_the_quick_way_reads_as_the_parser_does(given):
    quick, slow = desk_options(given), parser().parse_args(given)
    assert quick == DeskOptions(slow.journal, slow.sample, slow.timings, slow.quit_when_ready)


@every_row("given", [["--sample", "--journal", "a"], ["--journal"], ["--bogus"], ["batches"], ["--version"]])
def test_anything_else_is_left_to_the_parser(given):
    assert desk_options(given) is None


@pytest.mark.parametrize("given", [["--sample", "--journal", "a"], ["--journal"], ["--bogus"]])
def test_options_that_make_no_sense_are_one_sentence(given, capsys):
    assert main(given) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "--help" in told


def test_a_file_is_a_path():
    assert desk_options(["--journal", "a b.dryhouse"]).journal == Path("a b.dryhouse")


def test_a_journal_alone_is_opened():
    assert desk_options(["a b.dryhouse"]) == DeskOptions(Path("a b.dryhouse"))
    assert desk_options(["--sample", "a.dryhouse"]) is None
    assert desk_options(["notes.txt"]) is None


def test_only_the_verb_given_is_read_and_the_journal_may_be_called_like_one():
    assert parser(["--journal", "yields", "batches"]).parse_args(["--journal", "yields", "batches"]).words == []
    with pytest.raises(InputProblem, match="choose from"):
        parser(["nosuchverb"]).parse_args(["nosuchverb"])


@pytest.mark.parametrize("typed", ["-18C", "-.5 F"])
def test_a_value_may_begin_with_a_minus(typed):
    given = ["keeps", "apple", "--temp", typed]
    assert parser(given).parse_args(given).temp == typed
