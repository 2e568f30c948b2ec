"""How this person likes numbers shown."""

import pytest

from dryhouse.kitchen.records import Preference
from dryhouse.kitchen.settings import preference, set_preference, style, style_of
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass, Volume
from tests.builders import a_kitchen
from tests.rows import every_row


def test_us_until_she_chooses_and_the_choice_is_kept_and_undone():
    kitchen = a_kitchen()
    assert style(kitchen) == Style("us")
    set_preference(kitchen, "units", "metric")
    done = set_preference(kitchen, "decimal_comma", "yes")
    assert style(kitchen) == Style("metric", decimal_comma=True)
    kitchen.journal.write(done.undone().changes)
    assert style(kitchen) == Style("metric")
    assert preference(kitchen, "load.corn", "none") == "none"


def test_units_that_do_not_exist_are_refused():
    with pytest.raises(InputProblem):
        set_preference(a_kitchen(), "units", "imperial")


def test_a_setting_that_is_set_again_is_the_same_record_and_told_in_words():
    kitchen = a_kitchen()
    first = set_preference(kitchen, "decimal_comma", "yes")
    set_preference(kitchen, "units", "metric")
    again = set_preference(kitchen, "decimal_comma", "no")
    assert (first.what, again.what) == ("Set decimal comma to yes", "Set decimal comma to no")
    assert (first.record, again.record) == (
        Preference("decimal_comma", "yes", 1),
        Preference("decimal_comma", "no", 1),
    )
    assert (preference(kitchen, "decimal_comma"), preference(kitchen, "units"), preference(kitchen, "x")) == (
        "no",
        "metric",
        "",
    )


@every_row(
    ("amount", "metric"),
    [(Mass(500.0, "500 g"), True), (Mass(500.0, "17.6 oz"), False), (Mass(500.0), None),
     (Volume(500.0, "500 ml"), True), (Volume(500.0, "2 cups"), False)],
)  # fmt: skip
def test_an_amount_is_answered_in_the_system_it_was_typed_in(amount, metric):
    for units in ("us", "metric"):
        kitchen = a_kitchen(Preference("units", units, 1), Preference("decimal_comma", "yes", 2))
        wanted = units if metric is None else "metric" if metric else "us"
        assert style_of(kitchen, amount) == Style(wanted, decimal_comma=True)
