"""What was typed and what is held say the same."""

from dryhouse.kitchen.records import Batch, Weighing
from dryhouse.kitchen.records.typed_problems import agrees as agrees_with
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


@every_row(
    ("value", "agrees"),
    [
        # 2 lb 3 oz are 992.2 g, and two in a hundred 19.8 g
        (Mass(1012.0, "2 lb 3 oz"), True),
        (Mass(972.5, "2 lb 3 oz"), True),
        (Mass(1012.1, "2 lb 3 oz"), False),
        (Mass(972.3, "2 lb 3 oz"), False),
        # 100 g, and 2 g
        (Mass(102.0, "100 g"), True),
        (Mass(97.9, "100 g"), False),
        # of a temperature a degree, or two in a hundred where that is more
        (Temperature(5.9, "5 C"), True),
        (Temperature(6.1, "5 C"), False),
        (Temperature(-17.1, "-18 C"), True),
        (Temperature(-16.9, "-18 C"), False),
        (Temperature(81.6, "80 C"), True),
        (Temperature(81.7, "80 C"), False),
        (Temperature(57.2, "135 F"), True),
        # a comma may be either mark: 1.5 kg, or 15 hundred
        (Mass(1500.0, "1,500 g"), True),
        (Mass(1.5, "1,500 g"), True),
        (Mass(150.0, "1,500 g"), False),
        (Duration(1800.0, "30 min"), True),
        (Duration(1800.0, "0.5 h"), True),
        (Length(12.7, "1/2 in"), True),
        (Length(10.0, "1/2 in"), False),
        (Mass(0.0, "0 g"), True),
        (Mass(0.1, "0 g"), False),
        (Mass(1.0, "7 g"), False),
        (Mass(2 / 453.59237, "2 lb"), False),
        (Temperature(-92.78, "135 F"), False),
        (Mass(5.0, "5 C"), True),  # no unit of a weight: nothing can be held against it
    ],
)
def test_what_was_typed_may_have_been_rounded_and_no_more(value, agrees):
    assert agrees_with(value) is agrees
