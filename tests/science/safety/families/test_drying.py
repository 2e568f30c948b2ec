"""The dryer's air, the thickness of the pieces, sulfite."""

from dryhouse.handbook.safety_table import rules_by_id
from dryhouse.science.safety.facts import BatchFacts, FoodFacts
from dryhouse.science.safety.families import drying as family
from dryhouse.science.units import to_celsius
from tests.rows import every_row
from tests.told import worded

air_cooler = worded(family.air_cooler)
sulfited = worded(family.sulfited)
thicker = worded(family.thicker)

RULES = rules_by_id()
BEEF = FoodFacts("beef", "meat")


@every_row(("fahrenheit", "speaks"), [(125, True), (139, True), (140, False), (160, False)])
def test_the_air_is_140_for_meat(fahrenheit, speaks):
    batch = BatchFacts(BEEF, set_temperature_c=to_celsius(fahrenheit))
    assert bool(air_cooler(batch, RULES["dryer-too-cool"])) is speaks


def test_an_unrecorded_setting_is_not_called_cool():
    assert air_cooler(BatchFacts(BEEF), RULES["dryer-too-cool"]) == ""


@every_row(("mm", "speaks"), [(None, False), (6.0, False), (6.35, False), (6.5, True), (12.0, True)])
def test_strips_are_a_quarter_inch_at_most(mm, speaks):
    assert bool(thicker(BatchFacts(BEEF, thickness_mm=mm), RULES["strips-too-thick"])) is speaks


@every_row("named", ["sulfited", "Sodium Sulphite dip", "sulfured 3 h", "metabisulfite"])
def test_every_spelling_of_sulfite_is_heard(named):
    assert sulfited(BatchFacts(BEEF, pretreatment=named), RULES["sulfite"])


@every_row("named", [None, "", "blanched", "lemon juice"])
def test_other_pretreatments_are_not_sulfite(named):
    assert not sulfited(BatchFacts(BEEF, pretreatment=named), RULES["sulfite"])
