"""What the window, its pages and its reminders say of a food is what the rules say: every stop in full, the rest
counted, none missing and none extra."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from PySide6.QtWidgets import QLabel

from dryhouse.desk.cautions import said
from dryhouse.desk.places.batches.card_view import CardView
from dryhouse.desk.places.batches.form import LogForm
from dryhouse.desk.places.batches.page import batch_page
from dryhouse.desk.places.dryer.figures import FiguresPane
from dryhouse.desk.places.dryer.start_form import StartForm
from dryhouse.desk.places.dryer.strip import Strip
from dryhouse.desk.places.dryer.take_off import TakeOffForm
from dryhouse.desk.places.dryer.waiting import WaitingCard
from dryhouse.desk.places.foods.food_page import FoodPage
from dryhouse.desk.places.meals.meal_card import MealCard
from dryhouse.desk.places.meals.swap_view import SwapView
from dryhouse.desk.places.meals.trips.trips_page import TripsPage
from dryhouse.desk.places.shelf.acts import ActForm
from dryhouse.desk.places.shelf.bought_form import BoughtForm
from dryhouse.desk.places.shelf.lot_panel import LotPanel
from dryhouse.desk.places.shelf.pack_form import PackForm
from dryhouse.desk.places.shelf.page import shelf_page
from dryhouse.desk.places.shelf.state import ShelfState
from dryhouse.desk.places.yields.view import YieldsPlace
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.cautions_view import CautionsView
from dryhouse.kitchen.cards.batch_card import batch_card
from dryhouse.kitchen.cautions.cautions import (
    batch_cautions,
    cautions_for,
    food_cautions,
    lot_cautions,
    lot_facts,
)  # fmt: skip
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.meals.swaps import preview_swap
from dryhouse.kitchen.records import Batch, Lot, Meal, MealPart, Trip, TripMeal
from dryhouse.kitchen.records.batches import DRYING, PLANNED
from dryhouse.kitchen.records.lots import BOUGHT
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.science.quantities import Mass
from dryhouse.science.values import gravest_first
from tests.kitchen.shelf_room import HEATED, NOW, PANTRY, TODAY, a_batch, a_shelf, packed

FOODS = {
    "carrot": {}, "apple": {}, "basil": {}, "mushroom": {}, "kidney-bean": {}, "salmon": {}, "egg": {},
    "turkey": {}, "turkey, heated": HEATED, "ground-venison": {},
}  # fmt: skip
"""One food for each set of cautions, with what is recorded of its heating."""
DONE, RUNNING, WAITING = 1, 2, 3


@pytest.fixture(params=FOODS)
def case(request):
    return request.param


@pytest.fixture
def food(case):
    return case.split(",")[0]


@pytest.fixture
def kitchen(case, food):
    heat = FOODS[case]
    cooking = "cold soak" if case == "turkey" else "short soak"
    made = a_shelf(
        a_batch(food, DONE, **heat),
        a_batch(food, RUNNING, **heat, state=DRYING, dried_mass=None, dried_volume=None, ended=NOW),
        a_batch(food, WAITING, **heat, state=PLANNED, dried_mass=None, dried_volume=None),
        Meal("camp stew", cooking=cooking, id=1),
        MealPart(1, 1, food, food, mass=Mass(50.0, "50 g"), id=1),
        Trip("lake", TODAY + timedelta(days=9), TODAY + timedelta(days=10), 2, id=1),
        TripMeal(1, 1, TODAY + timedelta(days=9), "dinner", id=1),
    )
    made.journal.write(())
    return made


@pytest.fixture
def session(kitchen, theme):
    return Session(kitchen, theme)


@pytest.fixture
def shown(qtbot):
    def show(widget):
        qtbot.addWidget(widget)
        widget.resize(900, 1400)
        widget.show()
        return widget

    return show


def says(view: CautionsView, cautions) -> None:
    """The view shows every stop in full and counts the rest; opened it says all of them with their sources."""
    every = gravest_first(cautions)
    assert view.cautions == every
    stops = [c for c in every if c.severity == "stop"]
    rows = [row for row in view.rows if not row.isHidden()]
    read = [label.text() for row in rows for label in row.findChildren(QLabel) if not label.isHidden()]
    assert [text for text in read if text in {said(c) for c in stops}] == [said(c) for c in stops]
    others = len(rows) - len(stops)
    assert others <= view.most
    rest = len(every) - len(rows)
    count = view.fold.accessibleName().split()[0] if not view.fold.isHidden() else "0"
    assert int(count) == rest
    view.turn()
    read = [label.text() for row in view.rows if not row.isHidden() for label in row.findChildren(QLabel)]
    assert [t for t in read if t in {said(c) for c in every}] == [said(c) for c in (*view.shown, *view.rest)]
    assert {c.source for c in every} <= set(read)
    view.turn()


def prints(text: str, cautions) -> None:
    """Every stop of the cautions, and none that is not among them, stands in a page."""
    plain = " ".join(text.split())
    for caution in cautions:
        if caution.severity == "stop":
            assert " ".join(caution.text.split()) in plain


def test_the_card_in_the_journal_and_on_paper(session, kitchen, shown):
    card = batch_card(kitchen, DONE)
    view = shown(CardView(session))
    view.set_card(card)
    says(view.cautions, batch_cautions(kitchen, kitchen.journal.get(Batch, DONE)))
    page = batch_page(session, kitchen.journal.get(Batch, DONE), card).toPlainText()
    prints(page, card.cautions)


def test_the_form_while_it_is_typed(session, kitchen, food, shown):
    form = shown(LogForm(session))
    form.entries.food.set_value(food)
    form.answer()
    says(form.preview.cautions, form.preview.card.cautions)
    assert any(c.severity == "stop" for c in form.preview.card.cautions) == any(
        c.severity == "stop" for c in batch_cautions(kitchen, Batch(food), ())
    )


def test_the_start_form_the_strip_the_take_off_and_the_card_that_waits(session, kitchen, food, shown):
    form = shown(StartForm(session))
    form.food.set_value(food)
    form._show_food(form.food.value())
    says(form.cautions, batch_cautions(kitchen, form.draft(form.food.value())))
    run = run_of(kitchen, RUNNING)
    strip, off = shown(Strip(session, run)), shown(TakeOffForm(session))
    off.open(run)
    waiting = shown(WaitingCard(session, kitchen.journal.get(Batch, WAITING)))
    pane = shown(FiguresPane(session))
    pane.show_run(run)
    says(pane.cautions, batch_cautions(kitchen, run.batch))
    says(strip.cautions, batch_cautions(kitchen, run.batch))
    says(off.cautions, batch_cautions(kitchen, run.batch))
    says(waiting.cautions, batch_cautions(kitchen, kitchen.journal.get(Batch, WAITING)))


def test_what_is_looked_up(session, kitchen, food, shown):
    page = shown(FoodPage(session))
    page.show_food(food)
    says(page.cautions, food_cautions(kitchen, food))
    place = shown(YieldsPlace(session))
    place.type(f"{page.food.name} 1 lb")
    if place.answer is not None:
        says(place.cautions, food_cautions(kitchen, food))


def test_the_shelf_its_panel_its_forms_and_its_page(session, kitchen, food, shown):
    lot = packed(kitchen, DONE)
    state = ShelfState(session)
    panel = shown(LotPanel(session, state, lambda act: None))
    panel.show_lot(lot.id)
    says(panel.cautions, lot_cautions(kitchen, lot))
    forbidden = any(c.forbids_eating for c in lot_cautions(kitchen, lot))
    assert (panel.status.word == "do not eat") == forbidden
    assert not forbidden or panel.keep_by.figure is None
    form = shown(ActForm(session))
    form.begin("redry", [lot.id], "the jar")
    says(form.cautions, lot_cautions(kitchen, lot))
    form.begin("check", [lot.id], "the jar")
    form.fields["mould"].set_value(True)
    says(form.cautions, cautions_for(replace(lot_facts(kitchen, lot), checked=True, mould=True)))
    assert "Mold" in form.stops.text()
    form.begin("move", [lot.id], "the jar")
    form.fields["place"].set_value(PANTRY)
    says(form.cautions, lot_cautions(kitchen, lot, place=PANTRY))
    prints(shelf_page(session, state).toPlainText(), lot_cautions(kitchen, lot))


def test_packing_and_shelving_while_it_is_chosen(session, kitchen, food, shown):
    form = shown(PackForm(session))
    form.begin(DONE)
    form.rows[0].kind.set_value("vacuum bag")
    form.rows[0].place.set_value(PANTRY)
    jar = Lot(food, TODAY, batch=DONE, package="vacuum bag")
    says(form.cautions, lot_cautions(kitchen, jar, place=PANTRY))
    bought = shown(BoughtForm(session))
    bought.begin()
    bought.food.set_value(food)
    bought.place.set_value(PANTRY)
    bag = Lot(food, TODAY, package="bag", origin=BOUGHT)
    says(bought.cautions, lot_cautions(kitchen, bag, place=PANTRY))


def test_what_a_swap_would_bring(session, kitchen, food, shown):
    swap = shown(SwapView(session))
    swap.begin(kitchen.journal.get(MealPart, 1))
    other = "carrot" if food in ("turkey", "ground-venison") else "turkey"
    swap.name.setText(other)
    swap.reckon()
    looked_at = preview_swap(kitchen, 1, other)
    before, after = looked_at.before.cautions, looked_at.after.cautions
    says(swap.cautions, [c for c in after if c.rule not in {b.rule for b in before}])
    assert other == "carrot" or any(c.severity == "stop" for c in swap.cautions.cautions)
    goes = [c for c in before if c.rule not in {a.rule for a in after}]
    assert [c.brief in swap.gone.text() for c in goes] == [True for _ in goes]


def test_a_meal_and_every_page_of_a_trip(session, kitchen, shown):
    card = shown(MealCard(session))
    card.show_meal(kitchen.journal.get(Meal, 1))
    says(card.cautions, meal_sheet(kitchen, 1).cautions)
    trips = shown(TripsPage(session))
    trips.refresh()
    worked = plan(kitchen, 1)
    says(trips.cautions, worked.bags[0].cautions)
    pages = {title: trips.plan_view._html(title) for title in ("Drying calendar", "Shopping list", "Packing list")}
    from dryhouse.desk.widgets.printing import document

    told = {title: document(title, html).toPlainText() for title, html in pages.items()}
    prints(told["Packing list"], worked.bags[0].cautions)
    prints(told["Shopping list"], [c for buy in worked.shopping for c in buy.cautions])
    prints(told["Drying calendar"], [c for item in worked.items for c in item.cautions])
    cell = trips.grid.item(0, 2).text()
    assert ("Do not eat" in cell) == any(c.forbids_eating for c in worked.bags[0].cautions)
