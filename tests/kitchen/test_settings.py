"""How this person likes numbers shown."""

import pytest

from dryhouse.kitchen.settings import preference, set_preference, style
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem
from tests.builders import a_kitchen


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
