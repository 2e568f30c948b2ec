"""The chart of a run: what is laid over it, how it is read, copied and printed, and the words below it."""

from __future__ import annotations

import re

from PySide6.QtCore import QUrl
from PySide6.QtWidgets import QApplication

from dryhouse.desk.places.dryer.chart import DAY, MODEL_VIEWS
from dryhouse.desk.places.dryer.detail import CHART, CURVES, FIGURES, WEIGHINGS
from dryhouse.desk.places.dryer.live import draw_days
from dryhouse.kitchen.dryer.drying import CameOff, take_off
from dryhouse.plots.curve_picture import MASS
from dryhouse.science.quantities import Mass
from tests.desk.places.dryer.sitting import ENTER, drying
from tests.journeys.words_counted import texts


def test_a_past_batch_opens_the_same_chart_and_can_go_back_on(sitting, hands) -> None:
    batch = hands.start()
    hands.dry(batch, (1, 2, 3, 5, 8))
    from dryhouse.kitchen.dryer.drying import take_off

    take_off(hands.kitchen, batch, CameOff(Mass(190.0, "190 g")))
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


def test_the_whole_day_is_one_picture_and_the_last_runs_of_the_food_lie_beside_it(sitting, hands) -> None:
    for _ in range(4):
        number = hands.start(1000.0)
        hands.dry(number, (1, 2, 3))
        if number < 4:
            take_off(hands.kitchen, number, CameOff(Mass(200.0)))
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
