"""Those who go on a trip, in words."""

from dryhouse.words.people import at_risk, does_not_eat, may_hold, no_such_food, person_words


def test_each_sentence_names_who_and_what():
    assert does_not_eat("bow", ["turkey"], "soup", "Wed 25 Aug dinner") == (
        "Bow does not eat turkey, which is in soup (Wed 25 Aug dinner)."
    )
    assert may_hold("bow", "nuts", ["sauce", "bouillon"], "stew") == (
        "Bow avoids nuts; what is in sauce, bouillon of stew is not recorded. Read the label."
    )
    assert no_such_food("bow", "glutamate") == (
        "Bow avoids glutamate, which is no food or kind known here: look through every bag yourself."
    )
    assert at_risk(["bow", "stern"], "soup", "Wed 25 Aug dinner") == (
        "Bow and stern: at risk, and soup (Wed 25 Aug dinner) holds home-dried animal food that is not known to be "
        "heated."
    )


def test_what_a_person_gets_stands_beside_the_wish():
    assert person_words("bow", 1430.4, 3600.0) == "bow 1430 of 3600 kcal"
    assert person_words("bow", 1430.4, None) == "bow 1430 kcal"
    assert person_words("bow", None, 3600.0) == "bow energy not known of 3600 kcal"
    assert person_words("bow", None, None) == "bow energy not known"
