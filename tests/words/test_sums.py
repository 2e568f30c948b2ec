"""A sum that leaves something out says so beside the figure."""

from dryhouse.words.people import person_words
from dryhouse.words.sums import at_least_title, energy_words, gap_words, not_known_for


def test_a_whole_sum_is_said_as_it_is() -> None:
    assert energy_words(1842.0, ()) == "1840 kcal"
    assert energy_words(1842.0, (), 2500.0) == "1840 kcal of 2500 wanted"
    assert (gap_words(-658.0, ()), gap_words(120.0, ())) == ("660 short", "120 over")
    assert at_least_title("Energy", ()) == "Energy"
    assert not_known_for(()) == ""


def test_what_a_sum_leaves_out_makes_it_at_least_so_much_and_is_named() -> None:
    assert energy_words(1842.0, ("nori",)) == "at least 1840 kcal (not known for nori)"
    assert energy_words(1842.0, ("nori", "kelp"), 2500.0) == (
        "at least 1840 kcal of 2500 wanted (not known for nori, kelp)"
    )
    assert at_least_title("Energy", ("nori",)) == "Energy, at least"
    assert not_known_for(("nori", "kelp", "dulse", "roll")) == "not known for nori, kelp and 2 more"


def test_what_is_missing_can_only_make_less_short_and_more_over() -> None:
    assert gap_words(-658.0, ("nori",)) == "at most 660 short"
    assert gap_words(120.0, ("nori",)) == "at least 120 over"


def test_a_persons_share_of_such_a_sum_is_at_least_so_much() -> None:
    assert person_words("bow", 1430.0, 3600.0, at_least=True) == "bow at least 1430 of 3600 kcal"
    assert person_words("bow", None, 3600.0, at_least=True) == "bow energy not known of 3600 kcal"
