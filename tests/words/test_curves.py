"""What is told of fitted curves."""

from dryhouse.science.curves import fit_all
from dryhouse.words.curves import curve_lines


def test_why_a_curve_is_shown_comes_before_what_is_odd_about_the_weighings():
    hours = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0]
    why, rise = curve_lines(fit_all(hours, [1.0, 0.7, 0.5, 0.55, 0.3, 0.2]))
    assert why == (
        "Lewis has the smallest AICc of the 3 models that 6 weighings allow; 3 with more parameters were left out."
    )
    assert rise == (
        "The weight rises 1 time, most between 2 h and 3 h (MR by 0.05): a scale reading, a swapped tray or food "
        "added?"
    )


def test_without_weighings_there_is_no_curve_and_it_says_how_many_it_needs():
    assert curve_lines(fit_all([], [])) == [
        "No weighings: a curve needs at least 3, and 5 to choose between models."
    ]
    (one,) = curve_lines(fit_all([0.0], [1.0]))
    assert one.startswith("1 weighing so far: a curve needs at least 3")
