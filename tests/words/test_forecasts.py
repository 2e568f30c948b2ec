"""A forecast in words: one sentence on every surface, and it says how little it knows."""

import math
from dataclasses import dataclass

from dryhouse.science.display import METRIC, Style
from dryhouse.science.forecast.answer import Finish
from dryhouse.words.forecasts import (
    bands_sentence,
    finish_sentence,
    from_the_first,
    likely_sentence,
    now_sentence,
    stop_sentences,
)
from tests.rows import every_row

FINISH = Finish(5.0, 6.0, 7.0, 8.0, 10.0)
HOURS = from_the_first(Style())


@dataclass(frozen=True)
class Ahead:
    """What a sentence asks of a forecast."""

    finish: Finish = FINISH
    reached_at: float | None = None
    weighings: int = 5
    expected: bool = False
    stops: tuple[tuple[float, float], ...] = ()


@every_row(
    ("hours", "text"),
    [(0.5, "30 min"), (0.99, "59 min"), (1.0, "1 h"), (9.46, "9.5 h"), (99.4, "99.4 h"), (100.4, "100 h")],
)
def test_hours(hours, text):
    assert HOURS(hours) == text


def test_the_decimal_comma_reaches_the_hours():
    assert from_the_first(Style(METRIC, decimal_comma=True))(9.46) == "9,5 h"


def test_the_middle_and_both_bands_are_said():
    assert finish_sentence(Ahead(), HOURS) == (
        "Dry about 7 h. Even odds: between 6 h and 8 h. 80 %: between 5 h and 10 h."
    )


@every_row(
    ("finish", "said"),
    [
        (Finish(9.9, 10.0, 10.1, 10.2, 10.3), "Dry about 10.08 h. Even odds: between 10 h and 10.25 h."),
        (Finish(9.4, 9.8, 10.1, 10.4, 10.9), "Dry about 10 h. Even odds: between 9.75 h and 10.5 h."),
        (Finish(8.4, 9.3, 10.3, 11.1, 12.9), "Dry about 10.5 h. Even odds: between 9 h and 11.5 h."),
        (Finish(9.9, 10.0, 10.1, 10.2, 10.4), "Dry about 10 h. Even odds: between 10 h and 10.25 h."),
        (Finish(9.0, 9.8, 10.1, 10.4, 11.0), "Dry about 10 h. Even odds: between 9.5 h and 10.5 h."),
        (Finish(8.0, 9.3, 10.3, 11.1, 14.0), "Dry about 10 h. Even odds: between 9 h and 12 h."),
        (Finish(6.4, 8.3, 10.4, 13.1, 17.9), "Dry about 10 h. Even odds: between 8 h and 14 h."),
    ],
)
def test_the_wider_the_doubt_the_coarser_the_hours(finish, said):
    assert finish_sentence(Ahead(finish), HOURS).startswith(said)


def test_rounding_never_narrows_a_band():
    told = Ahead(Finish(8.4, 9.3, 10.3, 11.1, 12.9))
    assert bands_sentence(told, HOURS).endswith("80 %: between 8 h and 13 h.")
    assert likely_sentence(told, HOURS) == "Likely 8 h to 13 h."
    assert likely_sentence(told, HOURS, now=9.0) == "Likely by 13 h."


def test_what_should_be_dry_by_now_is_to_be_weighed():
    assert finish_sentence(Ahead(), HOURS, passed=True).startswith("Likely dry since about 7 h: weigh it.")


def test_one_weighing_is_called_one():
    said = finish_sentence(Ahead(weighings=1), HOURS)
    assert "One weighing so far, and nothing is known of how fast this load dries: weigh again" in said
    assert "One weighing so far: weigh again" in finish_sentence(Ahead(weighings=1, expected=True), HOURS)


def test_few_weighings_are_rough_unless_earlier_runs_stand_behind_them():
    assert "this is rough" in finish_sentence(Ahead(weighings=3), HOURS)
    assert "this is rough" not in finish_sentence(Ahead(weighings=3, expected=True), HOURS)
    assert "this is rough" not in finish_sentence(Ahead(weighings=4), HOURS)


def test_a_band_without_an_end_and_a_load_that_never_gets_there():
    open_end = Ahead(Finish(5.0, 6.0, 7.0, math.inf, math.inf))
    assert bands_sentence(open_end, HOURS) == (
        "Even odds: after 6 h, with no sure latest time yet. 80 %: after 5 h, with no sure latest time yet."
    )
    never = Ahead(Finish(5.0, 6.0, math.inf, math.inf, math.inf))
    assert finish_sentence(never, HOURS).startswith("It is levelling off above the target")
    assert bands_sentence(never, HOURS) == ""


def test_what_was_reached_is_not_forecast():
    reached = Ahead(reached_at=6.5)
    assert finish_sentence(reached, HOURS) == "The target weight was reached about 6.5 h."
    assert finish_sentence(reached, HOURS, spans=True) == "The target weight was reached after about 6.5 h."
    assert bands_sentence(reached, HOURS) == ""
    doubted = finish_sentence(reached, HOURS, doubted=True)
    assert doubted.startswith("The usual target weight was reached about 6.5 h, but")
    assert "weigh again" in doubted


def test_a_load_more_likely_dry_than_not_is_not_told_to_wait():
    assert finish_sentence(Ahead(), HOURS, likely=0.6) == "More likely dry than not by now: check by hand."
    assert finish_sentence(Ahead(), HOURS, likely=0.5) == "More likely dry than not by now: check by hand."
    assert finish_sentence(Ahead(), HOURS, likely=0.4).startswith("Dry about 7 h.")


def test_a_run_that_levels_off_names_a_drier_start_as_the_likely_cause():
    levelling = Ahead(finish=Finish(4.0, 5.0, 7.0, math.inf, math.inf))
    assert "it may have started drier than the handbook says" in finish_sentence(levelling, HOURS, likely=0.3)
    assert "levelling off" not in finish_sentence(levelling, HOURS)
    assert "levelling off" not in finish_sentence(Ahead(), HOURS, likely=0.3)


def test_the_band_alone_is_said_until_it_has_begun_and_while_it_lasts():
    said = {now: likely_sentence(Ahead(), HOURS, now) for now in (4.9, 5.0, 9.9, 10.0)}
    assert said == {
        4.9: "Likely 5 h to 10 h.", 5.0: "Likely by 10 h.", 9.9: "Likely by 10 h.", 10.0: "Likely 5 h to 10 h.",
    }  # fmt: skip
    assert likely_sentence(Ahead(), HOURS) == "Likely 5 h to 10 h."
    assert likely_sentence(Ahead(reached_at=6.5), HOURS) == ""
    never = Finish(5.0, 6.0, math.inf, math.inf, math.inf)
    assert likely_sentence(Ahead(never), HOURS) == ""
    open_end = Ahead(Finish(5.0, 6.0, 7.0, 8.0, math.inf))
    assert likely_sentence(open_end, HOURS, 6.0) == "Likely after 5 h, with no sure latest time yet."


def test_a_standstill_is_asked_about_and_this_minute_has_its_weight():
    assert stop_sentences(Ahead(stops=((2.0, 3.5),)), HOURS) == [
        "It lost almost nothing between 2 h and 3.5 h, and the forecast leaves that time out. Was the dryer off?"
    ]
    assert now_sentence((240.0, 250.0, 260.0), (3.6, 7.4, 11.2), Style(METRIC)) == (
        "Now about 250 g (240 g to 260 g), 7 % moisture (4 % to 11 %)."
    )
