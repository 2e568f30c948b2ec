"""What is said of a chart to whoever cannot see it."""

from datetime import date

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
