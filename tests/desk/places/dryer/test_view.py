"""Drying now, by keyboard alone: start, weigh, watch, take off, read; and the past, the planned, the files."""

from __future__ import annotations

import re
from datetime import UTC, timedelta

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtWidgets import QApplication, QFileDialog, QPushButton

from dryhouse.desk.cautions import stops_of
from dryhouse.desk.place import places
from dryhouse.desk.places.dryer.chart import DAY, MODEL_VIEWS
from dryhouse.desk.places.dryer.detail import CHART, CURVES, FIGURES, WEIGHINGS
from dryhouse.desk.places.dryer.live import draw_days
from dryhouse.desk.places.dryer.strip import Strip
from dryhouse.desk.places.dryer.view import DryingPlace
from dryhouse.desk.session import Session
from dryhouse.desk.theme import Theme
from dryhouse.handbook.reader import Handbook
from dryhouse.handbook.tables import Food
from dryhouse.kitchen.dryer.drying import events_of, take_off, weighings_of
from dryhouse.kitchen.instruments.follower import Instrument, Kept, record_kept
from dryhouse.kitchen.instruments.lines import Sample
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch, Dryer
from dryhouse.kitchen.records.batches import FINISHED, PLANNED
from dryhouse.kitchen.records.weighings import HEAT_CHANGED, SAMPLE
from dryhouse.kitchen.shelf.packing import Package, pack
from dryhouse.plots.curve_picture import MASS
from dryhouse.science.display import METRIC, Style
from dryhouse.science.quantities import Mass
from dryhouse.science.values import Fact
from tests.journeys.words_counted import texts
from tests.kitchen.drying_room import NOON, Hands

ENTER = Qt.Key.Key_Return


class Sitting:
    """A person at the desk with one kitchen."""

    def __init__(self, qtbot, hands: Hands) -> None:
        self.qtbot, self.hands = qtbot, hands
        theme = Theme(QApplication.instance(), "light")
        self.session = Session(hands.kitchen, theme)
        self.session.set_style(Style(METRIC))
        self.place = DryingPlace(self.session)
        qtbot.addWidget(self.place)
        self.place.resize(1100, 760)
        with qtbot.waitExposed(self.place):
            self.place.show()
        self.place.activateWindow()
        self.place.arrive()

    def type(self, text: str, key: Qt.Key | None = None) -> None:
        """Type into whatever has the keyboard."""
        widget = QApplication.focusWidget()
        assert widget is not None
        self.qtbot.keyClicks(widget, text)
        if key is not None:
            self.qtbot.keyClick(QApplication.focusWidget(), key)

    def press(self, key: Qt.Key, with_: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self.qtbot.keyClick(QApplication.focusWidget() or self.place, key, with_)

    def ctrl(self, key: Qt.Key) -> None:
        self.press(key, Qt.KeyboardModifier.ControlModifier)

    @property
    def strip(self) -> Strip:
        return self.place.strips[self.place.current]

    @property
    def latest(self) -> str:
        return self.session.messages.latest.text


@pytest.fixture
def hands() -> Hands:
    return Hands()


@pytest.fixture
def sitting(qtbot, hands) -> Sitting:
    return Sitting(qtbot, hands)


def drying(sitting: Sitting, grams: float = 1000.0) -> int:
    """One batch on the dryer, its entry in focus."""
    batch = sitting.hands.start(grams)
    sitting.place.runs.forget()
    sitting.place.mark_stale()
    sitting.place.arrive()
    return batch


def test_the_place_is_found_by_its_spec() -> None:
    spec = next(s for s in places() if s.id == "drying")
    assert spec.load() is DryingPlace


def test_an_empty_place_says_what_to_do_next(sitting) -> None:
    assert sitting.place.side.currentWidget() is sitting.place.empty_state
    sitting.press(Qt.Key.Key_Space)
    assert sitting.place.side.currentWidget() is sitting.place.form


def test_a_whole_run_by_keyboard_the_forecast_tightens_and_the_result_is_read(sitting, hands) -> None:
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("apple", ENTER)
    sitting.type("1000 g", ENTER)
    strip = sitting.strip
    assert strip.reading.edit.hasFocus()
    assert "Loaded 1 kg, dry at 175 g" in strip.state.text()
    widths = []
    for hour, grams in ((1, 810), (2, 640), (4, 412), (6, 283)):
        hands.time = NOON + timedelta(hours=hour)
        sitting.type(str(grams), ENTER)
        assert strip.reading.edit.hasFocus()
        assert strip.reading.text() == ""
        finish = sitting.place.runs[strip.run.batch.id].expected.forecast.finish
        widths.append(finish.high50 - finish.low50)
    assert [w.net_g for w in weighings_of(hands.kitchen, strip.run.batch.id)] == [810, 640, 412, 283]
    assert widths[-1] < 0.7 * widths[0]
    now = sitting.place.runs[strip.run.batch.id].moisture
    assert now.low < 50.5 < now.high, "by the table's dry matter"
    assert f"Moisture {now.value:.0f} %" in strip.state.text()
    assert strip.verdict.text() == "Still moist"
    assert re.match(r"Dry about (tomorrow )?\d\d:\d\d\.", strip.finish.text())
    assert re.match(r"Likely (tomorrow )?\d\d:\d\d to (tomorrow )?\d\d:\d\d\.", strip.bands.text())
    assert re.match(r"Even odds: between .+\. 80 %: .+\.", strip.bands.toolTip())
    hands.time = NOON + timedelta(hours=11)
    sitting.type("172", ENTER)
    assert strip.verdict.text() == "Dry enough"
    assert "Check by hand as well" in strip.verdict.toolTip()
    assert "target weight was reached" in strip.finish.text()
    sitting.ctrl(Qt.Key.Key_T)
    assert sitting.place.take_off.mass.text() == "172 g"
    assert sitting.place.take_off.standing.text().startswith("Dry enough by weight: "), "as the strip says"
    sitting.press(Qt.Key.Key_Tab)
    sitting.press(Qt.Key.Key_L)
    assert sitting.place.take_off.standing.text().startswith("Dry enough by weight and leathery to the hand: ")
    sitting.press(ENTER)
    batch = hands.journal.get(Batch, strip.run.batch.id)
    assert (batch.state, batch.dried_mass) == (FINISHED, Mass(172.0, "172 g"))
    assert batch.felt == "leathery"
    assert sitting.place.strips == {}
    detail = sitting.place.detail
    assert sitting.place.side.currentWidget() is detail
    assert detail.pages.currentIndex() == FIGURES
    shown = {v.title: v.value_text() for v in detail.figures.views if v.isVisible()}
    assert shown["Yield by weight"] == "17.2 %"
    assert detail.figures.sentence.text().startswith("Dry enough by weight")
    assert "172 g dried" in detail.facts.text()
    sitting.session.undo()
    assert sitting.place.runs[batch.id].verdict.name == "dry enough"
    assert hands.journal.get(Batch, batch.id).curve_dry is None
    sitting.session.redo()
    assert hands.journal.get(Batch, batch.id) == batch


def test_the_reading_is_in_the_unit_last_used(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(1)
    sitting.type("30 oz", ENTER)
    hands.wait(1)
    sitting.type("25.5", ENTER)
    last = weighings_of(hands.kitchen, batch)[-1]
    assert last.gross.typed == "25.5 oz"
    assert last.net_g == pytest.approx(25.5 * 28.349523125)


def test_a_reading_that_cannot_be_is_refused_beside_the_entry(sitting, hands) -> None:
    batch = drying(sitting)
    sitting.type("quite heavy", ENTER)
    assert "not a weight" in sitting.strip.reading.sentence.text()
    assert weighings_of(hands.kitchen, batch) == ()
    sitting.strip.reading.set_value(None)
    sitting.press(ENTER)
    assert "What does the scale show" in sitting.strip.reading.sentence.text()


def test_tare_time_and_sample_tray_are_entries_away(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(3)
    strip = sitting.strip
    strip.ask_more()
    assert strip.tare.edit.hasFocus()
    sitting.type("100 g")
    strip.at.edit.setFocus()
    sitting.type("13:00")
    strip.scope.set_value(SAMPLE)
    strip.reading.edit.setFocus()
    sitting.type("350", ENTER)
    (weighing,) = weighings_of(hands.kitchen, batch)
    assert (weighing.net_g, weighing.scope, weighing.at) == (250.0, SAMPLE, NOON + timedelta(hours=1))
    hands.wait(1)
    sitting.type("330", ENTER)
    assert weighings_of(hands.kitchen, batch)[-1].net_g == 230.0
    assert strip.scope.value() == SAMPLE
    assert strip.state.text().startswith("Sample tray 230 g at ")


def test_the_verdict_takes_the_colours_of_the_look(sitting, hands) -> None:
    drying(sitting)
    hands.wait(1)
    sitting.type("800", ENTER)
    theme = sitting.place.session.theme
    for look in ("dark", "light"):
        theme.choose(look)
        assert theme.tokens.tint("still moist").ink in sitting.strip.verdict.styleSheet()


def test_a_tare_heavier_than_the_reading_is_said_at_the_entry(sitting) -> None:
    drying(sitting)
    strip = sitting.strip
    strip.ask_more()
    sitting.type("900 g")
    strip.reading.edit.setFocus()
    sitting.type("350 g", ENTER)
    assert "leaves nothing" in strip.reading.sentence.text()


def test_undo_takes_a_weighing_back_and_the_strip_follows(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(1)
    sitting.type("800", ENTER)
    sitting.session.undo()
    assert weighings_of(hands.kitchen, batch) == ()
    assert sitting.strip.state.toolTip().startswith("Loaded 1 kg")
    sitting.session.redo()
    assert "Load 800 g at " in sitting.strip.state.text()


def test_what_happens_is_noted_and_a_pause_stops_the_clock(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(2)
    strip = sitting.strip
    strip._pause()
    hands.wait(6)
    sitting.place.column.tick()
    assert "2 h of drying, paused since 14:00" in strip.clock.text()
    assert strip.pause_action.text() == "Resume"
    strip._pause()
    hands.wait(1)
    sitting.place.column.tick()
    assert "3 h of drying, 6 h of pauses not counted" in strip.clock.text()
    strip._ask_heat()
    sitting.type("60 C", ENTER)
    assert events_of(hands.kitchen, batch)[-1].kind == HEAT_CHANGED


def test_the_clock_needs_no_running_program(qtbot, hands) -> None:
    first = Sitting(qtbot, hands)
    drying(first)
    first.place.close()
    hands.wait(9.5)
    again = Sitting(qtbot, hands)
    assert "9 h 30 min of drying" in again.strip.clock.text()


def test_only_the_batch_that_changed_is_read_again(sitting, hands) -> None:
    first, second = drying(sitting), None
    hands.wait(1)
    second = drying(sitting)
    before = dict(sitting.place.runs)
    hands.wait(1)
    sitting.place.strips[second].reading.edit.setFocus()
    sitting.type("900", ENTER)
    assert sitting.place.runs[first] is before[first]
    assert sitting.place.runs[second] is not before[second]
    assert sitting.place.detail.run.batch.id == second


def test_the_arrows_go_from_strip_to_strip(sitting, hands) -> None:
    first = drying(sitting)
    hands.wait(1)
    second = drying(sitting)
    assert sitting.place.current == first
    sitting.ctrl(Qt.Key.Key_Down)
    assert sitting.place.current == second
    assert sitting.place.strips[second].is_chosen
    sitting.ctrl(Qt.Key.Key_Down)
    assert sitting.place.current == first


def test_a_reading_being_typed_survives_a_change_elsewhere(sitting, hands) -> None:
    first = drying(sitting)
    hands.wait(1)
    sitting.type("81")
    hands.weigh(first, 850)
    sitting.place.runs.forget()
    sitting.place.mark_stale()
    assert sitting.strip.reading.text() == "81"
    assert sitting.strip.reading.edit.hasFocus()


def test_weighings_are_corrected_and_removed_in_their_table(sitting, hands) -> None:
    batch = drying(sitting)
    for grams in (8000, 700):
        hands.wait(1)
        sitting.type(str(grams), ENTER)
        sitting.press(Qt.Key.Key_F9)
    sitting.ctrl(Qt.Key.Key_L)
    pane = sitting.place.detail.weighings
    assert sitting.place.detail.pages.currentIndex() == WEIGHINGS
    assert [pane.table.item(n, 4).text() for n in range(2)] == ["700 g", "8000 g"], "the newest first"
    pane.table.setCurrentCell(1, 0)
    sitting.press(ENTER)
    assert pane.gross.edit.hasFocus()
    sitting.type("800 g", ENTER)
    first, second = weighings_of(hands.kitchen, batch)
    assert first.net_g == 800
    assert first.at == NOON + timedelta(hours=1)
    assert not pane.editor.isVisible()
    assert pane.chosen().net_g == 800, "the one that was put right stays chosen"
    pane.table.setCurrentCell(0, 0)
    pane.table.setFocus()
    sitting.press(Qt.Key.Key_Delete)
    assert weighings_of(hands.kitchen, batch) == (first,)
    sitting.session.undo()
    assert weighings_of(hands.kitchen, batch) == (first, second)
    assert pane.table.rowCount() == 2


def test_the_air_an_instrument_read_stands_beside_its_weight_and_survives_a_correction(sitting, hands) -> None:
    batch = drying(sitting)
    hands.wait(1)
    sample = Sample(900.0, chamber_c=57.0, chamber_pct=18.0)
    kept = [Kept(NOON + timedelta(minutes=30), 900.0, sample)]
    sitting.session.act(record_kept, Instrument("the pantry scale", "log.csv", batch), kept)
    sitting.ctrl(Qt.Key.Key_L)
    pane = sitting.place.detail.weighings
    assert pane.table.item(0, 7).text() == "57 °C, 18 % humidity"
    sitting.press(ENTER)
    sitting.type("905 g", ENTER)
    (corrected,) = weighings_of(hands.kitchen, batch)
    assert (corrected.net_g, corrected.dryer_humidity_pct) == (905, 18)


def test_a_correction_that_cannot_be_stays_open_and_says_why(sitting, hands) -> None:
    drying(sitting)
    hands.wait(1)
    sitting.type("800", ENTER)
    sitting.ctrl(Qt.Key.Key_L)
    sitting.press(ENTER)
    pane = sitting.place.detail.weighings
    pane.at.edit.setText("2026-08-14 11:00")
    sitting.press(ENTER)
    assert pane.editor.isVisible()
    assert "before the batch was started" in pane.at.sentence.text()
    sitting.press(Qt.Key.Key_Escape)
    assert not pane.editor.isVisible()


def test_a_past_batch_opens_the_same_chart_and_can_go_back_on(sitting, hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 3, 5, 8))
    from dryhouse.kitchen.dryer.drying import take_off

    take_off(hands.kitchen, batch, Mass(190.0, "190 g"))
    hands.wait(30)
    running = drying(sitting)
    sitting.place.show_record("batch", batch)
    detail = sitting.place.detail
    assert detail.run.batch.id == batch
    assert detail.pages.currentIndex() == CHART
    picture = detail.chart.picture()
    assert len(picture.runs[0].hours) == 6
    assert picture.runs[0].band is None
    assert detail.again.isVisible()
    detail.left.emit()
    assert detail.run.batch.id == running
    sitting.place.show_record("batch", batch)
    detail._reopen()
    assert batch in sitting.place.strips
    assert sitting.place.past is None


def test_other_batches_of_the_food_are_laid_over(sitting, hands) -> None:
    from dryhouse.kitchen.dryer.drying import take_off

    old = hands.start()
    hands.dry(old, (1, 2, 3, 5, 8))
    take_off(hands.kitchen, old)
    hands.wait(30)
    drying(sitting)
    hands.wait(1)
    sitting.type("800", ENTER)
    chart = sitting.place.detail.chart
    chart._offer()
    (action,) = chart.menu.actions()
    assert action.text() == f"batch {old}, 14 Aug 2026"
    action.trigger()
    assert [r.name for r in chart.picture().runs] == ["batch 2, 16 Aug 2026", f"batch {old}, 14 Aug 2026"]
    chart.set_compared(old, False)
    assert len(chart.picture().runs) == 1


def test_what_cannot_be_chosen_for_the_chart_says_why(sitting, hands) -> None:
    batch = drying(sitting)
    chart = sitting.place.detail.curves.chart
    chart.show_run(sitting.place.runs[batch])
    assert chart.time.isEnabled()
    assert chart.residuals.toolTip() == "How far each weighing lies from the curve"
    chart.set_compared(batch, True)
    for widget in (chart.time, chart.residuals):
        assert not widget.isEnabled()
        assert widget.toolTip().startswith("While comparing")
    chart.set_compared(batch, False)
    chart.view.set_value("drying rate")
    assert "against the moisture" in chart.time.toolTip()
    chart.view.set_value(MASS)
    assert chart.time.isEnabled()
    assert not chart.time.toolTip()


def test_the_chart_is_read_in_every_way_and_copied(sitting, hands) -> None:
    batch = drying(sitting)
    hands.dry(batch, (1, 2, 3, 5, 8))
    sitting.place.runs.forget()
    sitting.place.mark_stale()
    sitting.place.arrive()
    sitting.place.detail.turn_to(CURVES)
    chart = sitting.place.detail.curves.chart
    for value, _ in MODEL_VIEWS:
        chart.view.set_value(value)
        assert chart.view.value() == value
        image = chart.plot.canvas.grab().toImage()
        assert image.width() > 0
    chart.view.set_value(MASS)
    chart.residuals.setChecked(True)
    assert len(chart.picture().runs[0].residual_grams) == 6
    chart.plot.copy_data()
    assert QApplication.clipboard().text().startswith("run\ttime\thours\tgrams")
    assert "6 points from 1 kg to" in chart.plot.canvas.accessibleDescription()


def test_the_run_is_printed_with_its_chart_and_its_weighings(sitting, hands) -> None:
    assert sitting.place.printout() is None
    drying(sitting)
    hands.wait(1)
    sitting.type("800", ENTER)
    page = sitting.place.printout()
    text = page.toPlainText()
    assert "Apple, batch 1" in text
    assert "82 % moisture (" in text
    assert "800 g" in text
    assert not page.resource(page.ResourceType.ImageResource, QUrl("chart.png")).isNull()


def test_words_of_the_models_stand_under_curves_alone(sitting, hands) -> None:
    batch = drying(sitting)
    hands.dry(batch, (1, 2, 3, 5, 8))
    sitting.place.runs.forget()
    sitting.place.mark_stale()
    sitting.place.arrive()
    models = re.compile("AICc|residual|basis|moisture ratio|Page|Lewis", re.IGNORECASE)
    for page in (CHART, WEIGHINGS, FIGURES):
        sitting.place.detail.turn_to(page)
        said = " ".join(text for text, _seen in texts(sitting.place))
        assert not models.search(said), said
    sitting.place.detail.turn_to(CURVES)
    assert {"AICc", "Residuals", "Page"} <= set(" ".join(text for text, _ in texts(sitting.place)).split())


def test_what_is_planned_is_folded_while_something_dries_and_opened_when_it_is_due(qtbot) -> None:
    far, near = NOON + timedelta(days=60), NOON + timedelta(days=3)
    planned_apple = Batch("apple", state=PLANNED, prepared_mass=Mass(900.0, "900 g"), started=far, id=40)
    hands = Hands(planned_apple)
    hands.start(1000.0)
    sitting = Sitting(qtbot, hands)
    waiting = sitting.place.column.waiting
    assert waiting.fold.accessibleName() == "1 planned"
    assert waiting.isVisible()
    assert not waiting.is_open
    hands.time = near + timedelta(days=55)
    sitting.place.mark_stale()
    sitting.place.arrive()
    assert waiting.is_open


def test_every_fitted_model_is_listed_with_the_chosen_one_named(sitting, hands) -> None:
    batch = drying(sitting)
    hands.dry(batch, (1, 2, 3, 5, 8))
    sitting.place.runs.forget()
    sitting.place.mark_stale()
    sitting.place.detail.turn_to(CURVES)
    assert "smallest AICc" in sitting.place.detail.curves.said.text()
    curves = sitting.place.detail.curves.table
    names = [curves.item(n, 0).text() for n in range(curves.rowCount())]
    assert {"Lewis", "Page"} <= set(names)
    chosen = [curves.item(n, 0).text() for n in range(curves.rowCount()) if curves.item(n, 1).text() == "chosen"]
    assert chosen == ["Page"]


def test_a_planned_batch_waits_here_and_is_started(qtbot) -> None:
    hands = Hands(Batch("apple", state=PLANNED, prepared_mass=Mass(900.0, "900 g"), id=40))
    sitting = Sitting(qtbot, hands)
    waiting = sitting.place.column.waiting
    assert waiting.isVisible()
    assert waiting.is_open
    sitting.place.show_record("batch", 40)
    form = sitting.place.form
    assert form.heading.text() == "Start a planned batch"
    assert form.fields["prepared_mass"].text() == "900 g"
    sitting.press(ENTER)
    assert list(sitting.place.strips) == [40]
    assert hands.journal.get(Batch, 40).started == NOON
    assert not waiting.isVisible()


def test_a_start_that_is_refused_says_so_at_its_entry(sitting, hands) -> None:
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("apple", ENTER)
    form = sitting.place.form
    form.fields["trays"].edit.setText("40")
    form.start()
    assert "has 6 trays" in form.fields["trays"].sentence.text()
    assert hands.journal.where(Batch) == ()
    sitting.press(Qt.Key.Key_Escape)
    assert sitting.place.side.currentWidget() is not form


def test_a_start_that_was_left_is_offered_and_never_swallows_the_next(sitting) -> None:
    form = sitting.place.form
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("apple", ENTER)
    form.fields["prepared_mass"].edit.setText("2 lb")
    sitting.press(Qt.Key.Key_Escape)
    sitting.ctrl(Qt.Key.Key_N)
    assert form.food.is_empty()
    assert form.fields["prepared_mass"].is_empty()
    assert form.offer.asked.text() == "Go on with apple, 2 lb?"
    form.offer.go_on.click()
    assert form.food.value().slug == "apple"
    assert form.fields["prepared_mass"].text() == "2 lb"


def test_habits_of_the_last_batch_stand_ready(sitting, hands) -> None:
    drying(sitting)
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("apple", ENTER)
    form = sitting.place.form
    assert form.fields["trays"].text() == "4"
    assert form.fields["set_temperature"].text() == "57 C"
    assert form.fields["prepared_mass"].text() == ""
    assert "Remembered" in form.remembered.text()


def test_a_file_is_previewed_put_right_and_brought_in(sitting, hands, tmp_path, monkeypatch) -> None:
    batch = drying(sitting)
    hands.wait(20)
    path = tmp_path / "weighings.csv"
    path.write_text("hours,grams\n1,810\n2,about 600\n4,412\n")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *a, **k: (str(path), ""))
    sitting.ctrl(Qt.Key.Key_I)
    page = sitting.place.file
    assert sitting.place.side.currentWidget() is page
    assert page.summary.text() == "2 weighings can be imported; 1 line cannot be read and would be left out."
    assert page.table.item(1, 3).text().startswith("“about 600”")
    assert weighings_of(hands.kitchen, batch) == ()
    page.unit.set_value("oz")
    assert [row.gross.si for row in page.mapped.rows] == [pytest.approx(412 * 28.349523125)]
    assert "number and its unit" in page.table.item(0, 3).text()
    page.unit.set_value("g")
    page.go.setFocus()
    sitting.press(Qt.Key.Key_Space)
    assert [w.net_g for w in weighings_of(hands.kitchen, batch)] == [810, 412]
    assert sitting.place.side.currentWidget() is sitting.place.detail
    sitting.session.undo()
    assert weighings_of(hands.kitchen, batch) == ()


@pytest.fixture
def with_turkey() -> Hands:
    hands = Hands()
    turkey = Food(
        "turkey", "turkey", (), "poultry",
        facts={"water": Fact(74.0, "%", "a test's own figure"), "target_moisture": Fact(8.0, "%", "the same")},
        traits=frozenset({"animal"}),
    )  # fmt: skip
    hands.kitchen = Kitchen(hands.journal, Handbook({"turkey": turkey}), now=lambda: hands.time, zone=UTC)
    return hands


def test_meat_without_a_recorded_precook_says_stop_on_its_strip_and_when_taken_off(qtbot, with_turkey) -> None:
    batch = with_turkey.start(1000.0, food="turkey")
    sitting = Sitting(qtbot, with_turkey)
    view = sitting.place.strips[batch].cautions
    assert view.isVisible()
    assert view.cautions == sitting.place.runs[batch].cautions
    assert any(c.severity == "stop" for c in view.shown)
    assert all(row.isVisible() for row in view.rows)
    sitting.ctrl(Qt.Key.Key_T)
    assert sitting.place.take_off.cautions.cautions == sitting.place.runs[batch].cautions
    assert sitting.place.take_off.cautions.y() < sitting.place.take_off.mass.y()
    run = sitting.place.runs[batch]
    for figure in (run.moisture, run.moisture_ratio, run.moisture_dry_basis, run.target_mass):
        assert any(c.severity == "stop" for c in figure.cautions)


def test_the_form_says_stop_above_its_entries_until_the_heat_is_written_down(qtbot, with_turkey) -> None:
    sitting = Sitting(qtbot, with_turkey)
    form = sitting.place.form
    sitting.ctrl(Qt.Key.Key_N)
    sitting.type("turkey", ENTER)
    assert form.cautions.isVisible()
    assert form.cautions.y() < form.fields["prepared_mass"].y()
    before = stops_of(form.cautions.cautions)
    assert before
    form.fields["precook_temperature"].edit.setText("165 F")
    form.fields["precook_measured"].set_value("thermometer")
    form.fields["precook_method"].set_value("simmered or steamed")
    assert len(stops_of(form.cautions.cautions)) < len(before)


def test_every_entry_and_button_has_a_name(sitting, hands) -> None:
    from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit

    drying(sitting)
    kinds = (QAbstractButton, QComboBox, QLineEdit)
    nameless = [
        w
        for kind in kinds
        for w in sitting.place.findChildren(kind)
        if w.isVisible() and not (w.accessibleName() or (isinstance(w, QAbstractButton) and w.text()))
    ]
    assert nameless == []


def test_what_came_off_the_dryer_is_packed_from_its_page_until_all_of_it_is(sitting, hands) -> None:
    hands.start(1000.0)
    hands.wait(9)
    take_off(hands.kitchen, 1, Mass(180.0))
    sitting.place.show_record("batch", 1)
    button = sitting.place.detail.pack
    assert button.isVisible()
    asked = []
    sitting.session.open_asked.connect(lambda *where: asked.append(where))
    button.click()
    assert asked == [("shelf", "batch", 1)]
    sitting.session.act(pack, 1, [Package(mass=Mass(180.0))])
    sitting.place.show_record("batch", 1)
    assert not sitting.place.detail.pack.isVisible()


def test_the_right_button_on_a_strip_opens_what_else_can_be_done(sitting, hands) -> None:
    drying(sitting)
    strip = sitting.strip
    strip.customContextMenuRequested.emit(strip.rect().center())
    assert strip.more_button.menu().isVisible()
    strip.more_button.menu().close()


def test_where_there_is_no_dryer_the_form_has_the_way_to_add_one(sitting, hands) -> None:
    form = sitting.place.form
    for dryer in hands.journal.where(Dryer):
        hands.journal.write([Change(dryer, None)])
    sitting.place.start()
    assert form.no_dryers.isVisible()
    asked = []
    sitting.session.open_asked.connect(lambda *where: asked.append(where))
    form.no_dryers.button.click()
    assert asked == [("journal", "dryers", 0)]
    hands.journal.write([Change(None, Dryer("shelf dryer", 6, id=1))])
    sitting.place.start()
    assert not form.no_dryers.isVisible()


def test_the_same_again_starts_like_a_past_batch_with_what_is_loaded_still_to_be_typed(sitting, hands) -> None:
    hands.start(1000.0, form="rings", title="Ring")
    hands.wait(9)
    take_off(hands.kitchen, 1, Mass(180.0))
    sitting.session.open_asked.connect(lambda _place, kind, id: sitting.place.show_record(kind, id))
    sitting.place.show_record("batch", 1)
    sitting.place.detail.like.click()
    form = sitting.place.form
    assert form.isVisible()
    assert form.fields["prepared_mass"].text() == ""
    assert "As batch 1 was done" in form.remembered.text()
    sitting.type("900 g", ENTER)
    started = hands.journal.get(Batch, 2)
    assert (started.food, started.form, started.title, started.trays) == ("apple", "rings", "Ring", 4)
    assert started.prepared_mass.si == 900


def test_the_whole_day_is_one_picture_and_the_last_runs_of_the_food_lie_beside_it(sitting, hands) -> None:
    for _ in range(4):
        number = hands.start(1000.0)
        hands.dry(number, (1, 2, 3))
        if number < 4:
            take_off(hands.kitchen, number, Mass(200.0))
            hands.wait(24)
    sitting.place.mark_stale()
    sitting.place.arrive()
    chart = sitting.place.detail.chart
    chart.view.set_value(DAY)
    assert chart.plot.canvas.draw is draw_days
    assert not chart.time.isEnabled()
    chart.menu.aboutToShow.emit()
    assert chart.menu.actions()[0].text() == "The last 3 of them"
    chart.menu.actions()[0].trigger()
    assert len(chart.picture().runs) == 4


def test_what_is_asked_of_a_run_is_answered_by_one_press_and_undone(sitting, hands) -> None:
    batch = hands.start()
    for hour, grams in ((2, 600), (5, 300), (9, 170), (12, 160), (13, 160), (15, 160)):
        hands.time = NOON + timedelta(hours=hour)
        hands.weigh(batch, grams)
    sitting.place.refresh()
    questions = sitting.place.strips[batch].questions
    assert questions.isVisible()
    (yes,) = [b for b in questions.findChildren(QPushButton) if b.text() == "Yes, brittle"]
    yes.click()
    assert hands.kitchen.journal.get(Batch, batch).settled is True
    assert not questions.isVisible()
    assert sitting.place.runs[batch].load.solids == pytest.approx(160 / 1.04, rel=0.01)
    sitting.session.undo()
    assert hands.kitchen.journal.get(Batch, batch).settled is None
    assert questions.isVisible()
