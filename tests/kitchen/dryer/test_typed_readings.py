"""One line at the scale: read right, or refused with the sentence that says what is wrong."""

from __future__ import annotations

import random
import re
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

import pytest

from dryhouse.kitchen.dryer.typed_readings import Notation, Reading, read_reading, read_readings
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Quantity
from dryhouse.science.units import SIZES
from dryhouse.words.messages import problem_sentence
from tests.kitchen.dryer.typed_lines import READ, REFUSED
from tests.often import often

NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)


@dataclass(frozen=True)
class Clock:
    """A clock on the wall that stands still."""

    zone: tzinfo | None = UTC

    def now(self) -> datetime:
        return NOW

    def local(self, moment: datetime) -> datetime:
        return moment.astimezone(UTC)


WALL = Clock()


def said(reading: Reading) -> str:
    """A reading in the words of the table."""
    parts = [f"{reading.gross.si:.3f}".rstrip("0").rstrip(".")]
    if reading.at is not None:
        assert (reading.at.year, reading.at.month) == (2026, 11)
        parts.append(f"@{reading.at:%d %H:%M}")
    parts += [f"on {reading.vessel}"] if reading.vessel else []
    parts += [f"less {reading.tare.si:.3f}".rstrip("0").rstrip(".")] if reading.tare is not None else []
    parts += [f"of {reading.scope}"] if reading.scope else []
    parts += [f"at {reading.heat.si:.1f}".removesuffix(".0")] if reading.heat is not None else []
    return " ".join([*parts, *([f"“{reading.note}”"] if reading.note else [])])


def rows(table: str) -> list[tuple[str, str]]:
    return [tuple(line.split("=>")) for line in table.strip("\n").splitlines()]


def heard(line: str, how: Notation | None = None) -> str:
    try:
        return said(read_reading(WALL, line, how or Notation()))
    except InputProblem as problem:
        return f"!! {problem_sentence(problem)}"


def test_three_hundred_written_lines_are_read_right_or_refused_with_the_right_sentence() -> None:
    wrong = []
    tables = [(line, wanted.strip(), False) for line, wanted in rows(READ)]
    tables += [(line, wanted.strip(), True) for line, wanted in rows(REFUSED)]
    for line, wanted, refused in tables:
        found = heard(line.removesuffix(" "))
        right = (
            found.startswith("!!") and wanted.removeprefix("!! ") in found
            if refused or "!!" in wanted
            else found == wanted
        )
        if not right:
            wrong.append(f"{line!r}: {found!r}, wanted {wanted!r}")
    assert not wrong, "\n".join(wrong)
    assert len(tables) >= 300


def test_the_written_lines_are_read_the_same_with_a_decimal_comma() -> None:
    comma = Notation("g", decimal_comma=True)
    assert heard("13:00 860,5 g", comma) == "860.5 @25 13:00"
    assert heard("13:00;860,5", comma) == "860.5 @25 13:00"
    assert heard("13:00 1.234,5 g", comma) == "1234.5 @25 13:00"
    assert heard("1,5 kg, 13:00", comma) == "1500 @25 13:00"


def test_a_bare_number_is_in_her_unit_and_after_pounds_in_ounces() -> None:
    assert heard("30", Notation("oz")) == "850.486"
    assert heard("1 lb 14", Notation("kg")) == "850.486"
    assert "no unit" in heard("30", Notation(""))


TIMES = (
    ("", None), ("13:05", (0, 13, 5)), ("1:05 pm", (0, 13, 5)), ("at 13:05", (0, 13, 5)), ("9.30", (0, 9, 30)),
    ("22:10", (1, 22, 10)), ("yesterday 22:10", (1, 22, 10)), ("yesterday at 8 am", (1, 8, 0)),
    ("2026-11-20 18:00", (5, 18, 0)), ("20 Nov 18:00", (5, 18, 0)), ("Friday 18:00", (5, 18, 0)),
    ("20 min ago", (0, 14, 40)), ("noon", (0, 12, 0)), ("this morning 8:15", (0, 8, 15)),
)  # fmt: skip
VESSELS = (("", ""), ("tray 3", "tray 3"), ("on tray 12", "tray 12"), ("jar 2", "jar 2"), ("Tray #4", "tray 4"))
TARES = (("", None), ("tare 350 g", 350.0), ("no tare", 0.0), ("minus 12 oz", 12 * SIZES["oz"]))
HEATS = (("", None), ("at 135 F", 57.222), ("57 C", 57.0))
REMARKS = (("", ""), ("(turned)", "turned"))


def in_si(quantity: Quantity | None) -> float | None:
    return None if quantity is None else quantity.si


def made_weight(dice: random.Random) -> tuple[str, float]:
    """A weight as one writes it, and its grams."""
    grams, ounces, pounds = dice.randint(400, 4000), dice.randint(1, 159) / 10, dice.randint(1, 9)
    return dice.choice(
        [
            (f"{grams}", float(grams)),
            (f"{grams} g", float(grams)),
            (f"{grams / 1000:.3f} kg", float(grams)),
            (f"{pounds} lb {ounces:g} oz", pounds * SIZES["lb"] + ounces * SIZES["oz"]),
            (f"{pounds} lb {int(ounces)}", pounds * SIZES["lb"] + int(ounces) * SIZES["oz"]),
            (f"{16 + pounds}½ oz", (16.5 + pounds) * SIZES["oz"]),
            (f"{pounds} 1/4 lb", (pounds + 0.25) * SIZES["lb"]),
        ]
    )  # fmt: skip


def test_thousands_of_made_lines_are_read_as_they_were_made() -> None:
    dice, wrong = random.Random(1126), []
    for _ in range(often(4_000)):
        (typed, grams), (when, moment) = made_weight(dice), dice.choice(TIMES)
        (vessel, named), (tare, tare_g) = dice.choice(VESSELS), dice.choice(TARES)
        (heat, heat_c), (remark, note) = dice.choice(HEATS), dice.choice(REMARKS)
        core = [when, typed] if dice.random() < 0.5 else [typed, when]
        if core[-1] != typed and (tare or when == "9.30"):
            core.reverse()
        front = [vessel] if vessel.lower().startswith(("tray", "jar")) and dice.random() < 0.5 else []
        back = [tare, heat, *([] if front else [vessel]), remark]
        line = " ".join(part for part in (*front, *core, *back) if part)
        try:
            found = read_reading(WALL, line)
        except InputProblem as problem:
            wrong.append(f"{line}: {problem_sentence(problem)}")
            continue
        at = None
        if moment is not None:
            days, hour, minute = moment
            at = datetime(2026, 11, 25, hour, minute, tzinfo=UTC) - timedelta(days=days)
        numbers = [(found.gross.si, grams), (in_si(found.tare), tare_g), (in_si(found.heat), heat_c)]
        same = all(a == b or (None not in (a, b) and abs(a - b) < 1e-3) for a, b in numbers)
        same &= (found.at, found.vessel, found.note) == (at, named, note)
        if not same:
            wrong.append(f"{line}: {found}")
    assert not wrong, "\n".join(wrong[:20])


BROKEN = (
    ("{mass} {time} {time2}", "more than one time"), ("{time} {mass} oranges", "oranges”"),
    ("{mass} oranges", "not understood"),
    ("{time}", "no weight"), ("{time} {number} cups", "volume"), ("26:{minute} {mass}", "is no time"),
    ("{time} -{mass}", "cannot be negative"), ("{mass} {mass2}", "two weights"),
    ("yesterday {mass}", "a day and no time"),
    ("{time} 0 g", "is zero"),
)  # fmt: skip


def test_hundreds_of_broken_lines_are_refused_with_what_is_wrong() -> None:
    dice, wrong = random.Random(2611), []
    for _ in range(often(700)):
        pattern, expected = dice.choice(BROKEN)
        line = pattern.format(
            mass=f"{dice.randint(100, 900)} g",
            mass2=f"{dice.randint(100, 900)} g",
            number=dice.randint(2, 9),
            time=f"{dice.randint(1, 14)}:{dice.randint(10, 59)}",
            time2=f"{dice.randint(1, 14)}:{dice.randint(10, 59)}",
            minute=dice.randint(10, 59),
        )
        found = heard(line)
        if not re.match("!! .*" + expected, found):
            wrong.append(f"{line}: {found}, wanted {expected}")
    assert not wrong, "\n".join(wrong[:20])


def several(text: str, how: Notation | None = None, started: datetime | None = None) -> list[str]:
    return [said(reading) for reading in read_readings(WALL, text, how or Notation(), started=started)]


def test_lines_pasted_from_a_sheet_or_a_chat_run_back_from_the_last_one() -> None:
    assert several("13:00\t860\n14:00\t800") == ["860 @25 13:00", "800 @25 14:00"]
    assert several("22:00 860\n23:30 800\n01:00 700") == ["860 @24 22:00", "800 @24 23:30", "700 @25 01:00"]
    assert several("16:00 900\n20:00 800\n16:00 700\n10:00 640")[0] == "900 @23 16:00"
    assert several("yesterday 22:00 860\n23:00 800\n1:00 700")[-1] == "700 @25 01:00"
    assert several("[13:00] Paddler: 860 g\n[14:00] Paddler: 800 g tray 3")[1] == "800 @25 14:00 on tray 3"


def test_a_time_of_the_last_line_is_today_s_up_to_a_minute_ahead_of_the_clock() -> None:
    assert several("14:00 860\n15:00 800") == ["860 @25 14:00", "800 @25 15:00"]
    assert several("14:00 860\n15:01 800") == ["860 @25 14:00", "800 @25 15:01"]
    assert several("14:00 860\n15:02 800") == ["860 @24 14:00", "800 @24 15:02"]
    assert several("14:00 860\n14:00 800") == ["860 @25 14:00", "800 @25 14:00"]


def test_two_columns_of_numbers_are_hours_as_long_as_they_grow_and_last_no_longer_than_a_month() -> None:
    begun = NOW - timedelta(hours=720)
    found = read_readings(WALL, "0 1000\n720 300", Notation(), started=begun)
    assert [reading.at for reading in found] == [begun, NOW]
    for text in ("0 1000\n721 300", "1 1000\n1 300", "2 1000\n1 300"):
        with pytest.raises(InputProblem):
            several(text, started=begun)


def test_a_heading_names_the_unit_and_a_column_of_hours_counts_from_the_start() -> None:
    assert several("time\tweight (oz)\n13:00\t30\n14:00\t28.5") == ["850.486 @25 13:00", "807.961 @25 14:00"]
    started = NOW - timedelta(hours=6)
    assert several("hours, grams\n0, 1000\n1.5, 860\n3, 700", started=started) == [
        "1000 @25 09:00", "860 @25 10:30", "700 @25 12:00",
    ]  # fmt: skip


def test_several_trays_in_one_line_are_several_readings_of_one_time() -> None:
    assert several("tray 1 412, tray 2 398 g, tray 3 405") == ["412 on tray 1", "398 on tray 2", "405 on tray 3"]
    assert several("13:00 tray 1 412 tray 2 398") == ["412 @25 13:00 on tray 1", "398 @25 13:00 on tray 2"]
    assert several("412 g tray 1, 398 g tray 2") == ["412 on tray 1", "398 on tray 2"]


def test_a_problem_in_one_of_several_lines_names_the_line() -> None:
    for text, expected in (
        ("13:00 860\n14:00", "Line 2: .*no weight"),
        ("13:00 860\n700", "Line 2: when was it"),
        ("13:00 860\n14:00 oranges", "Line 2"),
        ("13:00 860\n25:00 800", "Line 2: .*no time"),
        ("1\n" * 1001, "more than 1000 lines"),
    ):
        with pytest.raises(InputProblem, match=expected):
            several(text)


def test_a_first_time_without_a_day_is_of_the_day_of_the_lines_below_it() -> None:
    assert several("13:00 860\nyesterday 22:00 700") == ["860 @24 13:00", "700 @24 22:00"]
    backwards = several("yesterday 22:00 860\nyesterday 20:00 900")
    assert backwards == ["900 @24 20:00", "860 @24 22:00"], "in order of time, whatever order they stand in"


def test_what_a_line_says_twice_is_refused() -> None:
    for line in ("load 860 g load", "tray 1 860 g tray 1", "no tare no tare 860 g", "860 g tare 5 g tare 5 g",
                 "860 g at 57 C at 57 C"):  # fmt: skip
        assert heard(line).startswith("!!"), line
