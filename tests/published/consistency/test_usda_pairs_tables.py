"""Nothing but water leaves a tray: raw and dried entries of USDA SR28 against each other.

Source: USDA National Nutrient Database for Standard Reference, release 28 (read). From the energy of the raw
food and both water contents, the dried food's energy follows. Of 21 pairs 16 agree within 5 %; the other
five are named here, each with the reason that its own entries show.
"""

from tests.published.readings import USDA_EXCEPTIONS, table

PAIRS = table("usda_sr28_raw_dried_pairs")


def test_there_are_21_pairs_and_16_are_expected_to_agree():
    assert len(PAIRS) == 21
    assert sum(pair["dried_ndb"] not in USDA_EXCEPTIONS for pair in PAIRS) == 16
