"""Handbook, own and joined, side by side."""

import math
from dataclasses import replace

import pytest

from dryhouse.science.values import Basis, Fact
from dryhouse.science.workings import StepKind, step
from dryhouse.science.yields.prior import Comparison, TableSpread
from dryhouse.science.yields.ratio import OwnBatch, PublishedRatio, by_handbook, by_own, joined
from tests.workings import read, rests_on

WATER = Fact(76.05, "%", "USDA 11167", n=103, standard_error=0.863)
TARGET = Fact(10.0, "%", "Utah State")
RAW, FINISH = Fact(0.184, "ln", "raw spread", "computed"), Fact(0.071, "ln", "finish spread", "computed")
TABLES = TableSpread(0.03, 0.01, 24)


def handbook(published=()):
    return by_handbook(WATER, TARGET, RAW, FINISH, TABLES, published)


def test_with_no_own_batch_the_answer_is_the_handbooks():
    theirs = handbook()
    assert joined(theirs, []) is theirs.ratio
    assert theirs.ratio.value == pytest.approx(23.95 / 90)


def test_each_own_batch_moves_the_answer_to_her():
    theirs, hers = handbook(), 0.20
    gaps = [abs(math.log(joined(theirs, [OwnBatch(hers)] * n).value / hers)) for n in (0, 1, 2, 5, 20, 200)]
    assert gaps == sorted(gaps, reverse=True)
    assert gaps[-2] < 0.1 * gaps[0]


def test_many_own_batches_give_their_mean():
    hers = [OwnBatch(r) for r in (0.19, 0.21, 0.20, 0.22)] * 5000
    mean = math.exp(sum(math.log(b.ratio) for b in hers) / len(hers))
    assert joined(handbook(), hers).value == pytest.approx(mean, rel=1e-3)


def test_batches_of_another_form_count_half_and_that_is_said():
    full = joined(handbook(), [OwnBatch(0.2)] * 2)
    half = joined(handbook(), [OwnBatch(0.2, same=False)] * 2)
    assert 0.2 < full.value < half.value < 23.95 / 90
    assert "assumption: a batch of another form counts 0.5" in rests_on(half.basis)
    assert not any("another form" in line for line in rests_on(full.basis))


def test_own_figures_are_of_the_form_asked_for_where_there_are_any():
    mixed = by_own([OwnBatch(0.2), OwnBatch(0.4, same=False)])
    assert mixed.value == pytest.approx(0.2)
    assert by_own([OwnBatch(0.4, same=False)]).value == pytest.approx(0.4)
    assert by_own([]) is None


def test_one_batch_alone_has_no_interval_and_says_so():
    one = by_own([OwnBatch(0.2)])
    assert one.predictive is None
    assert "no interval" in read(one.workings)
    two = by_own([OwnBatch(0.2), OwnBatch(0.25)])
    assert two.predictive is not None
    # t of one degree at 90 % is 3.078; ln 0.25 ÷ 0.2 is 0.2231, and the standard deviation of the two 0.1578
    half = 3.0777 * 0.15779 * math.sqrt(1.5)
    low, high = (math.sqrt(0.05) * math.exp(sign * half) for sign in (-1, 1))
    assert read(two.workings).split("\n") == [
        "From 2 of your batches: 0.2236 dried for 1 prepared, the mean of their logarithms",
        f"By themselves: 80 % between {low:.4g} and {high:.4g}",
    ]


def test_own_batches_stand_alone_where_the_handbook_is_silent():
    alone = joined(None, [OwnBatch(0.2), OwnBatch(0.3)])
    assert alone.value == pytest.approx(math.sqrt(0.06))
    assert joined(None, []) is None


def test_the_workings_can_be_followed_with_a_pencil():
    comparison, basis = Comparison("corn", "a table", 0.2, 0.05), Basis("handbook", "a table")
    arithmetic = step(StepKind.PUBLISHED_YIELD, 0.386, dried=(1134.0, "g"), prepared=(2939.0, "g"))
    published = PublishedRatio(comparison, (arithmetic,), basis)
    lines = read(joined(handbook([published]), [OwnBatch(0.25)] * 3).workings)
    for said in (
        "76.05 % water",
        "23.95 % ÷ 90 % = 0.2661",
        "Published: 1134 g dried ÷ 2939 g",
        "From 3 of your batches",
        "Joined",
    ):
        assert said in lines


def test_all_of_the_arithmetic_of_a_joined_yield():
    """The belief of the handbook is worth so many batches; two of hers, one of them of another form."""
    theirs = handbook()
    own = [OwnBatch(0.2), OwnBatch(0.25, same=False)]
    found = joined(theirs, own)
    weight = theirs.belief.weight
    mean = math.exp((math.log(0.2) + 0.5 * math.log(0.25)) / 1.5)
    value = math.exp((weight * math.log(theirs.ratio.value) + 1.5 * math.log(mean)) / (weight + 1.5))
    assert found.value == pytest.approx(value)
    lines = read(found.workings).split("\n")
    assert lines[:3] == [
        "Raw: 76.05 % water, so 23.95 % solids   [USDA 11167]",
        "Dried: 10 % water, so 90 % solids   [Utah State]",
        "Mass balance: 23.95 % ÷ 90 % = 0.2661 dried for 1 prepared",
    ]
    raw = 0.863 * math.sqrt(103) / 23.95 * 0.184
    stray = 100 * math.sqrt(raw + 0.071**2)
    assert lines[3].startswith(
        f"Varies from batch to batch by {stray:.0f} % (raw water, finish), and published yields"
    )
    assert "by a further 20 % (SD, 24 comparisons)" in lines[3]
    strays = next(line for line in found.workings if line.kind is StepKind.YIELD_STRAYS)
    assert [term.value for term in strays.terms] == pytest.approx([stray, 20.0, 24])
    assert lines[5].endswith("1 of your batches: 0.2 dried for 1 prepared, the mean of their logarithms")
    assert lines[6] == "One batch alone shows no spread, so it makes no interval"
    assert lines[7].endswith("yours as 1.5 (1 of another form count 0.5 each)")
    assert f"+ 1.5 × ln {mean:.4g}) ÷ {weight + 1.5:.3g}] = {value:.4g}, 80 % between " in lines[8]
    assert rests_on(found.basis)[0] == "your 2 records (dried ÷ prepared)"
    assert "assumption: the handbook's spread is worth 5 batches" in rests_on(found.basis)


def test_publications_are_counted_once_each_in_the_workings():
    def published(source):
        comparison = Comparison("corn", source, 0.2, 0.05)
        return PublishedRatio(comparison, (), Basis("handbook", source))

    one, two = (read(handbook([published(s) for s in names]).ratio.workings) for names in ("a", "ab"))
    assert "Joined with what is published (1 publication): " in one
    assert "Joined with what is published (2 publications): " in two
    unmoved = by_handbook(WATER, TARGET, RAW, FINISH, replace(TABLES, food=0.0), [published("a")])
    balance = by_handbook(WATER, TARGET, RAW, FINISH, replace(TABLES, food=0.0), [])
    assert unmoved.ratio.value == balance.ratio.value
    assert f"counts in the range alone; the middle stays at {balance.ratio.value:.4g}" in read(
        unmoved.ratio.workings
    )
    noted = by_handbook(WATER, Fact(10.0, "%", "Utah State", note="crisp"), RAW, FINISH, TABLES, [])
    assert "so 90 % solids (crisp)" in read(noted.ratio.workings)
