"""Those who go on a trip, in words."""

from dryhouse.words.people import at_risk, does_not_eat, may_hold, no_such_food


def test_each_sentence_names_who_and_what():
    assert does_not_eat("bow", ["turkey"], "soup", "Wed 25 Aug dinner") == (
        "Bow does not eat turkey, which is in soup (Wed 25 Aug dinner)."
    )
    assert may_hold("bow", "nuts", ["sauce"], "stew").endswith("Read the label.")
    assert "look through every bag yourself" in no_such_food("bow", "glutamate")
    assert at_risk(["bow", "stern"], "soup", "Wed 25 Aug dinner").startswith("Bow and stern: at risk, and soup")
