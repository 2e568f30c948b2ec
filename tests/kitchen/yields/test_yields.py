"""The yield of a food as the kitchen knows it: the handbook, her batches, her trays, both directions."""

import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.records import Batch, Dryer, OwnFigure, OwnFood
from dryhouse.kitchen.yields.influences import what_moves
from dryhouse.kitchen.yields.knowledge import learn
from dryhouse.kitchen.yields.yields import DRIED, FRESH, answer, dried_density, dried_from, yield_ratio, yields
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Area, Mass, Temperature, Volume, parse_amount
from dryhouse.science.units import SIZES
from dryhouse.science.workings import StepKind
from dryhouse.words.messages import message_words
from tests.builders import CORN, TURKEY, a_kitchen, fact
from tests.rows import every_row
from tests.workings import read, rests_on

CUP = SIZES["cup"]
START = datetime(2026, 8, 1, 8, 0, tzinfo=UTC)
SHELF = Dryer("shelf dryer", 6, Area(900.0), id=1)


def batch(id: int, prepared: float, dried: float, **more) -> Batch:
    day = START + timedelta(days=id)
    return Batch(
        "corn",
        prepared_mass=Mass(prepared),
        dried_mass=Mass(dried),
        started=day,
        ended=day + timedelta(hours=more.pop("hours", 8)),
        id=id,
        **more,
    )


def steady(n: int, ratio: float = 0.24, **more) -> list[Batch]:
    """n own batches about this ratio, a little apart from each other."""
    return [batch(i + 1, 1000.0, 1000.0 * ratio * math.exp(0.02 * (-1) ** i), **more) for i in range(n)]


def cup_of_corn(*records, **how):
    return yields(a_kitchen(*records), "corn", Volume(CUP, "1 cup"), **how)


def test_with_no_own_batch_the_answer_is_the_handbooks():
    found = cup_of_corn()
    assert found.joined.value == pytest.approx(found.handbook.value)
    assert found.own is None
    assert found.n_own == 0
    assert all(b.kind != "own" for b in found.joined.basis)


def test_own_batches_move_the_answer_to_them_and_many_give_their_mean():
    handbook = cup_of_corn().joined.value
    answers = [cup_of_corn(*steady(n)).joined.value for n in (1, 3, 20, 300)]
    assert handbook > answers[0] > answers[1] > answers[2] > answers[3]
    assert answers[-1] == pytest.approx(145 * 0.24, rel=0.02)
    assert cup_of_corn(*steady(20)).own.value == pytest.approx(145 * 0.24, rel=1e-6)


def test_the_answer_comes_in_mass_and_in_measure_with_eighty_per_cent():
    figure = cup_of_corn().joined
    assert figure.unit == "g"
    assert figure.low < figure.value < figure.high
    assert figure.measure.unit == "cup"
    assert figure.measure.value == pytest.approx(figure.value / 100.0)
    assert figure.measure.low < figure.measure.value < figure.measure.high


@every_row(("typed", "unit"), [("2 lb", "lb"), ("12 oz", "oz"), ("900 g", "g"), ("500 ml", "g")])
def test_a_mass_is_answered_in_the_unit_it_was_typed_in(typed, unit):
    assert yields(a_kitchen(), "corn", parse_amount(typed)).joined.unit == unit


def test_a_measure_is_answered_in_the_same_measure():
    assert yields(a_kitchen(), "corn", parse_amount("3 qt")).joined.measure.unit == "qt"


def test_both_directions_are_one_another_turned_round():
    kitchen = a_kitchen(*steady(4))
    there = yields(kitchen, "corn", Mass(1000.0, "1000 g"), FRESH).joined
    back = yields(kitchen, "corn", Mass(there.value, ""), DRIED)
    assert back.joined.value == pytest.approx(1000.0)
    assert back.joined.low == pytest.approx(1000.0 * there.value / there.high)
    assert back.prepared.value == pytest.approx(1000.0)
    assert back.as_purchased.value == pytest.approx(1000.0 / 0.36)


def test_no_bulk_density_is_said_and_answered_in_mass_only():
    kitchen = a_kitchen()
    found = yields(kitchen, "apple", parse_amount("2 lb"))
    assert found.joined.measure is None
    assert "the answer is a weight" in read(found.joined.workings)
    with pytest.raises(InputProblem, match="cup of fresh apple weighs is not known"):
        yields(kitchen, "apple", parse_amount("2 cups"))
    with pytest.raises(InputProblem, match="cup of dried apple weighs is not known"):
        yields(kitchen, "apple", parse_amount("2 cups"), DRIED)


def test_own_measured_volumes_override_the_handbook():
    own = [replace(b, prepared_volume=Volume(CUP * 1000 / 120), dried_volume=Volume(2 * CUP)) for b in steady(3)]
    knowledge = learn(a_kitchen(*own), CORN)
    assert knowledge.fresh.predictive.value * CUP == pytest.approx(120)
    assert knowledge.fresh.n_own == knowledge.dried.n_own == 3
    assert dried_density(a_kitchen(*own), CORN).value * CUP == pytest.approx(120, rel=0.02)


def test_batches_whose_weights_do_not_add_up_are_left_out_and_counted():
    impossible = [batch(21, 1000.0, 90.0), batch(22, 500.0, 700.0)]
    found = cup_of_corn(*steady(3, ratio=0.27), *impossible)
    assert found.n_own == 3
    assert found.knowledge.left_out == (21, 22)
    assert "Left out: 2" in read(found.joined.workings)
    assert found.joined.value == pytest.approx(cup_of_corn(*steady(3, ratio=0.27)).joined.value)


def test_a_wet_start_entered_for_the_batch_explains_a_light_result():
    light = batch(1, 1000.0, 120.0)
    assert cup_of_corn(light).left_out == 1
    assert cup_of_corn(replace(light, start_moisture_pct=90.0)).left_out == 0


def test_batches_of_the_form_asked_for_count_more_than_others():
    kernels = [replace(b, form="kernels") for b in steady(3, 0.24)]
    creamed = [replace(batch(10 + i, 1000.0, 300.0), form="creamed") for i in range(3)]
    every, asked = (cup_of_corn(*kernels, *creamed, form=f).joined.value for f in ("", "kernels"))
    assert asked < every
    knowledge = learn(a_kitchen(*kernels, *creamed), CORN, "Kernels")
    assert [d.same for d in knowledge.dots] == [True] * 3 + [False] * 3
    assert knowledge.forms == ("creamed", "kernels")
    assert any("another form" in line for line in rests_on(knowledge.joined.basis))


def test_trays_and_loads_come_from_her_own_loads():
    kitchen = a_kitchen(SHELF, *steady(3, dryer=1, trays=4))
    found = yields(kitchen, "corn", Mass(4000.0, "4000 g"))
    (trays,) = found.trays
    assert trays.trays.value == pytest.approx(16.0)
    assert (trays.batches, trays.batches_high) == (3, 3)
    assert "your 3 loads" in read(trays.trays.workings)


def test_without_own_loads_the_handbooks_tray_load_is_used_else_none():
    assert yields(a_kitchen(SHELF), "corn", Mass(4000.0)).trays == ()
    loaded = OwnFigure("corn", "tray_load", 5.0, "kg/m2", id=1)
    (trays,) = yields(a_kitchen(SHELF, loaded), "corn", Mass(900.0)).trays
    assert trays.trays.value == pytest.approx(2.0)


def test_hours_are_her_own_where_she_has_any():
    assert cup_of_corn().hours is None
    few = cup_of_corn(*steady(2, hours=9)).hours
    assert (few.value, few.low) == (pytest.approx(9.0), None)
    many = cup_of_corn(*[batch(i, 1000, 250, hours=7 + i) for i in range(1, 5)]).hours
    assert many.low < many.value < many.high
    assert many.basis[0].n == 4


def test_the_published_hours_stand_in_with_their_range():
    hours = learn(a_kitchen(), replace(CORN, facts={**CORN.facts, "drying_hours": _hours()})).hours
    assert (hours.value, hours.low, hours.high) == (8.0, 6.0, 10.0)


def _hours():
    from dryhouse.science.values import Fact

    return Fact(8.0, "h", "a table", low=6.0, high=10.0)


def test_animal_food_always_carries_its_cautions():
    found = yields(a_kitchen(), "turkey", parse_amount("2 lb"))
    assert any(c.severity == "stop" for c in found.joined.cautions)


def test_a_food_nobody_knows_anything_of_is_refused_with_what_would_help():
    kitchen = a_kitchen(OwnFood("sunchoke", "sunchoke", "vegetable", id=1))
    with pytest.raises(InputProblem, match="enter its water content"):
        yields(kitchen, "sunchoke", parse_amount("2 lb"))


def test_own_batches_alone_answer_for_a_food_the_handbook_lacks():
    own = [replace(b, food="sunchoke") for b in steady(4)]
    found = yields(a_kitchen(OwnFood("sunchoke", "sunchoke", "vegetable", id=1), *own), "sunchoke", Mass(1000.0))
    assert found.handbook is None
    assert found.joined.value == pytest.approx(240.0, rel=0.01)
    assert "your batches alone" in read(found.joined.workings)


def test_her_own_water_content_keeps_the_published_spread():
    entered = OwnFigure("corn", "water", 80.0, "%", id=1)
    wetter = cup_of_corn(entered)
    assert wetter.joined.value < cup_of_corn().joined.value
    assert any(b.kind == "entered" for b in wetter.joined.basis)


def test_the_ratio_stands_by_itself_for_other_reckonings():
    figure = yield_ratio(a_kitchen(), CORN)
    assert figure.low < figure.value < figure.high < 1
    with pytest.raises(InputProblem):
        yield_ratio(a_kitchen(), Food("x", "x", (), "other"))
    assert dried_density(a_kitchen(), TURKEY) is None


def test_answering_reads_nothing(monkeypatch):
    kitchen = a_kitchen(*steady(3))
    knowledge = learn(kitchen, CORN)
    monkeypatch.setattr(kitchen.journal, "yield_pairs", None)
    monkeypatch.setattr(kitchen.journal, "where", None)
    assert answer(knowledge, Mass(100.0), FRESH).n_own == 3


def test_what_moves_it_is_silent_on_too_little_and_speaks_of_cut_heat_and_dryer():
    few = learn(a_kitchen(*steady(4)), CORN)
    assert what_moves(few) == ()
    hot = [replace(b, set_temperature=Temperature(63.0), form="kernels", dryer=1) for b in steady(4, 0.23)]
    mild = [
        replace(batch(10 + i, 1000.0, 290.0 + i), set_temperature=Temperature(52.0), form="kernels", dryer=1)
        for i in range(4)
    ]
    found = what_moves(learn(a_kitchen(SHELF, *hot, *mild), CORN))
    assert [m.what for m in found] == ["temperature"]
    assert {message_words(g.finding).split(" % ")[1] for g in found[0].groups} == {
        "more than the rest",
        "less than the rest",
    }


def test_what_a_planned_load_will_come_to_is_told_from_its_yield():
    kitchen = a_kitchen()
    planned = Batch("corn", "planned", prepared_mass=Mass(1000.0))
    expected = dried_from(kitchen, planned)
    assert expected.value == pytest.approx(yields(kitchen, "corn", Mass(1000.0)).joined.value)
    assert expected.low < expected.value < expected.high
    assert dried_from(kitchen, Batch("corn", "planned")) is None
    assert dried_from(kitchen, Batch("no such food", "planned", prepared_mass=Mass(1000.0))) is None


def test_her_own_water_stands_where_the_printed_one_stood_with_its_sample():
    """The interval is that of a handbook that had printed her figure, with as many samples behind it."""
    sample = {"n": 6, "standard_error": 1.5}
    intervals = []
    for printed, own in (
        (fact(80.0, **sample), ()),
        (fact(76.05, **sample), (OwnFigure("corn", "water", 80.0, "%", id=1),)),
        (fact(76.05, n=60, standard_error=0.1), (OwnFigure("corn", "water", 80.0, "%", id=1),)),
    ):
        kitchen = a_kitchen(*own)
        kitchen.handbook.foods["corn"] = replace(CORN, facts={**CORN.facts, "water": printed})
        figure = yields(kitchen, "corn", Mass(1000.0)).handbook
        intervals.append(figure.high / figure.low)
    assert intervals[1] == pytest.approx(intervals[0])
    assert intervals[2] < intervals[1]


@every_row(
    ("amount", "direction", "kind", "result"),
    [
        (Mass(1000.0), FRESH, StepKind.DRIED_FROM, 240.0),
        (Mass(240.0), DRIED, StepKind.FRESH_FOR, 1000.0),
    ],
)
def test_one_batch_alone_tells_a_weight_without_a_range(amount, direction, kind, result):
    own = yields(a_kitchen(batch(1, 1000.0, 240.0)), "corn", amount, direction).own
    assert (own.value, own.low, own.high) == (pytest.approx(result), None, None)
    (line,) = [line for line in own.workings if line.kind == kind]
    assert {t.name: t.value for t in line.terms} == {
        "start": pytest.approx(amount.si),
        "ratio": pytest.approx(0.24),
    }
    assert (line.result.value, line.result.unit) == (pytest.approx(result), "g")
    both = yields(a_kitchen(batch(1, 1000.0, 240.0)), "corn", amount, direction).joined
    ranged = StepKind.DRIED_FROM_RANGE if direction == FRESH else StepKind.FRESH_FOR_RANGE
    (line,) = [line for line in both.workings if line.kind == ranged]
    told = {t.name: t.value for t in line.terms}
    assert (told["low"], told["high"]) == (pytest.approx(both.low), pytest.approx(both.high))
