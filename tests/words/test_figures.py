"""A figure as every command answers with it."""

from dryhouse.science.display import METRIC, US, Style
from dryhouse.science.values import Basis, Caution, Figure, Measure
from dryhouse.science.workings import StepKind, step
from dryhouse.words.figures import figure_json, moisture_json
from tests.rows import every_row

STOP = Caution("stop", "stop", "a source")


def test_the_json_keys_are_the_same_for_every_figure():
    figure = Figure(1, "g", 0.5, 2, Measure(1, "cup"), (Basis("own", "", 3),), (step(StepKind.NO_SPREAD),), (STOP,))
    answer = figure_json(figure, Style())
    assert list(answer) == ["value", "low", "high", "unit", "measure", "basis", "workings", "cautions"]
    assert answer["basis"] == [{"kind": "own", "n": 3, "source": ""}]
    assert answer["cautions"] == [
        {"severity": "stop", "text": "stop", "source": "a source", "rule": "", "reason": "", "moment": "always"}
    ]
    assert (answer["value"], answer["low"], answer["high"], answer["unit"]) == (1, 0.5, 2, "g")
    assert answer["measure"] == {"value": 1, "low": None, "high": None, "unit": "cup"}
    bare = figure_json(Figure(1, "g"), Style())
    assert (bare["low"], bare["measure"]) == (None, None)
    moisture = Figure(12.0, "%", 8.0, 15.0)
    assert moisture_json(moisture) == {"value": 12.0, "low": 8.0, "high": 15.0, "unit": "%"}
    assert moisture_json(None) is None


@every_row(
    ("unit", "system", "line"),
    [
        ("oz", METRIC, "Target mass = 5.6 oz ÷ (1 − 20 %) = 7 oz"),
        ("g", US, "Target mass = 158.8 g ÷ (1 − 20 %) = 198.4 g"),
        ("%", US, "Target mass = 5.6 oz ÷ (1 − 20 %) = 7 oz"),
        ("%", METRIC, "Target mass = 158.8 g ÷ (1 − 20 %) = 198.4 g"),
        ("mg", US, "Target mass = 5.6 oz ÷ (1 − 20 %) = 7 oz"),
    ],
)
def test_the_workings_end_in_the_unit_of_the_answer(unit, system, line):
    dry, wet = 158.757329, 198.446662
    made = step(StepKind.TARGET_MASS, (wet, "g"), solids=(dry, "g"), target=(20.0, "%"))
    assert figure_json(Figure(1.0, unit, workings=(made,)), Style(system))["workings"] == [line]
