"""What is said where a plan cannot be met."""

from dryhouse.words.shortfalls import (
    PAST,
    another_dryer,
    bag_lacks,
    buy_all_dried,
    buy_dried,
    cannot_be_ready,
    leave_out,
    no_hours_fit,
    no_time,
    one_more_week,
    whole_of,
)


def test_bags_are_counted_as_one_speaks():
    assert whole_of(0, 1) == "The one bag cannot be complete."
    assert whole_of(0, 4) == "No bag can be complete."
    assert whole_of(3, 4) == "3 of the 4 bags can be complete."
    assert whole_of(0, 2) == "No bag can be complete."
    assert bag_lacks("Sun 22 Aug dinner", ["1 oz of corn", "2 oz of leek"]) == (
        "Sun 22 Aug dinner: lacks 1 oz of corn, 2 oz of leek."
    )
    assert bag_lacks("2 bags", ["1 oz of corn"], 2) == "2 bags: each lacks 1 oz of corn."
    assert leave_out(1) == "Leave out the bag that lacks something."
    assert leave_out(2) == "Leave out the 2 bags that lack something."


def test_each_alternative_says_what_it_would_give():
    assert buy_dried("4 oz", "carrot", 1, 1) == "Buy 4 oz of dried carrot: then the bag is complete."
    assert another_dryer("box dryer", 3, 3) == "A second dryer like box dryer: then every bag is complete."
    assert another_dryer("box dryer", 2, 3).endswith("then 2 of the 3 bags are complete.")
    assert (
        buy_all_dried("carrot, onion", 2, 2)
        == "Buy all of these dried (carrot, onion): then every bag is complete."
    )
    assert one_more_week(4, 5) == "One more weekend, leaving a week later: then 4 of the 5 bags are complete."
    assert another_dryer("box dryer", 1, 3).endswith("then 1 of the 3 bags is complete.")


def test_a_lack_of_time_names_the_conditioning():
    assert no_time(12.2, 0) == "no dryer is free for 12 h before departure"
    assert no_hours_fit(16.2) == (
        "no run of 16 h fits the hours you keep: let dryers run at night, or change the hours"
    )
    assert no_time(12.2, 10) == "no dryer is free for 12 h and 10 days of conditioning before departure"


def test_what_cannot_be_ready_is_said_of_all_of_it_or_of_a_part():
    part, whole = (cannot_be_ready("onion", short, "8 oz", PAST) for short in ("2 oz", "8 oz"))
    assert part.startswith("onion: 2 oz of the 8 oz dried cannot be ready: ")
    assert whole.startswith("onion: none of the 8 oz dried can be ready: ")
