"""What a label says under its lines, in its order, however small it is."""

from datetime import timedelta

from dryhouse.handbook.safety_table import short_text
from dryhouse.kitchen.shelf.labels import ALWAYS, Label, lot_labels
from dryhouse.kitchen.shelf.packing import Package, shelve
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Caution
from tests.kitchen.shelf_room import FREEZER, HEATED, PANTRY, TODAY, a_batch, a_shelf, packed


def told(severity: str, rule: str, moment: str = "now") -> Caution:
    return Caution(severity, f"In full: {rule}.", "a source", rule=rule, moment=moment)


RAW, HEAT, DANGER, RISK = told("stop", "raw-meat"), *(told("warn", rule) for rule in ALWAYS)
POT, NOW = told("note", "of-the-pot", "pot"), told("note", "of-now")


def test_stops_stand_alone_and_what_is_heated_has_its_three_in_their_order():
    label = Label("turkey", cautions=(RISK, NOW, DANGER, RAW, HEAT))
    assert label.stops == (short_text(RAW),)
    assert label.musts == tuple(map(short_text, (HEAT, DANGER, RISK)))
    assert label.others == (short_text(NOW),)


def test_what_need_not_be_heated_through_has_none_that_must_stand():
    label = Label("corn", cautions=(DANGER, NOW))
    assert label.musts == ()
    assert set(label.others) == {short_text(DANGER), short_text(NOW)}


def test_the_others_of_its_moment_come_first():
    assert Label("soup", cautions=(NOW, POT), moment="pot").others[0] == short_text(POT)
    assert Label("soup", cautions=(POT, NOW)).others[0] == short_text(NOW)


def test_nothing_is_said_twice():
    twice = Label("turkey", cautions=(RAW, RAW, HEAT, HEAT))
    assert (len(twice.stops), len(twice.musts), twice.others) == (1, 1, ())


def test_a_lot_says_when_it_was_made_what_is_left_how_long_it_keeps_and_what_brings_it_back():
    kitchen = a_shelf(a_batch(), a_batch("turkey", 2), a_batch("apple", 3), a_batch("turkey", 4, **HEATED))
    loose = Package("jar", mass=Mass(1.0), place=PANTRY, sealed=False)
    lots = [
        packed(kitchen).id,
        packed(kitchen, 2).id,
        packed(kitchen, 3).id,
        packed(kitchen, 4, FREEZER).id,
        packed(kitchen, 4, PANTRY, package=Package("jar", mass=Mass(9.0), place=PANTRY), more_than_dried=True).id,
        packed(kitchen, package=loose, more_than_dried=True).id,
        packed(kitchen, place=None, package=Package("jar", mass=Mass(1.0)), more_than_dried=True).id,
        shelve(
            kitchen, "apple", Package("bag", mass=Mass(200.0), place=PANTRY), TODAY + timedelta(days=90)
        ).record.id,
    ]
    made = lot_labels(kitchen, [*lots, 99], Style(METRIC))
    heads = [f"Dried 26 Oct 2026 · lot {n}" for n in lots[:-1]] + [f"Bought 25 Nov 2026 · lot {lots[-1]}"]
    assert [label.lines[0] for label in made] == heads
    said = {label.lines[0].rpartition(" ")[2]: label.lines[1:] for label in made}
    corn, raw, fruit, cold, warm, unsealed, nowhere, bought = (said[str(n)] for n in lots)
    assert corn == ("240 g · 426 ml", "Keep-by 4 Mar 2027 in the pantry", "Water 530 ml, soak at least 30 min")
    assert raw == ("340 g",), "of what is not to be eaten neither a keep-by nor water"
    assert fruit[1:3] == ("Keep-by 11 Jul 2027 in the pantry", "Water 554 ml, soak at least 30 min")
    assert fruit[3].startswith("Check first: Condition 10 days")
    assert cold[1] == "Keep-by at least 24 Apr 2027 in the freezer"
    assert not any(line.startswith("Check first") for line in (*cold, *warm)), "its stop stands apart"
    assert unsealed[-1] == "Check first: not sealed"
    assert (nowhere[1], nowhere[-1]) == ("Keep-by not known", "Check first: no place is recorded")
    assert bought == ("200 g · 550 ml", "Keep-by 23 Feb 2027", "Water 692 ml, soak at least 30 min")
    assert [bool(label.stops) for label in made] == [False, True, False, False, True, False, False, False]
