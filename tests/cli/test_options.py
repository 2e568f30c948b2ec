"""The desk's own options are read without the parser of the verbs, and mean the same."""

from pathlib import Path

import pytest

from dryhouse.cli import DeskOptions, desk_options, main, parser
from dryhouse.cli.as_typed import in_order
from dryhouse.cli.parsing import verbs
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


def test_a_journal_alone_is_opened(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("a b.dryhouse").touch()
    assert desk_options(["a b.dryhouse"]) == DeskOptions(Path("a b.dryhouse"))
    assert desk_options(["--sample", "a.dryhouse"]) is None
    assert desk_options(["notes.txt"]) is None


def test_only_the_verb_given_is_read_and_the_journal_may_be_called_like_one():
    assert parser(["--journal", "yields", "batches"]).parse_args(["--journal", "yields", "batches"]).words == []
    with pytest.raises(InputProblem, match="is not something Dryhouse does"):
        parser(["nosuchverb"]).parse_args(["nosuchverb"])


@pytest.mark.parametrize("typed", ["-18C", "-.5 F"])
def test_a_value_may_begin_with_a_minus(typed):
    given = ["keeps", "apple", "--temp", typed]
    assert parser(given).parse_args(given).temp == typed


AS_TYPED = [
    (["shelf", "--sample"], ["--sample", "shelf"]),
    (["--json", "shelf"], ["shelf", "--json"]),
    (["shelf", "--journal", "a b"], ["--journal", "a b", "shelf"]),
    (["yields", "sweet", "corn", "--fresh", "1", "cup"], ["yields", "sweet", "corn", "--fresh", "1 cup"]),
    (["yields", "--fresh", "2", "lb", "3", "oz", "corn"], ["yields", "--fresh", "2 lb 3 oz", "corn"]),
    (["yields", "--fresh", "1", "1/2", "cups", "corn"], ["yields", "--fresh", "1 1/2 cups", "corn"]),
    (["target", "--fresh", "2 lb", "3", "corn"], ["target", "--fresh", "2 lb", "3", "corn"]),
    (["log", "--notes", "--sample"], ["--sample", "log", "--notes"]),
    (["log", "--notes", "as before", "--food", "corn"], ["log", "--notes", "as before", "--food", "corn"]),
    (["log", "--food", "ground", "beef", "--json"], ["log", "--food", "ground beef", "--json"]),
    (["log", "--really-plant", "--trays", "4"], ["log", "--really-plant", "--trays", "4"]),
    (["weigh", "12", "95", "g"], ["weigh", "12", "95", "g"]),
    (["yields", "corn", "--fresh", "6", "ears"], ["yields", "corn", "--fresh", "6 ears"]),
    (["water", "corn", "--dried", "a", "cup", "--json"], ["water", "corn", "--dried", "a cup", "--json"]),
    (["after", "Lake", "--uneaten", "“bean", "chili=2”"], ["after", "Lake", "--uneaten", "bean chili=2"]),
    (["log", "--part", "“corn=8", "oz”"], ["log", "--part", "corn=8 oz"]),
    (["batches", "“corn"], ["batches", "“corn"]),
    (["mine.dryhouse"], ["--journal", "mine.dryhouse"]),
    (["mine.dryhouse", "shelf"], ["--journal", "mine.dryhouse", "shelf"]),
    (["--journal"], ["--journal"]),
    (["yields", "corn", "--fresh"], ["yields", "corn", "--fresh"]),
    (["log", "--notes"], ["log", "--notes"]),
    (["log", "--notes=as", "before"], ["log", "--notes=as", "before"]),
    (["keeps", "apple", "--temp", "60", "F", "jar"], ["keeps", "apple", "--temp", "60 F", "jar"]),
    (["keeps", "apple", "--temp", "-18", "C"], ["keeps", "apple", "--temp", "-18 C"]),
    (["weigh", "12", "--tare", "1", "lb", "860", "g"], ["weigh", "12", "--tare", "1 lb 860 g"]),
    (["weigh", "12", "--tare", "none", "860"], ["weigh", "12", "--tare", "none", "860"]),
    (["plan", "Lake", "--days", "Sat", "Sun"], ["plan", "Lake", "--days", "Sat", "Sun"]),
    (["plan", "--full", "Lake"], ["plan", "--full", "Lake"]),
    (["shelf", "--on=2027-08-22", "x"], ["shelf", "--on=2027-08-22", "x"]),
    (["after", "“Lake", "circuit”", "--json"], ["after", "Lake circuit", "--json"]),
    (["--workings", "--cautions", "target", "corn"], ["target", "corn", "--workings", "--cautions"]),
    ([], []),
]


@every_row("typed, read", AS_TYPED)
def test_words_are_read_in_whatever_order_they_are_typed(typed, read):
    assert in_order(typed, verbs()) == read


@every_row("typed, meant", [("shlef", "shelf"), ("yield", "yields"), ("weight", "weigh"), ("exprot", "export")])
def test_a_mistyped_verb_is_asked_about(typed, meant):
    with pytest.raises(InputProblem, match=f"Did you mean “{meant}”"):
        parser([typed]).parse_args([typed])


def test_every_verb_has_an_example_and_says_what_each_word_is():
    top = parser()
    for name, verb in next(a for a in top._actions if a.metavar == "VERB").choices.items():
        assert f"Example: dryhouse {name}" in verb.format_help()
        assert all(action.help for action in verb._actions), name


@every_row("verb", ["yields", "target", "water", "keeps", "cautions", "log", "batches", "shelf", "backup", "check"])
def test_the_example_of_a_help_answers(verb, tmp_path, capsys):
    mine = tmp_path / "mine.dryhouse"
    main(["--journal", str(mine), "log", "--food", "corn", "--fresh", "2 lb"])
    capsys.readouterr()
    parsers = next(a for a in parser()._actions if a.metavar == "VERB").choices
    example = parsers[verb].epilog.removeprefix("Example: dryhouse ").split()
    assert main(["--journal", str(mine), *example]) == 0, capsys.readouterr().err


@every_row(
    "verb",
    [
        ["shelf"],
        ["batches"],
        ["meal", "soup"],
        ["plan", "trip"],
        ["after", "trip"],
        ["pack", "1"],
        ["weigh", "1", "5 oz"],
        ["watch"],
        ["watch", "--once"],
        ["cautions", "--batch", "1"],
        ["cautions", "--lot", "1"],
        ["water", "corn", "--dried", "1 cup", "--lot", "1"],
    ],
)
def test_a_mistyped_journal_is_not_an_empty_one(verb, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["--journal", "no such.dryhouse", *verb]) == 2
    assert capsys.readouterr().err == "There is no journal at “no such.dryhouse” yet. “dryhouse log” starts one.\n"
    assert not list(tmp_path.iterdir())


@every_row(
    "verb",
    [
        ["yields", "corn", "--fresh", "1 cup"],
        ["target", "corn", "--fresh", "1 lb"],
        ["water", "corn", "--dried", "1 cup"],
        ["keeps", "corn", "--temp", "60F"],
        ["cautions", "corn"],
    ],
)
def test_a_look_up_needs_no_journal(verb, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["--journal", "no such.dryhouse", *verb]) == 0
    assert capsys.readouterr().err == ""
    assert not list(tmp_path.iterdir())


def test_a_file_that_is_not_there_is_not_opened(capsys):
    assert main(["no such.dryhouse"]) == 2
    assert capsys.readouterr().err == "There is no journal at “no such.dryhouse”.\n"
