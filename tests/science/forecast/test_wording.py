"""What a forecast rests on."""

from dataclasses import replace

import numpy as np

from dryhouse.science.dry_matter import exactly, prior_belief
from dryhouse.science.forecast.answer import Beforehand, Equilibrium, Prior
from dryhouse.science.forecast.engine import Posterior
from dryhouse.science.forecast.shapes import shapes
from dryhouse.science.forecast.wording import bases, workings
from dryhouse.science.values import Basis
from tests.workings import read, rests_on

PRIOR = Prior(0.3, 1.0, 0.3, 0.2, Basis("own", "earlier runs", 3))


def test_every_assumption_is_a_basis_until_something_better_is_known():
    given = Beforehand(exactly(0.15), 15.0, basis=(Basis("handbook", "water of corn"),))
    assert [b.kind for b in bases(given)] == ["handbook", "assumption", "assumption"]
    assert [b.kind for b in bases(replace(given, prior=PRIOR))] == ["handbook", "assumption", "own"]
    damp = Equilibrium(0.08, 0.07, 0.09, Basis("handbook", "isotherm"))
    assert rests_on(bases(replace(given, equilibrium=damp, prior=PRIOR)))[1] == "handbook: isotherm"
    assert rests_on(bases(given))[1:] == [
        "assumption: food settles at 4 % (2 % to 9 %) of its dry matter",
        "assumption: speed unknown beforehand: half-time 20 min to 10 h",
    ]


def one_shape(halves):
    """Cells of one shape, alike but for their half-times."""
    ones = np.ones(len(halves))
    lewis = int(np.argmin(np.abs(shapes().page_n - 1.0)))
    return Posterior(np.full(len(halves), lewis), np.log(halves), 0.1 * ones, 0.05 * ones, ones / len(halves), 4.0,
                     0.08 * np.ones((len(halves), 5)), np.zeros(len(halves), dtype=int), ones)  # fmt: skip


def said(n=3, after=None, prior=PRIOR, doubt=0.0001):
    halves = np.linspace(2.0, 3.0, 101)
    found = one_shape(halves)
    before = Beforehand(prior_belief(15.0, doubt), 15.0, prior=prior)
    return read(workings(before, 500.0, after, 88.24, found, n)).split("\n")


def test_the_middle_and_the_ends_of_the_half_time_stand_in_the_workings():
    lines = said()
    assert lines == [
        "Dry matter 75 g of 500 g",
        "Weight at 15 % moisture: 75 g ÷ (1 − 15 %) = 88.24 g",
        "Settles at 0.04 of water for 1 of dry matter (0.02 to 0.09)",
        "Beforehand: Page k 0.3 per h^1, its rate good to a factor of 1.5",
        "3 weighings: half of the free water gone after 2.5 h (2.096 h to 2.904 h)",
        "Curve: bends as Page's does with n = 1 (mean over the 1 of 144 curves that the weighings allow)",
        "Model error: the run's clock wanders by 5 % for each e-fold of time (between 0.6 % and 25 %)",
    ]
    assert len(said(n=1)) == len(lines) - 3
    assert len(said(prior=None)) == len(lines) - 1


def test_dry_matter_that_is_in_doubt_or_was_learned_is_said():
    # 1.28 standard deviations of 8 % either way
    assert "67.69 g to 83.1 g" in said(doubt=0.08)[0]
    taught = said(after=prior_belief(18.0, 0.01))
    assert "What was weighed leaves 88.85 g to 91.16 g of dry matter (80 % likely); taken: 90 g" in taught
    assert any("90 g ÷ (1 − 15 %)" in line for line in taught)
