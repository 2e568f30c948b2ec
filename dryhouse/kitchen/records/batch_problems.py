"""What can be wrong with a batch, an ingredient, a weighing or an event."""

from __future__ import annotations

from datetime import datetime, timedelta

from dryhouse.kitchen.records.around import Around, there
from dryhouse.kitchen.records.batches import BOILING_C, FINISHED, Batch, BatchPart
from dryhouse.kitchen.records.field_problems import short, shown
from dryhouse.kitchen.records.kitchen import Dryer
from dryhouse.kitchen.records.weighings import BatchEvent, Weighing
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Temperature
from dryhouse.science.units import both_scales

LONGEST = timedelta(days=30)
_SLACK = timedelta(days=1)
"""Between the zones of two clocks."""
_ROUNDING_C = 0.06


def batch_problems(batch: Batch, around: Around) -> list[InputProblem]:
    """Of a batch: its food, its masses, its times, its dryer and how it was heated."""
    found = []
    if not batch.food.strip():
        found.append(InputProblem("Which food was it? Type its name, such as sweet corn.", "food"))
    elif not around.food_known(batch.food):
        found.append(unknown_food(batch.food))
    if batch.precook_temperature is not None and (hotter := hotter_than_water(batch.precook_temperature)):
        found.append(InputProblem(hotter, "precook_temperature"))
    return [
        *found,
        *_of_masses(batch),
        *_of_times(batch, around),
        *_of_dryer(batch, around),
        *_of_moisture(batch),
        *_of_curve(batch),
    ]


def unknown_food(slug: str) -> InputProblem:
    """A food nobody knows: neither the handbook nor her own foods."""
    return InputProblem(
        f"No food called “{short(slug)}” is known: check the spelling, or add it as a food of your own.", "food"
    )


def hotter_than_water(temperature: Temperature) -> str:
    """Why this was never the middle of wet food, with what was probably meant; empty where it may have been."""
    if temperature.si <= BOILING_C + _ROUNDING_C:
        return ""
    typed = temperature.typed.strip()
    meant = "Write what a thermometer read in the middle of the food, such as 165 F."
    if not typed.casefold().endswith("f") and (temperature.si - 32) / 1.8 <= BOILING_C:
        meant = f"Did you mean {temperature.si:.0f} F?"
    read = f"“{typed}” is {both_scales(temperature.si)}" if typed else both_scales(temperature.si)
    return f"{read}, and wet food does not get hotter inside than boiling water, 212 °F (100 °C). {meant}"


def _of_masses(batch: Batch) -> list[InputProblem]:
    loaded, dried = batch.prepared_mass or batch.cooked_mass_out, batch.dried_mass
    if loaded is None or dried is None or loaded.si <= 0 or dried.si < loaded.si:
        return []
    return [
        InputProblem(
            f"{shown(dried)} dried is not less than the {shown(loaded)} loaded; drying only takes water away. "
            "Was a jar or tray weighed along, or are the two swapped?",
            "dried_mass",
        )
    ]


def _of_times(batch: Batch, around: Around) -> list[InputProblem]:
    start, end = batch.started, batch.ended
    if start is not None and end is not None:
        if end < start:
            return [InputProblem("The batch ends before it starts; check the two times.", "ended")]
        if end - start > LONGEST:
            return [InputProblem("That is more than 30 days in the dryer; check the two times.", "ended")]
    if batch.state == FINISHED and any(to_come(t, around) for t in (start, end)):
        return [InputProblem("A finished batch cannot lie in the future; check its times.", "started")]
    return []


def to_come(moment: datetime | None, around: Around) -> bool:
    """Whether a moment lies more than a day ahead."""
    return moment is not None and around.now is not None and moment > around.now + _SLACK


def _of_dryer(batch: Batch, around: Around) -> list[InputProblem]:
    if batch.dryer is None:
        return []
    dryer = there(around, Dryer, batch.dryer)
    if dryer is None:
        return [InputProblem("That dryer is no longer here.", "dryer")]
    if batch.trays is not None and batch.trays > dryer.trays:
        return [InputProblem(f"The {dryer.name} has {dryer.trays} trays, not {batch.trays}.", "trays")]
    return []


def _of_moisture(batch: Batch) -> list[InputProblem]:
    start, target = batch.start_moisture_pct, batch.target_moisture_pct
    if tested := _of_test(batch):
        return tested
    if start is None and batch.test_dry is None and batch.start_moisture_tested:
        return [
            InputProblem("Which moisture was tested? Write it as the moisture when loaded.", "start_moisture_pct")
        ]
    if start is None or target is None or target < start:
        return []
    return [InputProblem("The target moisture must lie below the starting moisture.", "target_moisture_pct")]


def _of_test(batch: Batch) -> list[InputProblem]:
    sample, dry = batch.test_sample, batch.test_dry
    if sample is None and dry is None:
        return []
    if sample is None or dry is None:
        missing = "test_sample" if sample is None else "test_dry"
        return [
            InputProblem(
                "A dry-matter test is two weights: of a sample, such as 20 g, and of the same sample once it loses "
                "no more weight in the dryer or oven, such as 1.9 g.",
                missing,
            )
        ]
    if dry.si < sample.si:
        return []
    return [
        InputProblem(
            f"The sample of {shown(sample)} weighed {shown(dry)} when dry; drying only takes water away. Are the "
            "two swapped, or is a dish weighed along?",
            "test_dry",
        )
    ]


def _of_curve(batch: Batch) -> list[InputProblem]:
    """What its weighings taught is one figure with its range, and the mark of those weighings."""
    low, middle, high, mark = batch.curve_low, batch.curve_dry, batch.curve_high, batch.curve_mark
    if (low, middle, high, mark) == (None,) * 4:
        return []
    if low is None or middle is None or high is None or mark is None or not low <= middle <= high:
        said = "The dry matter by its weighings stands between its low and its high, or nowhere."
        return [InputProblem(said, "curve_dry")]
    return []


def part_problems(part: BatchPart, around: Around) -> list[InputProblem]:
    """Of an ingredient: its food is one that is known."""
    return [] if around.food_known(part.food) else [unknown_food(part.food)]


def weighing_problems(weighing: Weighing, around: Around) -> list[InputProblem]:
    """Of a weighing: something is on the scale, and the batch was drying."""
    found = _of_moment(weighing.batch, weighing.at, around)
    if weighing.gross.si <= 0:
        found.append(InputProblem("Enter a weight above 0, such as 412 g.", "gross"))
    elif weighing.tare is not None and weighing.net_g <= 0:
        found.append(
            InputProblem(
                f"The scale reads {shown(weighing.gross)} and the tare is {shown(weighing.tare)}, which leaves "
                "nothing; check the tare or the unit.",
                "gross",
            )
        )
    return found


def event_problems(event: BatchEvent, around: Around) -> list[InputProblem]:
    """Of something that happened to a batch: it happened while there was one."""
    return _of_moment(event.batch, event.at, around)


def _of_moment(number: int, at: datetime, around: Around) -> list[InputProblem]:
    batch = there(around, Batch, number)
    if batch is not None and batch.started is not None and at < batch.started - _SLACK:
        return [InputProblem(f"That is more than a day before batch {number} was started; correct the time.", "at")]
    return [InputProblem("That moment has not come yet.", "at")] if to_come(at, around) else []
