"""What a forecast rests on."""

from dryhouse.science.forecast.answer import Prior
from dryhouse.science.forecast.wording import bases
from dryhouse.science.values import Basis

PRIOR = Prior(0.3, 1.0, 0.3, 0.2, Basis("own", "earlier runs", 3))


def test_every_assumption_is_a_basis_until_something_better_is_known():
    given = (Basis("handbook", "water of corn"),)
    assert [b.kind for b in bases(given, None, None)] == ["handbook", "assumption", "assumption"]
    assert [b.kind for b in bases(given, None, PRIOR)] == ["handbook", "assumption", "own"]
