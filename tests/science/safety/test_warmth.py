"""Two hours above 40 °F, one above 90 °F (USDA, the danger zone); a time nobody knows is too long."""

import pytest

from dryhouse.science.safety.warmth import HOT_C, WARM_C, stood_too_warm
from dryhouse.words.messages import message_words
from tests.rows import every_row


@every_row(
    ("warm", "hot", "why"),
    [
        (0.0, 0.0, ""),
        (120.0, 60.0, ""),
        (120.1, 0.0, "more than 2 hours"),
        (90.0, 61.0, "more than 1 hour"),
        (None, None, "not known"),
        (None, 0.0, "not known"),
        (30.0, None, "not known"),
    ],
)
def test_what_stood_too_warm_is_said_with_its_limit(warm, hot, why):
    said = stood_too_warm(warm, hot)
    assert (said is None) if not why else why in message_words(said)


def test_the_limits_are_40_and_90_degrees_fahrenheit():
    assert pytest.approx((40, 90)) == (WARM_C * 1.8 + 32, HOT_C * 1.8 + 32)
