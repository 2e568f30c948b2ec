"""What happens at the dryer beside weighing, and what it does to the load."""

from __future__ import annotations

import pytest

from dryhouse.kitchen.dryer.drying import events_of, start_batch
from dryhouse.kitchen.dryer.happenings import add_event, remove_event
from dryhouse.kitchen.dryer.run_words import aside_words, event_words, moved_words
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.dryer.typed_happenings import Happening, read_happening
from dryhouse.kitchen.dryer.weigh_in import note_happening, understood_happening
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.kitchen.records.weighings import (
    HEAT_CHANGED,
    MOVED,
    NOTED,
    PAUSED,
    RESUMED,
    TAKEN_OFF,
    TRAY_IN,
    TRAY_OFF,
)
from dryhouse.science.display import METRIC, Style
from dryhouse.science.errors import InputProblem
from dryhouse.science.quantities import Mass
from tests.kitchen.drying_room import Hands
from tests.rows import every_row

STYLE = Style(METRIC)


@pytest.fixture
def hands() -> Hands:
    return three_hours()


def three_hours() -> Hands:
    """A kilogram of apple on four trays, weighed for three hours."""
    hands = Hands(Dryer("box dryer", 10, id=2))
    hands.dry(hands.start(), (1, 2, 3))
    hands.wait(0.05)
    return hands


def typed(hands: Hands, line: str):
    what = read_happening(hands.kitchen, line)
    assert what is not None
    return note_happening(hands.kitchen, 1, what)


def test_a_tray_that_comes_off_early_leaves_the_load_as_it_was(hands) -> None:
    before = run_of(hands.kitchen, 1)
    typed(hands, "tray off 100 g")
    hands.wait(0.01)
    hands.weigh(1, before.net_g - 100)
    after = run_of(hands.kitchen, 1)
    assert after.net_g == pytest.approx(before.net_g)
    assert after.verdict.name == before.verdict.name
    # The same weight read once more tells a little by itself, with every tray on the dryer too.
    whole = three_hours()
    whole.wait(0.01)
    whole.weigh(1, before.net_g)
    assert after.moisture.value == pytest.approx(run_of(whole.kitchen, 1).moisture.value, abs=0.01)
    said = aside_words(hands.kitchen, after, STYLE)
    assert said.startswith("100 g of the load is off the dryer")
    assert f"dry at {STYLE.mass(after.target_mass.value - 100)} on the scale" in said


def test_a_tray_that_was_not_weighed_is_said_to_be_supposed(hands) -> None:
    typed(hands, "tray 3 off")
    assert "it was not weighed" in aside_words(hands.kitchen, run_of(hands.kitchen, 1), STYLE)
    (event,) = events_of(hands.kitchen, 1)
    assert event_words(event, STYLE) == "tray taken off early: tray 3"


def test_food_put_in_later_is_part_of_the_load_and_going_back_takes_it_out(hands) -> None:
    before = run_of(hands.kitchen, 1)
    done = typed(hands, "tray in 250 g")
    batch = hands.journal.get(Batch, 1)
    assert (batch.prepared_mass.si, batch.trays) == (1250, 5)
    after = run_of(hands.kitchen, 1)
    assert [p.net_g for p in after.points] == [p.net_g + 250 for p in before.points]
    assert after.load.solids == pytest.approx(1.25 * before.load.solids)
    hands.weigh(1, before.net_g + 240)
    remove_event(hands.kitchen, done.record.id)
    batch = hands.journal.get(Batch, 1)
    assert (batch.prepared_mass.si, batch.trays) == (1000, 4)


def test_trays_moved_to_another_dryer_split_the_load_over_two(hands) -> None:
    typed(hands, "2 trays to the box dryer")
    run = run_of(hands.kitchen, 1)
    assert moved_words(run) == ["2 of them in the box dryer"]
    assert run.points == run_of(hands.kitchen, 1).points
    with pytest.raises(InputProblem, match="oven"):
        typed(hands, "1 tray to the oven")


def test_a_note_is_kept_with_its_time_and_said_back(hands) -> None:
    what = read_happening(hands.kitchen, "14:30 note: edges crisp")
    assert understood_happening(hands.kitchen, what, STYLE) == "note, 14:30, “edges crisp”"
    note_happening(hands.kitchen, 1, what)
    (event,) = events_of(hands.kitchen, 1)
    assert (event.kind, event.note, f"{event.at:%H:%M}") == (NOTED, "edges crisp", "14:30")


@pytest.mark.parametrize(
    ("kind", "named", "field"),
    [
        (NOTED, {"note": "  "}, "note"),
        (TRAY_IN, {"trays": 1}, "mass"),
        (MOVED, {"trays": 1}, "dryer"),
        (TRAY_OFF, {"trays": 5}, "trays"),
        (TRAY_OFF, {"trays": 1, "mass": Mass(1500.0)}, "mass"),
    ],
)
def test_what_is_missing_or_cannot_be_is_asked_for(hands, kind, named, field) -> None:
    with pytest.raises(InputProblem) as refused:
        add_event(hands.kitchen, 1, Happening(kind, **named))
    assert refused.value.field == field
    assert events_of(hands.kitchen, 1) == ()


@every_row(
    ("named", "grams", "trays"),
    [({"mass": Mass(250.0)}, 1250.0, 5), ({"mass": Mass(250.0), "trays": 2}, 1250.0, 6)],
)
def test_what_goes_in_later_adds_its_weight_and_its_trays_and_leaves_with_them(named, grams, trays) -> None:
    hands = three_hours()
    number = add_event(hands.kitchen, 1, Happening(TRAY_IN, **named)).record.id
    batch = hands.journal.get(Batch, 1)
    assert (batch.prepared_mass.si, batch.trays) == (grams, trays)
    remove_event(hands.kitchen, number)
    batch = hands.journal.get(Batch, 1)
    assert (batch.prepared_mass.si, batch.trays) == (1000.0, 4)


def test_where_the_load_or_its_trays_are_not_recorded_nothing_is_added_to_them() -> None:
    hands = Hands()
    batch = hands.start(None)
    hands.weigh(batch, 900)
    add_event(hands.kitchen, batch, Happening(TRAY_IN, mass=Mass(100.0)))
    assert hands.journal.get(Batch, batch).prepared_mass is None


@every_row(
    ("kind", "named", "taken"),
    [
        (TRAY_OFF, {"trays": 4}, True),
        (TRAY_OFF, {"trays": 5}, False),
        (MOVED, {"trays": 4, "note": "box dryer"}, True),
        (MOVED, {"trays": 5, "note": "box dryer"}, False),
        (TRAY_OFF, {"mass": Mass(1000.0)}, True),
        (TRAY_OFF, {"mass": Mass(1000.5)}, False),
        (RESUMED, {}, False),
        (TAKEN_OFF, {}, False),
        ("danced", {}, False),
        (HEAT_CHANGED, {}, False),
    ],
)
def test_no_more_leaves_the_dryer_than_is_in_it_and_nothing_happens_that_cannot(kind, named, taken) -> None:
    hands = three_hours()
    if taken:
        assert add_event(hands.kitchen, 1, Happening(kind, **named)).record.kind == kind
        return
    with pytest.raises(InputProblem):
        add_event(hands.kitchen, 1, Happening(kind, **named))
    assert events_of(hands.kitchen, 1) == ()


def test_a_batch_is_paused_and_resumed_in_turn(hands) -> None:
    for kind, refused in ((PAUSED, PAUSED), (RESUMED, RESUMED)):
        add_event(hands.kitchen, 1, Happening(kind))
        hands.wait(0.1)
        with pytest.raises(InputProblem, match="paused"):
            add_event(hands.kitchen, 1, Happening(refused))


@every_row(
    ("line", "said"),
    [
        ("tray off 100 g", "tray taken off early, 100 g"),
        ("2 trays off 100 g", "tray taken off early (2), 100 g"),
        ("2 trays to the box dryer", f"{MOVED} (2), to the box dryer"),
        ("heat 60 C", f"{HEAT_CHANGED}, 60 °C"),
    ],
)
def test_a_line_about_what_happened_is_said_back(line, said) -> None:
    assert understood_happening(three_hours().kitchen, read_happening(three_hours().kitchen, line), STYLE) == said


def test_the_only_tray_may_come_off() -> None:
    hands = Hands()
    batch = start_batch(hands.kitchen, Batch("apple", prepared_mass=Mass(250.0), trays=1)).record.id
    assert add_event(hands.kitchen, batch, Happening(TRAY_OFF)).record.kind == TRAY_OFF
    with pytest.raises(InputProblem, match="This batch fills 1 tray, not 2"):
        add_event(hands.kitchen, batch, Happening(TRAY_OFF, trays=2))
