"""What was typed and what is held say the same."""

from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.typed_problems import typed_problems
from dryhouse.science.quantities import Duration, Length, Mass, Temperature
from dryhouse.words.messages import problem_sentence
from tests.kitchen.records.judging import NOW
from tests.rows import every_row


@every_row(
    "mass",
    [
        Mass(907.18474, "2 lb"),
        Mass(1500.0, "1,5 kg"),
        Mass(1500.0, "1.5 kg"),
        Mass(9.0),
        Mass(9.0, "7"),
        Mass(9.0, "a bit"),
    ],
)
def test_a_value_agrees_with_its_words_or_the_words_say_no_amount(mass):
    assert typed_problems(Batch("corn", prepared_mass=mass)) == []


@every_row(
    "change",
    [
        {"prepared_mass": Mass(1000.0, "2 lb")},
        {"set_temperature": Temperature(135.0, "135 F")},
        {"thickness": Length(6.0, "6 in")},
        {"precook_held": Duration(30.0, "30 min")},
    ],
)
def test_a_value_that_is_not_what_was_typed_is_named(change):
    (problem,) = typed_problems(Batch("corn", **change))
    assert problem.field in change
    assert "typed" in problem_sentence(problem)


def test_every_quantity_of_a_record_is_looked_at():
    weighing = Weighing(1, NOW, Mass(500.0, "9 lb"), Mass(300.0, "9 lb"))
    assert [p.field for p in typed_problems(weighing)] == ["gross", "tare"]
