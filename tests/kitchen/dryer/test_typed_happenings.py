"""What happened at the dryer, in one line; what is a weight stays a weight."""

from __future__ import annotations

import pytest

from dryhouse.kitchen.dryer.typed_happenings import Happening, read_happening
from dryhouse.kitchen.dryer.typed_readings import Notation
from dryhouse.kitchen.records.weighings import REMIND
from dryhouse.science.errors import InputProblem
from tests.kitchen.dryer.test_typed_readings import WALL
from tests.kitchen.dryer.typed_lines import READ
from tests.rows import every_row

SAID = """
turned => trays turned
Turned. => trays turned
turned the trays => trays turned
trays rotated => trays turned
13:00 turned => trays turned @25 13:00
turned at 13:00 => trays turned @25 13:00
yesterday 22:10 turned trays => trays turned @24 22:10
paused => paused
pause => paused
13:20 paused => paused @25 13:20
power off 13:20 => paused @25 13:20
20 min ago paused => paused @25 14:40
resumed => resumed
14:00 on again => resumed @25 14:00
drying goes on => resumed
heat 145 F => temperature changed 62.8
heat to 145 F => temperature changed 62.8
turned down to 57 C => temperature changed 57.0
13:00 heat 145 => temperature changed 62.8 @25 13:00
tray off => tray taken off early 1
tray off 88 g => tray taken off early 1 88
tray 3 off 88 g => tray taken off early 1 88 “tray 3”
2 trays off 180 g => tray taken off early 2 180
two trays out => tray taken off early 2
took off a tray 88 g => tray taken off early 1 88
13:00 tray 2 off early 3 oz => tray taken off early 1 85 @25 13:00 “tray 2”
tray in 250 g => tray put in later 1 250
added a tray 250 g => tray put in later 1 250
2 trays in 1 lb 2 oz => tray put in later 2 510
13:00 put in a tray 250 g => tray put in later 1 250 @25 13:00
tray in => tray put in later 1
note: edges crisp => note “edges crisp”
note edges crisp => note “edges crisp”
13:00 note: smells of 1 lb of apples => note @25 13:00 “smells of 1 lb of apples”
“tasted one” => note “tasted one”
"tasted one" => note “tasted one”
2 trays to the box dryer => trays moved 2 to box dryer
13:00 moved three trays to box dryer => trays moved 3 to box dryer @25 13:00
tray 3 to the box dryer => trays moved 1 to box dryer “tray 3”
"""


def said(what: Happening) -> str:
    parts = [what.kind]
    parts += [f"{what.temperature.si:.1f}"] if what.temperature is not None else []
    parts += [str(what.trays)] if what.trays is not None else []
    parts += [f"{what.mass.si:.0f}"] if what.mass is not None else []
    parts += [f"to {what.dryer}"] if what.dryer else []
    parts += [f"@{what.at:%d %H:%M}"] if what.at is not None else []
    return " ".join([*parts, *([f"“{what.note}”"] if what.note else [])])


def test_what_happened_is_read_from_one_line() -> None:
    wrong = []
    for line in SAID.strip().splitlines():
        typed, wanted = line.split(" => ")
        found = read_happening(WALL, typed)
        if found is None or said(found) != wanted:
            wrong.append(f"{typed!r}: {found and said(found)!r}, wanted {wanted!r}")
    assert not wrong, "\n".join(wrong)


def test_no_line_that_is_a_weight_is_taken_for_something_that_happened() -> None:
    lines = [line.split("=>")[0] for line in READ.strip("\n").splitlines()]
    assert [line for line in lines if read_happening(WALL, line) is not None] == []


def test_a_heat_in_another_unit_is_refused_and_a_bare_one_is_on_her_scale() -> None:
    with pytest.raises(InputProblem):
        read_happening(WALL, "heat 1 lb")
    found = read_happening(WALL, "heat 57", Notation(temperature="C"))
    assert found is not None
    assert found.temperature is not None
    assert found.temperature.si == 57


@every_row(
    ("line", "at", "note"),
    [
        # it is 15:00
        ("remind in 30 min", "25 15:30", "look at it"),
        ("remind me in 2 h to turn the trays", "25 17:00", "turn the trays"),
        ("remind 15:30 look", "25 15:30", "look"),
        ("remind me at 6 pm to stir", "25 18:00", "stir"),
        ("remind 14:30 turn trays", "26 14:30", "turn trays"),
        ("remind at 15:00", "26 15:00", "look at it"),
        ("remind 9am weigh it", "26 09:00", "weigh it"),
        ("soak 8 h", "25 23:00", "The soak is over"),
        ("soaking for 90 min", "25 16:30", "The soak is over"),
        ("soak until 20:00", "25 20:00", "The soak is over"),
    ],
)
def test_a_reminder_is_ahead_by_its_length_or_at_the_next_such_time(line, at, note) -> None:
    found = read_happening(WALL, line)
    assert found is not None
    assert (found.kind, f"{found.at:%d %H:%M}", found.note) == (REMIND, at, note)
    assert (found.mass, found.trays, found.temperature, found.dryer) == (None, None, None, "")
