"""What a label says under its lines, in its order, however small it is."""

from dryhouse.handbook.safety_table import short_text
from dryhouse.kitchen.shelf.labels import ALWAYS, Label
from dryhouse.science.values import Caution


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
