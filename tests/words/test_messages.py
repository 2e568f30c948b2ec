"""A message reads as the person reads: in her units, with the sentence it comes from."""

import pytest

from dryhouse.science.boiling import BoilingTable, boiling_point
from dryhouse.science.chamber import warmed
from dryhouse.science.display import METRIC, Style
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.messages import MessageKind, message
from dryhouse.words.messages import message_words, problem_sentence

TABLE = BoilingTable("a table", "measured", ((0.0, 100.0), (3048.0, 90.0)))


def test_a_limit_is_told_in_the_units_she_reads():
    with pytest.raises(InputProblem) as cold:
        warmed(-40.0, 50.0, 57.0)
    assert problem_sentence(cold.value, Style(METRIC)) == "A kitchen is between −20 °C and 60 °C."
    assert problem_sentence(cold.value, Style()) == "A kitchen is between −4 °F and 140 °F."
    with pytest.raises(InputProblem) as high:
        boiling_point(5000.0, [TABLE])
    assert problem_sentence(high.value, Style(METRIC)).startswith("No boiling point is published above 3048 m;")
    assert problem_sentence(high.value, Style()).startswith("No boiling point is published above 10000 ft;")


def test_a_problem_of_the_file_names_the_fault_it_comes_from():
    damage = message(MessageKind.FILE_DAMAGED, found="page 4 is never used")
    problem = WorldProblem(message(MessageKind.BACKUP_NOT_WHOLE, because=damage, backup="old.dryhouse"))
    assert problem_sentence(problem) == (
        "“old.dryhouse” is not whole (The file is damaged: page 4 is never used.) Nothing was changed."
    )


def test_what_the_kitchen_says_itself_stands_as_it_is():
    assert problem_sentence(InputProblem("Choose a place.", "place")) == "Choose a place."


def test_what_was_typed_may_hold_braces():
    typed = message(MessageKind.NO_UNIT, typed="{5}", wanted="mass")
    assert message_words(typed, Style()).startswith("“{5}” has no unit; write it like 2 lb 3 oz")


@pytest.mark.parametrize("said", ["No food called “{}” is known.", "Unrecognized arguments: --{}."])
def test_what_was_pasted_by_mistake_is_known_by_its_beginning(said):
    told = problem_sentence(InputProblem(said.format("an egg " * 800 if "“" in said else "x" * 5000)))
    assert len(told) < 100
    begin, _, end = said.partition("{}")
    assert told.startswith(begin + ("an egg an egg " if "“" in said else "x" * 50))
    assert told.endswith("…" + (end if "“" in said else ""))
    assert len(problem_sentence(InputProblem(said.format("y" * 190)))) > 190
    path = f"/home/{'long/' * 25}run.csv"
    assert problem_sentence(InputProblem(f"There is no file “{path}”.")) == f"There is no file “{path}”."
