"""Those who go on a trip, in words."""

from dryhouse.words.people import at_risk, does_not_eat, may_hold, no_such_food, person_words


def test_each_sentence_names_who_and_what():
    assert does_not_eat("bow", ["turkey"], "soup", "Wed 25 Aug dinner") == (
        "Bow does not eat turkey, which is in soup (Wed 25 Aug dinner)."
    )
    assert may_hold("bow", "nuts", ["sauce"], "stew").endswith("Read the label.")
    assert "look through every bag yourself" in no_such_food("bow", "glutamate")
    assert at_risk(["bow", "stern"], "soup", "Wed 25 Aug dinner").startswith("Bow and stern: at risk, and soup")


def test_what_a_person_gets_stands_beside_the_wish():
    assert person_words("bow", 1430.4, 3600.0) == "bow 1430 of 3600 kcal"
    assert person_words("bow", 1430.4, None) == "bow 1430 kcal"
    assert person_words("bow", None, None) == "bow energy not known"
