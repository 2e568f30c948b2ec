"""The engine is total: whatever is known, it answers; what is missing speaks."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from dryhouse.handbook.safety_table import rules_by_id, safety_rules
from dryhouse.science.safety import BatchFacts, FoodFacts, LotFacts, MealFacts, evaluate, rules_that_speak

ANIMALS = ("meat", "poultry", "fish", "egg", "dairy")
CATEGORIES = (*ANIMALS, "vegetable", "fruit", "herb", "mushroom", "legume", "grain", "mixed", "other")
TRAITS = ("ground", "jerky", "game", "raw_bean", "garlic", "cooked_starch", "mushroom", "low_acid", "pork")

maybe = st.none()
single = st.builds(
    FoodFacts, st.just("thing"), st.sampled_from(CATEGORIES), st.frozensets(st.sampled_from(TRAITS), max_size=3)
)
mixes = st.builds(
    lambda parts: FoodFacts("stew", "mixed", frozenset(), tuple(parts)), st.lists(single, min_size=1, max_size=4)
)
foods = st.one_of(single, mixes)
warmth = maybe | st.floats(-30, 60)
yes_no = maybe | st.booleans()
batches = st.builds(
    BatchFacts,
    foods,
    made_from=maybe | st.sampled_from(("fresh", "frozen", "canned", "cooked")),
    pretreatment=maybe | st.sampled_from(("", "sulfited", "blanched")),
    precook_method=maybe | st.sampled_from(("simmered or steamed", "roasted in an oven", "in the dryer", "none")),
    precook_temperature_c=maybe | st.floats(20, 120),
    precook_measured=yes_no,
    precook_held_min=maybe | st.floats(0, 60),
    finish_temperature_c=maybe | st.floats(100, 160),
    identified=maybe | st.just("bought"),
    off_dryer=st.booleans(),
    dry_enough=yes_no,
    warm_min=maybe | st.floats(0, 1440),
    hot_min=maybe | st.floats(0, 1440),
    set_temperature_c=maybe | st.floats(30, 90),
    thickness_mm=maybe | st.floats(1, 30),
)
lots = st.builds(
    lambda batch, **more: LotFacts(batch.food, batch, **more),
    batches,
    package=maybe,
    airless=yes_no,
    sealed=yes_no,
    opened=yes_no,
    dry_enough=yes_no,
    conditioned_days=maybe | st.integers(0, 20),
    pasteurised=yes_no,
    temperature_c=warmth,
    checked=yes_no,
    bought=st.booleans(),
    in_oil=yes_no,
    moist=yes_no,
    ever_moist=st.booleans(),
    warm_min=maybe | st.floats(0, 1440),
    hot_min=maybe | st.floats(0, 1440),
    mould=yes_no,
    smell=yes_no,
)
meals = st.builds(
    MealFacts,
    st.lists(st.one_of(foods, lots), max_size=4).map(tuple),
    cooking=maybe | st.sampled_from(("short soak", "boil and rest", "cold soak")),
    soak_minutes=maybe | st.floats(0, 600),
    soak_temperature_c=warmth,
    altitude_m=maybe | st.floats(0, 5000),
)
anything = st.one_of(foods, batches, lots, meals)


def stops(facts):
    return {r for r in rules_that_speak(facts, safety_rules()) if r.severity == "stop"}


@given(anything)
def test_any_facts_are_answered_gravest_first_each_rule_once(facts):
    answered = evaluate(facts, safety_rules())
    order = [("stop", "warn", "note").index(c.severity) for c in answered]
    assert order == sorted(order)
    assert len({c.rule for c in answered}) == len(answered)
    assert all(c.reasons and c.source and c.text for c in answered)


@given(st.sampled_from(ANIMALS), batches)
def test_every_batch_of_an_animal_food_names_usda_or_an_extension_office(category, batch):
    facts = replace(batch, food=FoodFacts("it", category))
    assert any("USDA" in c.source or "Extension" in c.source for c in evaluate(facts, safety_rules()))


GUIDANCE_F = {"meat": 160, "fish": 160, "poultry": 165}


@given(st.sampled_from(ANIMALS), batches, lots)
def test_without_a_measured_precook_at_or_above_the_guidance_a_stop_is_said_everywhere(category, batch, lot):
    batch = replace(batch, food=FoodFacts("it", category))
    reached = batch.precook_temperature_c
    passed = (
        category in GUIDANCE_F
        and reached is not None
        and GUIDANCE_F[category] - 0.05 <= reached * 1.8 + 32 <= 212.1
        and batch.precook_method in ("simmered or steamed", "roasted in an oven")
        and (category != "fish" or (batch.precook_held_min or 0.0) >= 30.0)
        and batch.precook_measured is True
    )
    if not passed:
        lot = replace(lot, food=batch.food, batch=batch, bought=False)
        for facts in (batch, lot, MealFacts((lot,)), batch.food, MealFacts((batch.food,))):
            assert any(r.id.startswith(("heat-", "fish-held", "egg", "dairy")) for r in stops(facts))


@given(batches, st.data())
def test_a_fact_that_is_added_to_a_batch_removes_only_the_stops_that_name_it(batch, data):
    _only_named_answers(batch, data)


@given(lots, st.data())
def test_a_fact_that_is_added_to_a_lot_removes_only_the_stops_that_name_it(lot, data):
    _only_named_answers(lot, data)


@given(meals, st.data())
def test_a_fact_that_is_added_to_a_meal_removes_only_the_stops_that_name_it(meal, data):
    _only_named_answers(meal, data)


ADDED = {
    "made_from": st.sampled_from(("fresh", "frozen", "canned", "cooked")),
    "pretreatment": st.just("sulfited"),
    "precook_method": st.just("simmered or steamed"),
    "precook_temperature_c": st.floats(20, 120),
    "precook_held_min": st.floats(0, 60),
    "finish_temperature_c": st.floats(100, 160),
    "finish_min": st.floats(1, 30),
    "identified": st.just("bought"),
    "warm_min": st.floats(0, 1440),
    "hot_min": st.floats(0, 1440),
    "set_temperature_c": st.floats(30, 90),
    "thickness_mm": st.floats(1, 30),
    "package": st.just("jar"),
    "conditioned_days": st.integers(0, 20),
    "temperature_c": st.floats(-30, 60),
    "cooking": st.sampled_from(("short soak", "cold soak")),
    "soak_minutes": st.floats(0, 600),
    "soak_temperature_c": st.floats(-5, 99),
    "altitude_m": st.floats(0, 5000),
}


def _only_named_answers(facts, data):
    missing = [
        name for name in type(facts).__dataclass_fields__ if name != "batch" and getattr(facts, name) is None
    ]
    if not missing:
        return
    name = data.draw(st.sampled_from(missing))
    more = replace(facts, **{name: data.draw(ADDED.get(name, st.booleans()))})
    gone = stops(facts) - stops(more)
    assert all(name in rule.answered_by for rule in gone), (name, gone)


@given(mixes, single)
def test_a_mix_has_the_union_of_its_ingredients(mix, another):
    def heat(food):
        return {r.id for r in stops(BatchFacts(food)) if r.id.startswith("heat-")}

    more = replace(mix, parts=(*mix.parts, another))
    assert heat(more) >= heat(mix) | heat(another)


@settings(max_examples=20)
@given(st.sampled_from((None, "mixed", "other")))
def test_a_food_of_unknown_ingredients_is_asked_about(category):
    assert "ingredients-unknown" in {r.id for r in stops(FoodFacts("chili", category))}
    named = FoodFacts("chili", category, parts=(FoodFacts("beans", "legume"),))
    assert "ingredients-unknown" not in {r.id for r in stops(named)}


def test_an_unmeasured_temperature_is_not_at_or_above_the_guidance():
    turkey = FoodFacts("turkey", "poultry")
    known = BatchFacts(turkey, precook_method="simmered or steamed", precook_temperature_c=90.0)
    assert {r.id for r in stops(known)} == {"heat-poultry-unmeasured"}
    assert {r.id for r in stops(replace(known, precook_measured=False))} == {"heat-poultry-unmeasured"}
    assert not stops(replace(known, precook_measured=True))


def test_what_is_hot_enough_for_beef_is_not_for_turkey_or_game():
    at_162 = {
        "precook_method": "roasted in an oven",
        "precook_temperature_c": (162 - 32) / 1.8,
        "precook_measured": True,
    }
    assert not stops(BatchFacts(FoodFacts("beef", "meat"), **at_162))
    assert {r.id for r in stops(BatchFacts(FoodFacts("turkey", "poultry"), **at_162))} == {"heat-poultry-below"}
    deer = FoodFacts("venison", "meat", frozenset({"game"}))
    assert {r.id for r in stops(BatchFacts(deer, **at_162))} == {"heat-game-below"}


def test_soaking_two_hours_is_a_limit_unless_it_is_kept_cold_or_hot():
    for celsius, stopped in ((None, True), (20.0, True), (4.0, False), (61.0, False)):
        meal = MealFacts((), "short soak", soak_minutes=121.0, soak_temperature_c=celsius)
        assert ("soak-two-hours" in {r.id for r in stops(meal)}) is stopped
    hot = MealFacts((), "short soak", soak_minutes=61.0, soak_temperature_c=33.0)
    assert {r.id for r in stops(hot)} == {"soak-one-hour-hot"}


def test_a_bought_lot_is_not_asked_how_it_was_heated():
    bought = LotFacts(FoodFacts("jerky", "meat"), bought=True)
    spoken = rules_that_speak(bought, safety_rules())
    assert rules_by_id()["bought-animal"] in spoken
    assert not [r for r in spoken if r.id.startswith("heat-meat")]
