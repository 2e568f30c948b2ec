"""Batches, their weighings and events: yields near the mass balance, with the scatter and gaps of real notes."""

from __future__ import annotations

import math
from datetime import datetime, timedelta, timezone
from random import Random
from typing import Any

from make_habits import HABIT, HABITS, POTS, Habit, water_pct
from make_room import BOX_DRYER, SHELF_DRYER

from dryhouse.science.units import SIZES

LOCAL = timezone(timedelta(hours=-5))
WATTS = {SHELF_DRYER: 500, BOX_DRYER: 1000}
TRAYS = {SHELF_DRYER: 6, BOX_DRYER: 10}
TRAY_TARE_G = {SHELF_DRYER: 342, BOX_DRYER: 518}

POT_SERVINGS = 6
"""What a pot of the galley makes, eaten or dried whole."""

_FEELS = (("brittle", 11.0), ("leathery", 18.0), ("pliable", 25.0))
"""What a piece feels like below a moisture, % wet basis."""
_NOTES = (
    "Even colour, leathery then crisp.",
    "Outer trays ahead; swapped twice.",
    "A few thick pieces taken out late.",
    "Windows shut all night, muggy.",
    "Cut a little thinner than last time.",
    "Batch for the August circuit.",
    "Snapped cleanly when cool.",
    "Two trays held fewer pieces.",
    "Some browning at the edges.",
    "Nice one. Same again.",
)


def batches(chance: Random) -> dict[str, list[dict[str, Any]]]:
    """The tables batch, batch_part, weighing and batch_event."""
    made = [_batch(chance, habit, start, dryer) for habit, start, dryer in _calendar(chance)]
    made += _running()
    lines: dict[str, list[dict[str, Any]]] = {"batch": [], "batch_part": [], "weighing": [], "batch_event": []}
    for number, (batch, truth) in enumerate(made, 1):
        lines["batch"].append(batch)
        for position, (food, share) in enumerate(POTS.get(batch["food"], ())):
            part = {
                "batch": number,
                "position": position,
                "food": food,
                "mass": pounds(truth["prepared_g"] * share)[0],
            }
            lines["batch_part"].append(part)
        if number % 3 == 1 or batch["state"] == "drying":
            lines["weighing"] += _weighings(chance, number, batch, truth)
        lines["batch_event"] += _events(chance, number, batch, truth)
    _break_a_piece(lines["batch"], [truth for _, truth in made])
    _spoil(lines)
    for batch in lines["batch"]:
        if batch["food"] in POTS:
            batch["servings"] = POT_SERVINGS
    lines["batch"] += _planned()
    return lines


def _calendar(chance: Random) -> list[tuple[Habit, datetime, int]]:
    """Who dries what when: never two loads in one dryer, none while the club is on the water."""
    wishes = []
    for habit in HABITS:
        for turn in range(habit.times):
            year = 2025 + (turn % 2)
            day = datetime(year, chance.choice(habit.months), chance.randint(1, 27), tzinfo=LOCAL)
            wishes.append(
                (
                    day + timedelta(hours=chance.choice((8, 9, 17, 18, 19, 20)), minutes=5 * chance.randrange(12)),
                    habit,
                )
            )
    free = {SHELF_DRYER: datetime(2025, 1, 1, tzinfo=LOCAL), BOX_DRYER: datetime(2025, 1, 1, tzinfo=LOCAL)}
    away = datetime(2026, 8, 21, tzinfo=LOCAL), datetime(2026, 9, 1, tzinfo=LOCAL)
    planned = []
    for wish, habit in sorted(wishes, key=lambda w: w[0]):
        start = wish
        if away[0] <= start < away[1]:
            start += away[1] - away[0]
        likes = BOX_DRYER if habit.pounds[1] >= 4.5 else SHELF_DRYER
        dryer = min(free, key=lambda d: (max(free[d] - start, timedelta()), d != likes))
        while start < free[dryer]:
            start += timedelta(hours=12)
        free[dryer] = start + timedelta(hours=habit.hours * 1.5 + 1)
        planned.append((habit, start, dryer))
    return planned


def pounds(grams: float) -> tuple[str, float]:
    """As written from a kitchen scale: pounds and whole ounces, or ounces to a tenth where small."""
    ounces = grams / SIZES["oz"]
    if ounces < 16:
        text = f"{ounces:.1f} oz"
        return text, round(ounces, 1) * SIZES["oz"]
    whole = round(ounces)
    lb, oz = divmod(whole, 16)
    return (f"{lb} lb {oz} oz" if oz else f"{lb} lb"), whole * SIZES["oz"]


def _cups(chance: Random, grams: float, habit: Habit, state: str) -> str:
    cup = habit.cup_g[state]
    if cup is None:
        return ""
    quarters = max(1, round(grams / cup * chance.lognormvariate(0, 0.07) * 4))
    whole, rest = divmod(quarters, 4)
    return f"{whole or ''}{('', ' 1/4', ' 1/2', ' 3/4')[rest]}".strip() + (" cups" if quarters > 4 else " cup")


def _batch(chance: Random, habit: Habit, start: datetime, dryer: int) -> tuple[dict[str, Any], dict[str, float]]:
    most = habit.per_tray_lb * TRAYS[dryer] * (1.5 if dryer == BOX_DRYER else 1.0)
    prepared_text, prepared = pounds(min(chance.uniform(*habit.pounds), most) * SIZES["lb"])
    solids = (1 - water_pct(habit.food) / 100) * chance.lognormvariate(0, 0.045)
    final = chance.uniform(*habit.final_pct)
    dried_text, dried = pounds(prepared * solids / (1 - final / 100) * chance.uniform(0.965, 0.998))
    hours = habit.hours * chance.lognormvariate(0, 0.13)
    trays = min(
        TRAYS[dryer],
        max(1, math.ceil(prepared / SIZES["lb"] / (habit.per_tray_lb * (1.5 if dryer == BOX_DRYER else 1)))),
    )
    end = start + timedelta(minutes=5 * round(hours * 12))
    summer = start.month in (6, 7, 8)
    batch: dict[str, Any] = {
        "food": habit.food,
        "state": "finished",
        "form": habit.form,
        "thickness": habit.thickness,
        "made_from": habit.made_from,
        "prepared_mass": prepared_text,
        "pretreatment": habit.pretreatment,
        "dryer": dryer,
        "trays": trays,
        "set_temperature": f"{habit.heat_f} F",
        "started": start.isoformat(timespec="minutes"),
        "ended": end.isoformat(timespec="minutes"),
        "dried_mass": dried_text,
    }
    _sometimes(chance, batch, habit, prepared, dried, hours, summer)
    if habit.category == "mushroom":
        batch["identified"] = "bought"
    if habit.precook:
        batch |= _cooked(chance, habit, prepared)
    truth = {
        "prepared_g": prepared, "solids_g": prepared * solids, "dried_g": dried, "hours": hours, "final_pct": final,
    }  # fmt: skip
    return batch, truth


def _sometimes(
    chance: Random, batch: dict[str, Any], habit: Habit, prepared: float, dried: float, hours: float, summer: bool
) -> None:
    """What is noted on a good day and forgotten on another."""
    if habit.made_from == "fresh" and habit.refuse_pct is not None and chance.random() < 0.5:
        batch["purchased_mass"] = pounds(prepared / (1 - habit.refuse_pct / 100) * chance.uniform(0.98, 1.06))[0]
    if chance.random() < 0.6:
        batch["prepared_volume"] = _cups(chance, prepared, habit, "fresh")
        batch["dried_volume"] = _cups(chance, dried, habit, "dried")
    if chance.random() < 0.65:
        batch["kitchen_temperature"] = f"{round(chance.gauss(77 if summer else 68, 3))} F"
        batch["kitchen_humidity_pct"] = round(min(85, max(25, chance.gauss(58 if summer else 42, 7))))
    if chance.random() < 0.4:
        batch["energy_kwh"] = round(WATTS[batch["dryer"]] / 1000 * hours * chance.uniform(0.5, 0.7), 1)
    if chance.random() < 0.6:
        batch["rating"] = chance.choice((2, 3, 3, 4, 4, 4, 5, 5))
    if chance.random() < 0.3:
        batch["notes"] = chance.choice(_NOTES)


def _cooked(chance: Random, habit: Habit, prepared: float) -> dict[str, Any]:
    record: dict[str, Any] = {"precook_method": habit.precook}
    if habit.precook_f is not None:
        record["precook_temperature"] = f"{habit.precook_f + chance.choice((-1, 0, 0, 1, 2))} F"
        record["precook_measured"] = "thermometer"
    if habit.food.startswith("ground"):
        record["cooked_mass_in"] = pounds(prepared / chance.uniform(0.68, 0.76))[0]
        record["cooked_mass_out"] = pounds(prepared)[0]
        record["drained_fat"] = pounds(prepared * chance.uniform(0.06, 0.11))[0]
    return record


def _break_a_piece(batches: list[dict[str, Any]], truths: list[dict[str, float]]) -> None:
    """How a cooled piece felt: written down for most loads. Its own run of chance leaves the rest as it was."""
    chance = Random(len(batches))
    for batch, truth in zip(batches, truths, strict=True):
        wrote_it_down, moisture = chance.random() < 0.88, truth.get("final_pct", 0.0) + chance.gauss(0, 1.2)
        if batch["state"] == "finished" and wrote_it_down:
            batch["felt"] = next(feel for feel, below in _FEELS if moisture < below)


def left_g(truth: dict[str, float], hours: float) -> float:
    """What is on the trays after some hours: a steady loss first, then a slowing one that ends as recorded."""
    start, end = truth["prepared_g"] / truth["solids_g"] - 1, truth["dried_g"] / truth["solids_g"] - 1
    settled = max(0.0, end * 0.6)
    bend, goal = 0.72, (end - settled) / (start - settled)
    rate = (1 - bend + bend * math.log(bend / goal)) / truth["hours"]
    turn = (1 - bend) / rate
    ratio = 1 - rate * hours if hours <= turn else bend * math.exp(-(hours - turn) * rate / bend)
    return truth["solids_g"] * (1 + settled + (start - settled) * ratio)


def _weighings(chance: Random, number: int, batch: dict[str, Any], truth: dict[str, float]) -> list[dict[str, Any]]:
    start = datetime.fromisoformat(batch["started"])
    running = batch["state"] == "drying"
    sample = chance.random() < 0.5
    share = chance.uniform(0.94, 1.06) / batch["trays"] if sample else 1.0
    tare = TRAY_TARE_G[batch["dryer"]] if sample else None
    grams = chance.random() < 0.7
    count = 6 if running else chance.randint(6, 14)
    last = truth.get("so_far", truth["hours"])
    lines = []
    for step in range(count):
        hours = last * (step / (count - 1)) ** 1.15
        if 0 < step < count - 1:
            hours = min(last, max(0.1, hours + chance.gauss(0, 0.12)))
        net = left_g(truth, hours) * share * (1 + chance.gauss(0, 0.002)) + (tare or 0)
        line = {
            "batch": number,
            "at": (start + timedelta(minutes=round(hours * 60))).isoformat(timespec="minutes"),
            "gross": f"{net:.0f} g" if grams else f"{net / SIZES['oz']:.1f} oz",
            "tare": f"{tare} g" if tare else "",
            "scope": "sample" if sample else "load",
        }
        if chance.random() < 0.25:
            degrees = int(batch["set_temperature"].split()[0]) + chance.choice((-4, -3, -2, 0, 1, 2))
            line["dryer_temperature"] = f"{degrees} F"
        lines.append(line)
    return sorted(lines, key=lambda line: line["at"])


def _events(chance: Random, number: int, batch: dict[str, Any], truth: dict[str, float]) -> list[dict[str, Any]]:
    start = datetime.fromisoformat(batch["started"])

    def line(hours: float, kind: str, **more: str) -> dict[str, Any]:
        at = (start + timedelta(minutes=round(hours * 60))).isoformat(timespec="minutes")
        return {"batch": number, "at": at, "kind": kind, **more}

    found, last = [], truth.get("so_far", truth["hours"])
    if chance.random() < 0.4:
        found.append(line(last * chance.uniform(0.35, 0.55), "trays turned"))
    if chance.random() < 0.1:
        found.append(
            line(last * 0.2, "temperature changed", temperature="145 F", note="warmer for the first hours")
        )
        found.append(line(last * 0.45, "temperature changed", temperature=batch["set_temperature"]))
    if batch["state"] == "finished" and chance.random() < 0.35:
        found.append(line(last, "taken off"))
    return found


def _running() -> list[tuple[dict[str, Any], dict[str, float]]]:
    """Two loads in the dryers on the last night of the notes."""
    made = []
    for habit, start, dryer, weight, so_far in (
        (
            HABIT["apple"],
            datetime(2026, 11, 24, 20, 10, tzinfo=LOCAL),
            BOX_DRYER,
            6.25,
            6.2,
        ),
        (
            HABIT["mushroom"],
            datetime(2026, 11, 25, 0, 15, tzinfo=LOCAL),
            SHELF_DRYER,
            3.1,
            3.0,
        ),
    ):
        prepared_text, prepared = pounds(weight * SIZES["lb"])
        solids = prepared * (1 - water_pct(habit.food) / 100)
        final = sum(habit.final_pct) / 200
        batch = {
            "food": habit.food,
            "state": "drying",
            "form": habit.form,
            "thickness": habit.thickness,
            "made_from": "fresh",
            "prepared_mass": prepared_text,
            "pretreatment": habit.pretreatment,
            "dryer": dryer,
            "trays": TRAYS[dryer] if habit.food == "mushroom" else 6,
            "set_temperature": f"{habit.heat_f} F",
            "started": start.isoformat(timespec="minutes"),
            "kitchen_temperature": "66 F",
            "kitchen_humidity_pct": 41,
        }
        truth = {
            "prepared_g": prepared,
            "solids_g": solids,
            "dried_g": solids / (1 - final),
            "hours": habit.hours * 1.05,
        }
        made.append((batch, truth | {"so_far": so_far}))
    return made


def _planned() -> list[dict[str, Any]]:
    """Two loads meant for the next circuit."""
    plan = {"state": "planned", "dryer": BOX_DRYER, "made_from": "fresh", "trip": 2}
    return [
        plan | {"food": "corn", "form": "kernels", "prepared_mass": "6 lb", "started": "2027-07-24T09:00-05:00"},
        plan | {"food": "red-pepper", "form": "dice", "prepared_mass": "4 lb", "started": "2027-08-01T09:00-05:00"},
    ]


def _spoil(lines: dict[str, list[dict[str, Any]]]) -> None:
    """The gaps and slips of real notes."""
    named: dict[str, list[int]] = {}
    for number, batch in enumerate(lines["batch"], 1):
        if batch["state"] == "finished":
            named.setdefault(batch["food"], []).append(number)
    weighed = {line["batch"] for line in lines["weighing"]}

    def change(number: int, **values: Any) -> None:
        lines["batch"][number - 1].update(values)

    slip = next(n for n in named["zucchini"] if n not in weighed)
    change(
        slip,
        prepared_mass="4 lb 6 oz",
        dried_mass="2.3 oz",
        dried_volume="",
        prepared_volume="",
        notes="Weighed in the big bowl?",
    )
    unsure = named["ground-turkey"][1]
    change(
        unsure,
        precook_method="",
        precook_temperature="",
        precook_measured="",
        cooked_mass_in="",
        cooked_mass_out="",
        drained_fat="",
        made_from="fresh",
        notes="Nobody wrote down how this was cooked.",
    )
    change(named["ground-beef"][2], precook_temperature="", precook_measured="not measured")
    change(named["corn"][0], title="First ears of the year", rating=5)
    change(named["tomato"][-1], title="Last of the garden")
    for number in (named["carrot"][2], named["apple"][3], named["blueberry"][1], named["celery"][0]):
        change(number, dried_mass="", dried_volume="")
    for number in (named["parsley"][0], named["onion"][1]):
        change(number, set_temperature="", kitchen_temperature="", kitchen_humidity_pct="")
    change(named["banana"][0], prepared_mass="", prepared_volume="6 cups", dried_volume="1 3/4 cups")
