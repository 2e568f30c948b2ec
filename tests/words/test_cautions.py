"""Why a caution is said, in words."""

from dryhouse.handbook.safety_table import safety_rules
from dryhouse.science.messages import MessageKind, message
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts, evaluate
from dryhouse.science.values import Caution
from dryhouse.words.cautions import cautions_json, reason_words
from tests.rows import every_row


def reason(facts, rule):
    return next(reason_words(c) for c in evaluate(facts, safety_rules()) if c.rule == rule)


TURKEY = FoodFacts("turkey", "poultry", frozenset({"poultry", "animal"}))


@every_row(
    ("facts", "rule", "why"),
    [
        (BatchFacts(TURKEY), "heat-poultry-missing", "no temperature reached before drying is recorded"),
        (
            BatchFacts(TURKEY, precook_temperature_c=71.0),
            "heat-poultry-below",
            "the recorded temperature is 159.8 °F (71 °C), below 165 °F (73.9 °C)",
        ),
        (BatchFacts(TURKEY, precook_temperature_c=75.0), "heat-method", "how the food was heated is not recorded"),
        (LotFacts(TURKEY, mould=True), "mould-seen", "mold was seen"),
    ],
)
def test_a_stop_says_what_on_record_it_rests_on(facts, rule, why):
    assert why in reason(facts, rule)


def test_several_reasons_stand_beside_each_other_each_once():
    dried = message(MessageKind.DRIED_AT_HOME, food=MessageKind.THIS_FOOD)
    smell = message(MessageKind.ODD_SMELL)
    caution = Caution("stop", "Throw it out.", "a source", reasons=(dried, smell, dried, "the kitchen's own"))
    assert reason_words(caution) == "this food dried at home; an odd smell was noted; the kitchen's own"


def test_what_is_written_has_the_reason_as_a_person_reads_it():
    soaks = message(MessageKind.SOAKS, minutes=(90.0, "min"), at=(20.0, "degC"))
    (written,) = cautions_json([Caution("warn", "Soak it cold.", "a source", "soak", (soaks,), "pot")])
    assert written["reason"] == "it soaks for 90 min at 68 °F (20 °C)"
    assert (written["severity"], written["rule"], written["moment"]) == ("warn", "soak", "pot")


def test_a_height_is_said_in_feet_and_in_meters():
    high = Caution("note", "…", "s", reasons=(message(MessageKind.AT_ALTITUDE, up=(2438.4, "m")),))
    assert reason_words(high) == "at 8000 ft (2438 m)"
