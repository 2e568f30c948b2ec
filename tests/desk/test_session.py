"""Acts, refusals, undo."""

from dataclasses import replace

import pytest

from dryhouse.kitchen.batches.dryers import save_dryer
from dryhouse.kitchen.batches.log import BatchDraft, log_batch
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import RECORD_KINDS, Batch, Dryer, OwnFood
from dryhouse.kitchen.settings import set_preference
from dryhouse.science.display import METRIC, US
from dryhouse.science.errors import WorldProblem

BOX = Dryer("big box", 10)


def names(session):
    return [d.name for d in session.kitchen.journal.where(Dryer)]


def test_an_act_is_done_said_and_announced(session, qtbot):
    with qtbot.waitSignal(session.changed) as caught:
        done = session.act(save_dryer, BOX)
    assert caught.args == [done]
    assert session.messages.latest.kind == "done"
    assert session.messages.latest.undo
    assert "big box" in names(session)


def test_a_refused_act_changes_nothing_and_names_the_entry(session, qtbot):
    with qtbot.assertNotEmitted(session.changed):
        assert session.act(save_dryer, replace(BOX, trays=0)) is None
    assert session.problem.field == "trays"
    assert session.messages.latest.kind == "input"
    assert not session.can_undo


def test_undo_takes_back_and_redo_does_again(session):
    session.act(save_dryer, BOX)
    session.undo()
    assert "big box" not in names(session)
    assert session.can_redo == "Added the dryer big box"
    session.redo()
    assert "big box" in names(session)
    session.undo()
    assert "big box" not in names(session)


def test_a_new_act_forgets_what_could_be_done_again(session):
    session.act(save_dryer, BOX)
    session.undo()
    session.act(save_dryer, replace(BOX, name="small box"))
    assert not session.can_redo


def test_undo_with_nothing_to_undo_says_so(session):
    session.undo()
    assert session.messages.latest.text == "Nothing to undo."


def test_undo_that_the_disk_refuses_can_be_tried_again(session, monkeypatch):
    session.act(save_dryer, BOX)

    def full(_changes):
        raise WorldProblem("The disk is full; nothing was changed.")

    with monkeypatch.context() as broken:
        broken.setattr(session.kitchen.journal, "write", full)
        session.undo()
    assert session.messages.latest.kind == "world"
    session.undo()
    assert "big box" not in names(session)


def test_a_world_problem_in_an_act_is_shown(session):
    def breaks(_kitchen):
        raise WorldProblem("The disk is full; nothing was changed.")

    assert session.act(breaks) is None
    assert session.messages.latest.text == "The disk is full; nothing was changed."


def test_our_own_mistakes_are_not_swallowed(session):
    with pytest.raises(ZeroDivisionError):
        session.act(lambda _kitchen: 1 / 0)


def test_units_are_a_preference_and_can_be_undone(session, qtbot):
    with qtbot.waitSignal(session.style_changed):
        session.act(set_preference, "units", METRIC)
    assert session.style.system == METRIC
    session.undo()
    assert session.style.system == US


def test_an_act_that_changed_nothing_leaves_nothing_to_undo(session):
    session.act(save_dryer, session.kitchen.journal.get(Dryer, 1))
    assert not session.can_undo


def test_undo_that_would_leave_something_without_its_food_says_so_and_can_be_tried_again(session):
    session.act(add_food, "paddlers' stew", "mixed")
    elsewhere = log_batch(session.kitchen, BatchDraft(Batch("paddlers-stew")))
    session.undo()
    assert "still recorded" in session.messages.latest.text
    assert session.kitchen.journal.where(OwnFood)
    session.kitchen.write(elsewhere.undone().changes)
    session.undo()
    assert not session.kitchen.journal.where(OwnFood)


def test_a_form_filled_before_a_change_elsewhere_is_told_once_and_loses_nothing(session):
    (shown,) = (d for d in session.kitchen.journal.where(Dryer) if d.id == 1)
    elsewhere = replace(shown, watts=500.0)
    session.kitchen.journal.write([Change(shown, elsewhere)])
    typed = replace(shown, trays=7)
    assert session.act_on([shown], save_dryer, typed) is None
    assert session.messages.latest.kind == "world"
    assert "Dryer 1 has changed since you opened it here" in session.messages.latest.text
    assert session.kitchen.journal.get(Dryer, 1) == elsewhere
    assert session.act_on([shown], save_dryer, typed) is not None
    assert session.kitchen.journal.get(Dryer, 1) == typed


def test_after_being_told_of_one_change_a_further_one_is_told_again(session):
    shown = session.kitchen.journal.get(Dryer, 1)
    now = shown
    for watts in (400.0, 500.0):
        then, now = now, replace(now, watts=watts)
        session.kitchen.journal.write([Change(then, now)])
        assert session.act_on([shown], save_dryer, replace(shown, trays=7)) is None
    assert session.act_on([shown], save_dryer, replace(shown, trays=7)) is not None


def test_what_another_program_wrote_is_noticed_once_and_may_be_anything(session, qtbot):
    with qtbot.assertNotEmitted(session.changed):
        session.look_elsewhere()
    session.kitchen.journal.written_elsewhere += 1
    with qtbot.waitSignal(session.changed) as caught:
        session.look_elsewhere()
    assert caught.args[0].kinds == frozenset(RECORD_KINDS)
    with qtbot.assertNotEmitted(session.changed):
        session.look_elsewhere()


def test_units_chosen_in_another_window_are_followed(session):
    session.kitchen.do(set_preference, "units", METRIC)
    session.kitchen.journal.written_elsewhere += 1
    session.look_elsewhere()
    assert session.style.system == METRIC
