"""What is said of a chart to whoever cannot see it."""

from datetime import date

from dryhouse.words import charts
from dryhouse.words.charts import shelf_sentence, yields_sentence


def test_a_shelf_is_told_as_it_is_today_or_as_it_will_be():
    assert shelf_sentence(3, 1, 1, None, 0) == "1 of 3 lots are past their keep-by"
    assert shelf_sentence(3, 2, 1, date(2027, 8, 6), 2) == (
        "2 of 3 lots will have passed their keep-by on 6 Aug 2027, 1 of them already; 2 more have no keep-by"
    )
    assert shelf_sentence(3, 2, 0, date(2027, 8, 6), 1).endswith("on 6 Aug 2027; 1 more has no keep-by")


def test_a_yield_without_interval_or_own_batch_says_neither():
    assert yields_sentence("leek", [("Handbook", 9.81, None, None)], None) == (
        "Dried weight of leek in per cent of the prepared: Handbook 9.8 %."
    )
    own = ("Yours", 23.4, 19.4, 45.2)
    assert yields_sentence("leek", [("Handbook", 9.81, None, 12.0), own], 22.6) == (
        "Dried weight of leek in per cent of the prepared: Handbook 9.8 %; Yours 23 %, likely 19 % to 45 %; "
        "last batch 23 %."
    )


def test_what_is_written_in_a_chart():
    assert [charts.percent(value) for value in (5.44, 9.94, 10.0, 10.4, 26.6)] == [
        "5.4 %", "9.9 %", "10 %", "10 %", "27 %",
    ]  # fmt: skip
    assert (charts.last(22.6), charts.span(19.4, 45.2)) == ("last: 23 %", "19 % to 45 %")
    assert (charts.weight("oz"), charts.residual("oz")) == ("Weight (oz)", "Residual (oz)")
    assert (charts.air(True), charts.air(False)) == ("Dryer (°F)", "Dryer (°C)")
    assert (charts.curve("Page"), charts.curve(""), charts.target("20 %")) == ("Page curve", "", "target 20 %")
