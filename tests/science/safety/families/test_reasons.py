"""Every condition with its whole reason: what is said, with which figures, and where it is silent."""

from __future__ import annotations

from dryhouse.science.messages import MessageKind as Why
from dryhouse.science.messages import message
from dryhouse.science.safety.facts import BatchFacts, FoodFacts, LotFacts, MealFacts
from dryhouse.science.safety.families import drying, identity, packing, precook, serving, storage, undried
from dryhouse.science.safety.rules import Rule
from dryhouse.science.statuses import Severity

BEEF, CORN, EGG = FoodFacts("beef", "meat"), FoodFacts("corn", "vegetable"), FoodFacts("egg powder", "egg")
APPLE, STRANGER = FoodFacts("apple", "fruit"), FoodFacts()
BEEF_LOT, CORN_LOT = LotFacts(BEEF), LotFacts(CORN)


def rule(limit: float | None = None, about: str = "animal", **more: float) -> Rule:
    kinds, surfaces = frozenset(about.split()), frozenset({"lot"})
    return Rule("a rule", kinds, surfaces, "", frozenset(), limit, Severity.STOP, "text", "short", "source", **more)


def answers(condition, cases, *, asked: Rule) -> None:
    """Each of the facts with what the condition says of them: the whole message, or None."""
    for number, (facts, wanted) in enumerate(cases):
        assert condition(facts, asked) == wanted, (condition.__name__, number)


def batch(food: FoodFacts = BEEF, **more) -> BatchFacts:
    return BatchFacts(food, **more)


def lot(food: FoodFacts = BEEF, **more) -> LotFacts:
    return LotFacts(food, **more)


def test_how_it_was_dried() -> None:
    """Half a tenth of a degree Fahrenheit, 0.028 °C, and a twentieth of a millimeter are rounding."""
    answers(drying.air_cooler, [
        (batch(), None), (batch(set_temperature_c=60.0), None), (batch(set_temperature_c=59.98), None),
        (batch(set_temperature_c=59.96), message(Why.DRYER_SET_TO, heat=(59.96, "degC"))),
    ], asked=rule(60.0))  # fmt: skip
    answers(drying.thicker, [
        (batch(), None), (batch(thickness_mm=6.39), None),
        (batch(thickness_mm=6.41), message(Why.PIECES_THICK, thick=(6.41, "mm"))),
    ], asked=rule(6.35))  # fmt: skip
    answers(drying.sulfited, [
        (batch(), None), (batch(pretreatment="lemon"), None),
        (batch(pretreatment="SULFUR"), message(Why.SULFITED)),
        (batch(pretreatment="sulphite"), message(Why.SULFITED)),
    ], asked=rule())  # fmt: skip
    stood = {"warm_min": 130.0, "hot_min": 0.0}
    answers(drying.left_moist, [
        (batch(off_dryer=True, dry_enough=False, **stood),
         message(Why.OFF_NOT_DRY, because=message(Why.STOOD_WARM))),
        (batch(off_dryer=True, dry_enough=False, warm_min=100.0, hot_min=0.0), None),
        (batch(off_dryer=True, dry_enough=None, **stood), None),
        (batch(off_dryer=True, dry_enough=True, **stood), None),
        (batch(dry_enough=False, **stood), None),
    ], asked=rule())  # fmt: skip
    answers(drying.left_in_doubt, [
        (batch(off_dryer=True, dry_doubted=True), message(Why.OFF_IN_DOUBT)), (batch(dry_doubted=True), None),
        (batch(off_dryer=True), None), (batch(off_dryer=True, dry_doubted=True, dry_enough=False), None),
    ], asked=rule())  # fmt: skip


def test_what_the_food_is() -> None:
    answers(identity.always, [
        (BEEF, message(Why.IS_OR_HOLDS, food="beef", which="animal, livestock, meat")),
        (FoodFacts(category="egg"), message(Why.IS_OR_HOLDS, food=Why.THIS_FOOD, which="animal")),
    ], asked=rule(about="animal livestock meat"))  # fmt: skip
    answers(identity.always, [(CORN, message(Why.EVERY_FOOD))], asked=rule(about="any"))
    named = rule(about="named_corn low_acid")
    assert identity.always(CORN, named) == message(Why.IS_OR_HOLDS, food="corn", which="low acid")
    pot = FoodFacts("pot", "mixed", parts=(CORN, FoodFacts("thing")))
    answers(identity.ingredients_unknown, [
        (CORN, None), (FoodFacts("pot", "mixed", parts=(CORN,)), None),
        (pot, message(Why.CONTENTS_UNKNOWN, food="pot")),
        (STRANGER, message(Why.CONTENTS_UNKNOWN, food=Why.THIS_FOOD)),
    ], asked=rule())  # fmt: skip


def test_how_it_was_packed() -> None:
    warm, unknown = message(Why.PLACE_AT, at=(4.5, "degC")), message(Why.PLACE_UNKNOWN)
    answers(packing.airless_not_cold, [
        (lot(airless=True), unknown), (lot(airless=True, temperature_c=4.42), None),
        (lot(airless=True, temperature_c=4.5), warm), (lot(airless=True, temperature_c=4.5, bought=True), None),
        (lot(temperature_c=4.5), None), (lot(airless=False, temperature_c=4.5), None),
    ], asked=rule(4.4))  # fmt: skip
    answers(packing.dryness_unknown, [
        (lot(), message(Why.DRYNESS_UNKNOWN)), (lot(bought=True), None), (lot(dry_enough=False), None),
        (lot(dry_enough=True), None), (lot(dry_doubted=True), None),
    ], asked=rule())  # fmt: skip
    answers(packing.dryness_in_doubt, [
        (lot(dry_doubted=True), message(Why.DRYNESS_IN_DOUBT)),
        (lot(dry_doubted=True, airless=False), message(Why.DRYNESS_IN_DOUBT)),
        (lot(dry_doubted=True, airless=True), None), (lot(), None), (lot(dry_doubted=True, bought=True), None),
        (lot(dry_doubted=True, dry_enough=True), None), (lot(dry_doubted=True, moist=False), None),
        (lot(dry_doubted=True, moist=False, ever_moist=True), message(Why.DRYNESS_IN_DOUBT)),
    ], asked=rule())  # fmt: skip
    answers(packing.not_conditioned, [
        (lot(APPLE), message(Why.NOT_CONDITIONED)), (lot(APPLE, bought=True), None), (lot(CORN), None),
        (lot(APPLE, conditioned_days=9), message(Why.CONDITIONED_SHORT, days=9)),
        (lot(APPLE, conditioned_days=10), None),
    ], asked=rule(10.0))  # fmt: skip
    answers(packing.with_absorber, [
        (lot(package="bag with absorber"), message(Why.WITH_ABSORBER)), (lot(), None), (lot(package="bag"), None),
        (lot(package="bag with absorber", bought=True), None),
    ], asked=rule())  # fmt: skip
    answers(packing.oil_not_cold, [
        (lot(in_oil=True), message(Why.IN_OIL_NOT_COLD, because=unknown)), (lot(), None), (lot(in_oil=False), None),
        (lot(in_oil=True, temperature_c=4.5), message(Why.IN_OIL_NOT_COLD, because=warm)),
        (lot(in_oil=True, temperature_c=4.4), None),
    ], asked=rule(4.4))  # fmt: skip
    answers(packing.oil_cold, [
        (lot(in_oil=True, temperature_c=4.4), message(Why.IN_OIL)), (lot(temperature_c=4.4), None),
        (lot(in_oil=True), None), (lot(in_oil=True, temperature_c=4.5), None),
    ], asked=rule(4.4))  # fmt: skip
    answers(packing.bought, [(lot(bought=True), message(Why.BOUGHT)), (lot(), None)], asked=rule())


def heated(celsius: float | None = 74.0, **more) -> BatchFacts:
    return batch(precook_temperature_c=celsius, **more)


def test_how_it_was_heated_before() -> None:
    answers(precook.missing, [(heated(None), message(Why.NOT_HEATED)), (heated(0.0), None)], asked=rule(73.9))
    answers(precook.below, [
        (heated(None), None), (heated(73.88), None),
        (heated(73.86), message(Why.HEATED_BELOW, reached=(73.86, "degC"), asked=(73.9, "degC"))),
    ], asked=rule(73.9))  # fmt: skip
    no = message(Why.NO_THERMOMETER)
    answers(precook.unmeasured, [
        (heated(73.88), no), (heated(73.88, precook_measured=False), no),
        (heated(73.88, precook_measured=True), None),
        (heated(73.86), None), (heated(None), None), (heated(100.02), no), (heated(100.04), None),
    ], asked=rule(73.9))  # fmt: skip
    answers(precook.implausible, [
        (heated(None), None), (heated(100.02), None),
        (heated(100.04), message(Why.HOTTER_THAN_BOILING, reached=(100.04, "degC"))),
    ], asked=rule(100.0))  # fmt: skip
    answers(precook.method_no_answer, [
        (heated(None, precook_method="in the dryer"), None), (heated(), message(Why.HEATED_HOW_UNKNOWN)),
        (heated(precook_method="in the dryer"), message(Why.HEATED_HOW, how="in the dryer")),
        (heated(precook_method="simmered or steamed"), None), (heated(precook_method="roasted in an oven"), None),
    ], asked=rule())  # fmt: skip
    answers(precook.not_held, [
        (heated(None, precook_held_min=1.0), None), (heated(), message(Why.HELD_UNKNOWN)),
        (heated(precook_held_min=29.9), message(Why.HELD_SHORT, minutes=(29.9, "min"))),
        (heated(precook_held_min=30.0), None),
    ], asked=rule(30.0))  # fmt: skip
    heat = (135.0, "degC")
    answers(precook.finished, [
        (batch(), None), (batch(finish_min=10.0), None),
        (batch(finish_temperature_c=135.0), message(Why.OVEN_AFTERWARDS, heat=heat)),
        (batch(finish_temperature_c=135.0, finish_min=10.0),
         message(Why.OVEN_AFTERWARDS_FOR, heat=heat, minutes=(10.0, "min"))),
    ], asked=rule())  # fmt: skip
    answers(precook.not_cooked, [
        (batch(made_from="cooked"), None), (batch(made_from="canned"), None),
        (batch(), message(Why.MADE_FROM_UNKNOWN)), (batch(made_from="fresh"), message(Why.MADE_FROM, what="fresh")),
    ], asked=rule())  # fmt: skip
    answers(precook.dried_at_home, [
        (batch(), message(Why.DRIED_AT_HOME, food="beef")),
        (batch(STRANGER), message(Why.DRIED_AT_HOME, food=Why.THIS_FOOD)),
    ], asked=rule())  # fmt: skip
    answers(precook.not_identified, [
        (batch(), message(Why.NOT_IDENTIFIED)), (batch(identified="bought"), None),
    ], asked=rule())  # fmt: skip


def soak(minutes: float | None, celsius: float | None) -> MealFacts:
    return MealFacts(soak_minutes=minutes, soak_temperature_c=celsius)


def test_how_it_is_soaked() -> None:
    """Two hours from 4.4 to 60 °C, where time and warmth are known, and where they are not."""
    asked = rule(120.0, over_c=4.4, under_c=60.0)
    at = {c: message(Why.SOAKS, minutes=(120.0, "min"), at=(c, "degC")) for c in (4.45, 20.0, 59.95)}
    for condition, unknown in (
        (serving.soaked_too_long, message(Why.SOAKS_UNKNOWN_WARMTH, minutes=(120.0, "min"))),
        (serving.soaked_too_long_in_heat, None),
    ):
        answers(condition, [
            (soak(None, 20.0), None), (soak(119.9, 20.0), None), (soak(119.9, None), None),
            (soak(120.0, None), unknown),
            (soak(120.0, 20.0), at[20.0]), (soak(120.0, 4.42), None), (soak(120.0, 4.45), at[4.45]),
            (soak(120.0, 59.95), at[59.95]), (soak(120.0, 59.98), None),
        ], asked=asked)  # fmt: skip
    open_ended = rule(120.0)
    answers(serving.soaked_too_long, [
        (soak(120.0, 0.02), None), (soak(120.0, 99.98), None),
        (soak(120.0, 0.05), message(Why.SOAKS, minutes=(120.0, "min"), at=(0.05, "degC"))),
        (soak(120.0, 99.95), message(Why.SOAKS, minutes=(120.0, "min"), at=(99.95, "degC"))),
    ], asked=open_ended)  # fmt: skip
    answers(serving.soak_unknown, [
        (soak(None, 20.0), message(Why.SOAK_TIME_UNKNOWN)), (soak(60.0, None), None),
        (soak(60.1, None), message(Why.SOAK_WARMTH_UNKNOWN)), (soak(60.1, 20.0), None),
    ], asked=rule(60.0))  # fmt: skip


def meal(*parts: FoodFacts | LotFacts, cooking: str | None = "cold soak", **more) -> MealFacts:
    return MealFacts(parts, cooking, **more)


def test_what_is_never_heated() -> None:
    cold, no_pot = message(Why.COLD_SOAK), message(Why.NO_POT)
    shop_beef, shop_egg = lot(bought=True), lot(EGG, bought=True)
    for condition, way, said in (
        (serving.soaked_cold, "cold soak", cold), (serving.eaten_unheated, "no pot", no_pot),
    ):  # fmt: skip
        answers(condition, [
            (meal(BEEF, cooking=way), said), (meal(BEEF_LOT, cooking=way), said),
            (meal(shop_beef, cooking=way), None),
            (meal(shop_egg, cooking=way), said), (meal(CORN, CORN_LOT, cooking=way), None),
            (meal(CORN, BEEF_LOT, cooking=way), said), (meal(BEEF, cooking="short soak"), None), (meal(BEEF), said)
            if way == "cold soak" else (meal(BEEF), None), (meal(cooking=way), None),
        ], asked=rule())  # fmt: skip
    jerky = FoodFacts("jerky", "meat", frozenset({"jerky"}))
    answers(serving.eaten_unheated, [
        (meal(jerky, cooking="no pot"), None), (meal(jerky, BEEF, cooking="no pot"), no_pot),
    ], asked=rule())  # fmt: skip
    for condition, way, said in (
        (serving.bought_soaked_cold, "cold soak", cold), (serving.bought_unheated, "no pot", no_pot),
    ):  # fmt: skip
        answers(condition, [
            (meal(shop_beef, cooking=way), said), (meal(BEEF_LOT, cooking=way), None),
            (meal(BEEF, cooking=way), None),
            (meal(lot(CORN, bought=True), cooking=way), None), (meal(shop_beef, cooking="short soak"), None),
        ], asked=rule())  # fmt: skip
    answers(serving.no_pot, [
        (meal(shop_beef, cooking="no pot"), no_pot), (meal(CORN, cooking="no pot"), None), (meal(shop_beef), None),
    ], asked=rule())  # fmt: skip
    boiled = lot(batch=batch(made_from="canned"))
    answers(serving.soaked_cold_raw, [
        (meal(BEEF_LOT), cold), (meal(BEEF_LOT, cooking="no pot"), no_pot), (meal(BEEF_LOT, cooking=None), None),
        (meal(boiled), None), (meal(boiled, BEEF_LOT), cold), (meal(CORN), None), (meal(lot(batch=batch())), cold),
        (meal(lot(batch=batch(made_from="cooked")), CORN), None),
    ], asked=rule())  # fmt: skip


def test_water_and_height() -> None:
    """914.4 m are 3000 ft."""
    goes_on = message(Why.WATER_GOES_ON)
    assert serving.serving(meal(dry=True), rule()) == goes_on
    answers(serving.water_goes_on, [(meal(), goes_on), (meal(dry=True), None)], asked=rule())
    unknown = message(Why.ALTITUDE_UNKNOWN)
    at = {metres: message(Why.AT_ALTITUDE, up=(metres, "m")) for metres in (914.4, 915.0)}
    answers(serving.high_up, [
        (meal(), unknown), (meal(dry=True), None), (meal(altitude_m=914.4), None),
        (meal(altitude_m=915.0), at[915.0]),
        (meal(altitude_m=915.0, dry=True), None),
    ], asked=rule(914.4))  # fmt: skip
    answers(serving.low_down, [
        (meal(), None), (meal(altitude_m=914.4), at[914.4]), (meal(altitude_m=915.0), None),
        (meal(altitude_m=914.4, dry=True), None),
    ], asked=rule(914.4))  # fmt: skip


def test_where_it_stands_and_what_was_found() -> None:
    for condition, fact, said in (
        (storage.mould, "mould", Why.MOULD_SEEN), (storage.smell, "smell", Why.ODD_SMELL),
        (storage.pasteurised, "pasteurised", Why.TREATED_FOR_INSECTS),
    ):  # fmt: skip
        answers(condition, [(lot(**{fact: True}), message(said)), (lot(**{fact: False}), None), (lot(), None)],
                asked=rule())  # fmt: skip
    answers(storage.unchecked, [
        (lot(), message(Why.NOT_CHECKED)), (lot(checked=False), message(Why.NOT_CHECKED)),
        (lot(checked=True), None),
        (lot(bought=True), None),
    ], asked=rule())  # fmt: skip
    warm = message(Why.PLACE_AT, at=(21.15, "degC"))
    answers(storage.warmer, [(lot(), None), (lot(temperature_c=21.12), None), (lot(temperature_c=21.15), warm)],
            asked=rule(21.1))  # fmt: skip
    answers(storage.not_cold, [
        (lot(), message(Why.PLACE_UNKNOWN)), (lot(bought=True), None), (lot(temperature_c=21.12), None),
        (lot(temperature_c=21.15), warm), (lot(temperature_c=21.15, bought=True), None),
    ], asked=rule(21.1))  # fmt: skip
    answers(storage.opened, [
        (lot(opened=True), message(Why.OPENED)), (lot(opened=True, sealed=False), message(Why.OPENED)),
        (lot(sealed=False), message(Why.NOT_SEALED)), (lot(sealed=True), None), (lot(), None),
    ], asked=rule())  # fmt: skip


def test_what_is_not_dry_and_stood() -> None:
    """Two hours warm or one hot are the limit, and a time nobody knows is past it."""
    whys = {(121.0, 0.0): Why.STOOD_WARM, (90.0, 61.0): Why.STOOD_HOT, (None, 0.0): Why.STOOD_UNKNOWN,
            (0.0, None): Why.STOOD_UNKNOWN}  # fmt: skip
    short = {"warm_min": 120.0, "hot_min": 60.0}
    for (warm, hot), why in whys.items():
        stood, because = {"warm_min": warm, "hot_min": hot}, message(why)
        wet = {"dry_enough": False} | stood
        answers(undried.airless_thrown_out, [
            (lot(airless=True, **wet), message(Why.AIRLESS_NOT_DRY, because=because)), (lot(**wet), None),
            (lot(CORN, airless=True, **wet), message(Why.AIRLESS_NOT_DRY, because=because)),
            (lot(airless=True, **stood), None), (lot(airless=True, dry_enough=True, **stood), None),
        ], asked=rule())  # fmt: skip
        answers(undried.airless_back, [(lot(airless=True, **wet), None)], asked=rule())
        answers(undried.not_dry_thrown_out, [
            (lot(**wet), message(Why.NOT_DRY_AND_STOOD, because=because)), (lot(airless=True, **wet), None),
            (lot(CORN, **wet), None), (lot(**stood), None), (lot(dry_enough=True, **stood), None),
        ], asked=rule())  # fmt: skip
        answers(undried.not_dry_back, [(lot(**wet), None), (lot(CORN, **wet), message(Why.NOT_DRY))], asked=rule())
        answers(undried.moist_thrown_out, [
            (lot(ever_moist=True, **stood), message(Why.FOUND_MOIST_AND_STOOD, because=because)),
            (lot(**stood), None),
            (lot(CORN, ever_moist=True, **stood), None),
            (lot(CORN, airless=True, ever_moist=True, **stood),
             message(Why.FOUND_MOIST_AND_STOOD, because=because)),
        ], asked=rule())  # fmt: skip
        answers(undried.moist_back, [
            (lot(moist=True, **stood), None), (lot(CORN, moist=True, **stood), message(Why.FOUND_MOIST)),
        ], asked=rule())  # fmt: skip
    wet = {"dry_enough": False} | short
    answers(undried.airless_thrown_out, [(lot(airless=True, **wet), None)], asked=rule())
    answers(undried.airless_back, [
        (lot(airless=True, **wet), message(Why.AIRLESS_NOT_DRY_YET)), (lot(**wet), None),
        (lot(airless=True, **short), None),
    ], asked=rule())  # fmt: skip
    answers(undried.not_dry_thrown_out, [(lot(**wet), None)], asked=rule())
    answers(undried.not_dry_back, [
        (lot(**wet), message(Why.NOT_DRY)), (lot(airless=True, **wet), None), (lot(**short), None),
        (lot(dry_enough=True, **short), None),
    ], asked=rule())  # fmt: skip
    answers(undried.moist_back, [
        (lot(moist=True, **short), message(Why.FOUND_MOIST)), (lot(moist=False, **short), None),
        (lot(**short), None),
    ], asked=rule())  # fmt: skip
    answers(undried.airless_unknown, [
        (lot(airless=True), message(Why.AIRLESS_NOTHING_SHOWN)), (lot(), None),
        (lot(airless=True, dry_enough=False), None),
        (lot(airless=True, dry_doubted=True), None), (lot(airless=True, moist=False), None),
        (lot(airless=True, moist=False, ever_moist=True), message(Why.AIRLESS_NOTHING_SHOWN)),
    ], asked=rule())  # fmt: skip
    answers(undried.airless_in_doubt, [
        (lot(airless=True, dry_doubted=True), message(Why.AIRLESS_IN_DOUBT)), (lot(dry_doubted=True), None),
        (lot(airless=True), None),
    ], asked=rule())  # fmt: skip
