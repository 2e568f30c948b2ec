"""What a batch's record says, as figures a person can follow."""

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryhouse.kitchen.batches.log import BatchDraft, log_batch
from dryhouse.kitchen.cards.batch_card import batch_card, card_lines, draft_card
from dryhouse.kitchen.records import Batch, BatchPart
from dryhouse.science.display import Style
from dryhouse.science.quantities import Mass, Temperature, Volume, parse_mass
from dryhouse.science.statuses import FigureId
from tests.builders import NOW, a_kitchen
from tests.rows import every_row
from tests.workings import read

CORN = Batch(
    "corn",
    prepared_mass=Mass(1000, "1000 g"),
    dried_mass=Mass(260, "260 g"),
    started=NOW - timedelta(hours=10),
    ended=NOW,
    felt="brittle",
)
TURKEY = Batch("turkey", prepared_mass=Mass(1000, "1000 g"), dried_mass=Mass(370, "370 g"))


def card(batch, *parts):
    return draft_card(a_kitchen(), BatchDraft(batch, parts))


def test_the_card_while_typing_is_the_card_once_recorded():
    kitchen = a_kitchen()
    before = draft_card(kitchen, BatchDraft(CORN))
    assert batch_card(kitchen, log_batch(kitchen, BatchDraft(CORN)).record.id) == before


def test_every_figure_has_a_unit_a_basis_and_workings():
    for title, figure in ((f.caption, f.figure) for f in card(CORN).figures):
        assert figure.unit, title
        assert figure.basis, title
        assert figure.workings, title


def test_the_figures_of_a_dry_batch():
    made = card(CORN)
    assert made.verdict.name == "dry enough"
    assert made.figure(FigureId.YIELD_BY_WEIGHT).value == pytest.approx(26.0)
    now, aim = made.figure(FigureId.MOISTURE_NOW), made.figure(FigureId.TARGET_WEIGHT)
    assert now.low < 100 * (1 - 239.5 / 260) < now.high
    assert aim.low < 239.5 / 0.9 < aim.high
    assert 260 * (1 - now.value / 100) == pytest.approx(aim.value * 0.9), "one dry matter in both"
    assert made.figure(FigureId.WATER_BACK).value == pytest.approx(260 * 2.21), "dried corn, cooked"
    assert made.figure(FigureId.KEEPS) is not None


def test_a_batch_that_is_not_dry_enough_has_no_keep_by_and_says_why():
    made = card(replace(CORN, dried_mass=Mass(500)))
    assert made.verdict.name == "still moist"
    assert made.figure(FigureId.KEEPS) is None
    assert any("No keep-by" in s for s in made.sentences)


def test_weights_that_do_not_add_up_are_recorded_and_explained():
    made = card(replace(CORN, dried_mass=Mass(120)))
    assert made.verdict.name == "weights don't add up"
    assert "above 88 % moisture" in made.judgement(Style())
    assert made.figure(FigureId.MOISTURE_NOW) is None


def test_food_that_came_out_lighter_than_usual_has_a_moisture_above_nought_and_inside_its_interval():
    made = card(replace(CORN, dried_mass=Mass(230)))
    assert made.verdict.name == "dry enough"
    now = made.figure(FigureId.MOISTURE_NOW)
    assert 0 < now.low <= now.value < now.high


def test_what_is_missing_is_named_and_no_figure_is_made_up():
    made = card(Batch("corn", dried_mass=Mass(200)))
    assert made.figures == ()
    assert made.verdict.name == "unknown"
    assert made.missing == ("Enter what was loaded to see the target weight and the yield.",)


def test_masses_answer_in_the_unit_they_were_weighed_in():
    made = card(replace(CORN, prepared_mass=Mass(992.2, "2 lb 3 oz"), dried_mass=Mass(240, "8.5 oz")))
    assert made.figure(FigureId.TARGET_WEIGHT).unit == "oz"


def test_measured_volumes_give_a_yield_by_measure_and_water_per_cup():
    cup = 236.588
    made = card(replace(CORN, prepared_volume=Volume(6 * cup), dried_volume=Volume(2.4 * cup)))
    by_measure = made.figure(FigureId.YIELD_BY_MEASURE)
    assert (by_measure.value, by_measure.unit) == (pytest.approx(40), "%")
    assert [(basis.kind, basis.n) for basis in by_measure.basis] == [("own", 1)]
    assert "For each cup of dried" in read(made.figure(FigureId.WATER_BACK).workings)


def test_water_for_each_cup_is_the_water_shared_out_by_measure():
    cup = 236.588
    plain, measured = (card(replace(CORN, **more)) for more in ({}, {"dried_volume": Volume(2.0 * cup)}))
    water = measured.figure(FigureId.WATER_BACK)
    assert water.value == plain.figure(FigureId.WATER_BACK).value
    assert water.workings[:-1] == plain.figure(FigureId.WATER_BACK).workings
    assert water.workings[-1].result.value == pytest.approx(water.value / 2.0)


@every_row(
    ("more", "said"),
    [
        ({}, ["It dried for 10 h from start to end."]),
        ({"energy_kwh": 3.5}, ["It dried for 10 h from start to end.", "It took 3.5 kWh."]),
        ({"energy_kwh": 1.2345}, ["It dried for 10 h from start to end.", "It took 1.23 kWh."]),
        ({"energy_kwh": 3.5, "started": None}, []),
        (
            {"started": None, "drained_fat": Mass(30)},
            ["1.1 oz of fat and liquid were drained off before it was loaded."],
        ),
        (
            {"started": None, "drained_fat": Mass(30), "drained_liquid": Mass(270)},
            ["10.6 oz of fat and liquid were drained off before it was loaded."],
        ),
        (
            {"ended": None, "drained_liquid": Mass(270)},
            ["9.5 oz of fat and liquid were drained off before it was loaded."],
        ),
    ],
)
def test_how_it_dried_is_told_as_far_as_it_is_recorded(more, said):
    assert list(card(replace(CORN, **more)).times) == said


@every_row(
    ("fresh", "dried", "unit"),
    [
        ("1 kg", "260 g", "g"),
        ("1 kg", "", "kg"),
        ("2 lb", "", "lb"),
        ("2 lb", "9 oz", "oz"),
        ("1 kg", "9 oz", "oz"),
    ],
)
def test_the_weight_to_dry_to_is_told_in_the_unit_weighed_last(fresh, dried, unit):
    batch = replace(
        CORN,
        prepared_mass=parse_mass(fresh),
        dried_mass=parse_mass(dried) if dried else None,
        start_moisture_pct=80.0,
    )
    assert card(batch).figure(FigureId.TARGET_WEIGHT).unit == unit


def test_of_what_must_not_be_eaten_the_servings_are_told_without_water_or_energy():
    served = replace(TURKEY, servings=4)
    heated = replace(
        served,
        precook_method="simmered or steamed",
        precook_measured="thermometer",
        precook_temperature=Temperature(76),
    )
    forbidden, allowed = (" ".join(card(batch).sentences) for batch in (served, heated))
    assert "each: " in forbidden
    assert "water" not in forbidden
    assert "water" in allowed
    assert card(served).figure(FigureId.WATER_BACK) is None
    assert card(heated).figure(FigureId.WATER_BACK) is not None


def test_a_mix_adds_up_its_solids_whatever_it_cooked_down_to():
    parts = (BatchPart(1, 0, "corn", Mass(1000)), BatchPart(1, 1, "turkey", Mass(500)))
    made = card(replace(CORN, prepared_mass=Mass(1200), dried_mass=Mass(460), target_moisture_pct=10), *parts)
    solids = 1000 * 0.2395 + 500 * 0.34
    now = made.figure(FigureId.MOISTURE_NOW)
    assert now.low < 100 * (1 - solids / 460) < now.high
    assert any(c.severity == "stop" for c in made.cautions), "turkey inside carries the stop of poultry"


def test_her_own_starting_moisture_counts_and_says_so():
    made = card(replace(CORN, start_moisture_pct=80.0, felt=""))
    aim = made.figure(FigureId.TARGET_WEIGHT)
    assert aim.low < 200 / 0.9 < aim.high
    assert any(b.kind == "entered" for b in aim.basis)
    tested = card(replace(CORN, start_moisture_pct=80.0, start_moisture_tested=True))
    assert tested.figure(FigureId.TARGET_WEIGHT).value == pytest.approx(200 / 0.9)
    assert tested.verdict.name == "still moist"


def test_without_a_hand_test_a_batch_that_is_probably_dry_has_no_keep_by_and_says_what_is_missing():
    doubted = card(replace(CORN, dried_mass=Mass(250), felt=""))
    assert (doubted.verdict.name, doubted.figure(FigureId.KEEPS)) == ("probably dry", None)
    assert any("how a cooled piece feels" in s for s in doubted.sentences)
    assert card(replace(CORN, dried_mass=Mass(266))).verdict.name == "probably dry"
    assert card(replace(CORN, dried_mass=Mass(266))).figure(FigureId.KEEPS) is not None
    sticky = card(replace(CORN, dried_mass=Mass(250), felt="sticky"))
    assert (sticky.verdict.name, sticky.figure(FigureId.KEEPS)) == ("still moist", None)


@given(
    heated=st.one_of(st.none(), st.floats(20, 73)),
    measured=st.sampled_from(["", "thermometer", "not measured"]),
    dried=st.floats(341, 600),
)
def test_poultry_without_a_measured_165_f_shows_a_stop_on_the_card_and_on_every_figure(heated, measured, dried):
    batch = replace(
        TURKEY,
        dried_mass=Mass(dried),
        precook_temperature=Temperature(heated) if heated is not None else None,
        precook_measured=measured,
    )
    made = card(batch)
    assert any(c.severity == "stop" for c in made.cautions)
    for title, figure in ((f.caption, f.figure) for f in made.figures):
        assert any(c.severity == "stop" for c in figure.cautions), title


@pytest.mark.parametrize(("loaded", "dried"), [(500.0, 0.0), (0.0, 9.0)])
def test_a_weight_of_nothing_brought_in_from_a_file_makes_no_figures(loaded, dried):
    card = batch_card(a_kitchen(Batch("corn", prepared_mass=Mass(loaded), dried_mass=Mass(dried), id=1)), 1)
    assert card.figure(FigureId.YIELD_BY_WEIGHT) is None
    assert card.figure(FigureId.MOISTURE_NOW) is None


def test_how_long_it_dried_is_said_in_hours():
    (said,) = [sentence for sentence in card(CORN).times if "dried for" in sentence]
    assert "10 h" in said
    assert not any("dried for" in s for s in card(replace(CORN, ended=None, started=None)).times)


def test_the_whole_card_in_lines():
    tested = replace(
        CORN, title="first ears", dried_mass=Mass(270, "270 g"), target_moisture_pct=12.0,
        start_moisture_pct=76.0, start_moisture_tested=True, energy_kwh=1.5,
        prepared_volume=Volume(1000), dried_volume=Volume(300),
    )  # fmt: skip
    made = card(tested)
    # 240 g of dry matter: 30 g of water are 11.1 % of 270 g; dry at 240 g ÷ 0.88; dried corn takes up 2.21 g/g
    assert (made.title, made.missing) == ("first ears", ())
    assert card_lines(made, Style("metric")) == [
        "Yield by weight: 27 %; Yield by measure: 30 %",
        "Moisture now: 11.1 %; Target weight: 273 g",
        "Water to bring it back: 600 ml",
        "Dry enough by weight and brittle to the hand: 11 % moisture, target 12 %.",
        "It reached your own target, not the drier one that is published: no keep-by is given.",
        "It dried for 10 h from start to end.",
        "It took 1.5 kWh.",
    ]
    figures = {f.id: (f.figure.value, f.figure.unit) for f in made.figures}
    assert figures == {
        FigureId.MOISTURE_NOW: (pytest.approx(100 * 30 / 270), "%"),
        FigureId.WATER_BACK: (pytest.approx(270 * 2.21), "ml"),
        FigureId.YIELD_BY_WEIGHT: (27.0, "%"),
        FigureId.YIELD_BY_MEASURE: (30.0, "%"),
        FigureId.TARGET_WEIGHT: (pytest.approx(240 / 0.88), "g"),
    }
    by_weight = made.figure(FigureId.YIELD_BY_WEIGHT)
    assert {t.name: t.value for t in by_weight.workings[0].terms} == {
        "dried": 270, "loaded": 1000, "ratio": pytest.approx(1000 / 270),
    }  # fmt: skip
    assert [(basis.kind, basis.n) for basis in by_weight.basis] == [("own", 1)]


def test_of_what_must_not_be_eaten_only_weights_that_do_not_add_up_are_told_beside_it():
    sound, wrong = card(TURKEY), card(replace(TURKEY, dried_mass=Mass(200)))
    assert sound.sentences == ()
    (said,) = wrong.sentences
    assert said.startswith("Weights don't add up")
    for made in (sound, wrong):
        assert made.judgement(Style()).startswith("Do not eat.")


def test_a_gram_of_herbs_has_its_water_and_its_keep_by():
    made = card(replace(CORN, prepared_mass=Mass(4.0), dried_mass=Mass(0.98)))
    assert made.figure(FigureId.WATER_BACK).value == pytest.approx(0.98 * 2.21)
    assert made.figure(FigureId.YIELD_BY_WEIGHT).value == pytest.approx(24.5)
