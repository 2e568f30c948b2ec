"""When a run is done: what anyone weighing trays would expect of a forecast."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryhouse.science.display import Style
from dryhouse.science.dry_matter import exactly, prior_belief
from dryhouse.science.errors import InputProblem
from dryhouse.science.forecast import (
    Beforehand,
    Equilibrium,
    PageRun,
    Prior,
    forecast,
    prior_from_hours,
    prior_from_published,
)
from dryhouse.science.moisture import TYPED_DOUBT
from dryhouse.science.values import Basis, Fact
from dryhouse.words.forecasts import finish_sentence, from_the_first
from dryhouse.words.messages import problem_sentence
from tests.workings import read

DRY = 75.0
SOLIDS = exactly(DRY / 500)
ENTERED = Basis("entered", "the starting moisture given")


def load(hours, half=2.5, n=1.15, level=DRY * 1.03, first=500.0, step=1.0):
    """Masses of a Page run, read on a scale with this step."""
    k = np.log(2.0) / half**n
    mass = level + (first - level) * np.exp(-k * np.asarray(hours, float) ** n)
    return np.round(mass / step) * step


def when(target_pct, half=2.5, n=1.15, level=DRY * 1.03, first=500.0):
    aim = DRY / (1 - target_pct / 100)
    k = np.log(2.0) / half**n
    return float((-np.log((aim - level) / (first - level)) / k) ** (1 / n))


def ahead(hours, grams=None, target=15.0, **more):
    grams = load(hours) if grams is None else grams
    return forecast(hours, grams, Beforehand(**{"solids": SOLIDS, "target_moisture_pct": target} | more))


class TestTheFinish:
    def test_quantiles_stand_in_order_and_after_the_last_weighing(self):
        f = ahead([0, 1, 2, 3, 4]).finish
        assert 4 < f.low80 < f.low50 < f.median < f.high50 < f.high80

    def test_truth_lies_in_the_band_and_the_band_narrows_with_weighing(self):
        widths = []
        for last in (2, 4, 6, 8):
            f = ahead(np.arange(0, last + 0.1, 0.5)).finish
            assert f.low80 < when(15.0) < f.high80
            widths.append(f.high80 - f.low80)
        assert widths[0] > max(widths[1:3]) > widths[3]

    @pytest.mark.parametrize("settles", [0.0, 0.01, 0.03, 0.06])
    def test_a_starting_moisture_that_was_told_may_count_what_never_dries_away(self, settles):
        """Told from what a like load came to in the same dryer, the dry matter is the level itself; told from a
        table, the load settles a little above it. Six runs of each, seen to half and to seven tenths of it."""
        held, off = [], []
        for half in (1.2, 2.5, 4.0):
            for n in (0.9, 1.15):
                run = {"half": half, "n": n, "level": DRY * (1.0 + settles)}
                done = when(10.0, **run)
                for share in (0.5, 0.7):
                    hours = np.linspace(0.0, share * done, 8)
                    told = {"solids": prior_belief(100 * DRY / 500, TYPED_DOUBT), "as_told": True}
                    found = ahead(hours, load(hours, **run), 10.0, **told).finish
                    held.append(found.low80 <= done <= found.high80)
                    off.append(found.median / done - 1.0)
        assert np.mean(held) >= 0.8
        assert abs(np.median(off)) < 0.08

    def test_a_drier_target_takes_longer(self):
        hours = [0, 1, 2, 3, 4]
        medians = [ahead(hours, target=t).finish.median for t in (30, 20, 12, 8)]
        assert medians == sorted(medians)

    def test_minutes_or_days_only_stretch_the_clock(self):
        hours = np.array([0, 1, 2, 3, 4.0])
        grams = load(hours)
        usual, slow = (forecast(hours * s, grams, Beforehand(SOLIDS, 15.0)).finish for s in (1.0, 3.0))
        assert slow.median == pytest.approx(3 * usual.median, rel=0.05)

    def test_the_same_whatever_the_unit_of_mass(self):
        hours = np.array([0, 1, 2, 3, 4.0])
        grams = load(hours)
        one = forecast(hours, grams, Beforehand(SOLIDS, 15.0)).finish
        ten = forecast(hours, grams * 10, Beforehand(SOLIDS, 15.0)).finish
        assert ten.median == pytest.approx(one.median, rel=1e-9)

    def test_a_coarser_scale_never_makes_the_band_narrower_by_much(self):
        hours = np.arange(0, 3.1, 0.5)
        fine = ahead(hours, load(hours, step=0.01)).finish
        coarse = ahead(hours, load(hours, step=10.0)).finish
        assert coarse.high80 - coarse.low80 > 0.95 * (fine.high80 - fine.low80)

    def test_a_starting_moisture_known_roughly_widens_the_band(self):
        hours = np.arange(0, 6.1, 0.5)
        sure, rough = ahead(hours).finish, ahead(hours, solids=prior_belief(100 * DRY / 500, 8 / DRY)).finish
        assert rough.high80 - rough.low80 > sure.high80 - sure.low80

    def test_the_dry_matter_is_learned_from_the_level_a_run_settles_at(self):
        hours = np.arange(0, 20.1, 1.0)
        expected = prior_belief(100 * 1.25 * DRY / 500.0, 0.15)
        after = forecast(hours, load(hours), Beforehand(expected, 15.0)).belief
        assert after.middle == pytest.approx(DRY / 500.0, rel=0.06)
        assert after.log_sd < 0.5 * expected.log_sd

    @pytest.mark.parametrize("n", [0.95, 1.05, 1.25])
    def test_a_run_between_two_shapes_of_the_grid_is_followed_to_the_end(self, n):
        hours = np.linspace(0, 0.7 * when(15.0, n=n), 13)
        told = ahead(hours, load(hours, n=n, step=0.1)).finish
        assert told.median == pytest.approx(when(15.0, n=n), rel=0.05)
        assert told.high80 - told.low80 < 0.2 * when(15.0, n=n)

    @settings(max_examples=25, deadline=None)
    @given(
        half=st.floats(0.3, 8.0),
        n=st.floats(0.8, 1.5),
        count=st.integers(2, 15),
        seen=st.floats(0.3, 0.9),
    )
    def test_always_an_answer_with_its_quantiles_in_order(self, half, n, count, seen):
        hours = np.linspace(0, seen * when(15.0, half, n), count)
        f = ahead(hours, load(hours, half, n)).finish
        values = [f.low80, f.low50, f.median, f.high50, f.high80]
        assert values == sorted(values)
        assert f.low80 >= hours[-1]
        assert np.isfinite(f.median)


def said(answer):
    """The forecast in its sentence, hours from the first weighing."""
    return finish_sentence(answer, from_the_first(Style()))


class TestAlreadyThere:
    def test_the_crossing_lies_between_the_weighings_that_bracket_it(self):
        answer = ahead([0, 2, 5, 8, 12, 14])
        assert answer.reached_at is not None
        assert answer.finish.low80 <= answer.reached_at <= answer.finish.high80
        assert answer.reached_at == pytest.approx(when(15.0), abs=1.5)
        assert answer.weigh_again_at is None
        assert "was reached" in said(answer)

    def test_where_the_dry_matter_is_in_doubt_the_load_s_own_target_counts_and_not_the_table_s(self):
        """The table says a quarter more dry matter than there is: its target weight is passed long before."""
        expected = prior_belief(100 * 1.25 * DRY / 500.0, 0.12)
        usual = 1.25 * DRY / 0.85
        early = np.arange(0, 11.1, 1.0)
        early = early[load(early) >= 0.93 * usual]
        assert load(early)[-1] < usual
        running = forecast(early, load(early), Beforehand(expected, 15.0))
        assert running.reached_at is None
        assert running.target_g == pytest.approx(running.belief.middle * 500.0 / 0.85)
        low, high = (f"{share * 500.0:.2f} g" for share in running.belief.quantiles([0.1, 0.9]))
        assert f"leaves {low} to {high} of dry matter" in read(running.workings)
        whole = np.arange(0, 20.1, 1.0)
        done = forecast(whole, load(whole), Beforehand(expected, 15.0))
        assert done.target_g == pytest.approx(DRY / 0.85, rel=0.06)
        assert done.reached_at == pytest.approx(when(15.0), abs=2.0)

    def test_a_weighing_that_went_back_above_the_target_does_not_count(self):
        hours = [0, 4, 8, 9, 10]
        assert ahead(hours, np.array([500, 200, 88, 95, 92.0])).reached_at is None


class TestHowLittleItKnows:
    def test_one_weighing_says_so_and_is_wide(self):
        answer = ahead([0.0], np.array([500.0]))
        assert "One weighing so far, and nothing is known of how fast this load dries" in said(answer)
        assert answer.finish.high80 > 8 * answer.finish.low80

    def test_earlier_runs_make_one_weighing_worth_something(self):
        mine = Prior(0.24, 1.15, 0.25, 0.12, Basis("own", "earlier runs", 3))
        answer = ahead([0.0], np.array([500.0]), prior=mine)
        assert "One weighing so far: weigh again" in said(answer)
        assert answer.finish.high80 < 4 * answer.finish.low80
        assert answer.finish.low80 < when(15.0) < answer.finish.high80
        assert mine.basis in answer.basis

    def test_weighings_overrule_what_was_expected(self):
        slow = Prior(0.03, 1.15, 0.25, 0.12, Basis("own", "earlier runs", 3))
        hours = np.arange(0, 6.1, 0.5)
        assert ahead(hours, prior=slow).finish.median == pytest.approx(ahead(hours).finish.median, rel=0.15)

    def test_a_run_that_levels_off_above_the_target_has_no_end_in_sight(self):
        hours = np.arange(0, 20.1, 1.0)
        stuck = load(hours, level=100.0)
        answer = ahead(hours, stuck)
        assert answer.finish.high80 == np.inf
        figure = answer.figure()
        assert figure is None or figure.high is None
        assert answer.finish.as_json()["high80"] is None
        assert "levelling off" in said(answer) or "no sure latest time" in said(answer)

    def test_damp_air_above_the_target_is_believed(self):
        damp = Equilibrium(0.25, 0.22, 0.28, Basis("handbook", "a test"))
        hours = np.arange(0, 6.1, 0.5)
        assert ahead(hours, equilibrium=damp).finish.high80 > 2 * ahead(hours).finish.high80


class TestOnTheWay:
    def test_mass_falls_from_the_last_weighing_towards_the_dry_matter(self):
        hours = np.arange(0, 5.1, 0.5)
        answer = ahead(hours)
        bands = answer.mass.at([5.0, 8.0, 12.0])
        assert bands.median[0] == pytest.approx(load(hours)[-1], abs=6)
        assert np.all(np.diff(bands.median) < 0)
        assert np.all(bands.low80 <= bands.low50)
        assert np.all(bands.low50 <= bands.median)
        assert np.all(bands.median <= bands.high50)
        assert np.all(bands.high50 <= bands.high80)
        assert bands.median[-1] > DRY * 0.9

    def test_moisture_and_mass_say_the_same(self):
        answer = ahead(np.arange(0, 5.1, 0.5))
        mass, moisture = answer.mass.at([7.0]), answer.moisture.at([7.0])
        assert moisture.median[0] == pytest.approx(100 * (1 - DRY / mass.median[0]), abs=0.1)

    def test_the_mass_is_told_from_the_last_weighing_to_past_the_latest_likely_finish(self):
        answer = ahead([0, 1, 2, 3, 4])
        assert answer.mass.hours[0] == 4.0
        assert answer.mass.hours[-1] == pytest.approx(1.15 * answer.finish.high80)
        reached = ahead([0, 2, 5, 8, 12, 14])
        assert reached.mass.hours[-1] == pytest.approx(1.15 * 1.5 * 14)
        assert list(answer.mass.hours) == list(answer.moisture.hours)

    def test_at_the_median_finish_the_median_mass_is_near_the_target(self):
        answer = ahead(np.arange(0, 7.1, 0.5))
        assert answer.mass.at([answer.finish.median]).median[0] == pytest.approx(answer.target_g, rel=0.05)

    def test_weigh_again_lies_between_now_and_the_early_end(self):
        for last in (1, 3, 6):
            answer = ahead(np.arange(0, last + 0.1, 0.5))
            assert last < answer.weigh_again_at <= answer.finish.low80 + 1e-9


class TestWorkingsAndBasis:
    def test_every_assumption_is_named(self):
        answer = ahead([0, 1, 2, 3, 4], basis=(ENTERED,))
        kinds = [b.kind for b in answer.basis]
        assert answer.basis[0] == ENTERED
        assert kinds.count("assumption") == 2
        said = read(answer.workings)
        assert "75 g ÷ (1 − 15 %) = 88.24 g" in said
        assert "Model error" in said

    def test_the_workings_say_how_well_the_dry_matter_is_known(self):
        assert "Dry matter 75 g of 500 g" in read(ahead([0, 1]).workings)
        rough = read(ahead([0, 1], solids=prior_belief(15.0, 0.1)).workings)
        assert "Dry matter 75 g (65.98 g to 85.26 g) of 500 g" in rough  # 75 g × e^(±1.28 × 0.1)

    def test_what_the_workings_put_in_the_middle_lies_between_its_ends(self):
        given = [
            step for step in ahead([0, 1, 2, 3, 4]).workings if {"low", "high"} <= {t.name for t in step.terms}
        ]
        assert len(given) > 2
        for step in given:
            said = {term.name: term.value for term in step.terms}
            low, high = said.pop("low"), said.pop("high")
            middle = said.get("drift", said.get("level", step.result.value if step.result else None))
            assert low <= middle <= high, step.kind
            assert low >= 0
            assert high < 100

    def test_the_figure_is_in_hours(self):
        figure = ahead([0, 1, 2, 3, 4]).figure()
        assert figure.unit == "h"
        assert figure.low < figure.value < figure.high
        assert figure.basis
        assert figure.workings


class TestWhatCannotBeUsed:
    @pytest.mark.parametrize(
        ("hours", "grams", "dry", "target", "word"),
        [
            ([], [], DRY, 15, "at least one"),
            ([0, 1], [500, float("nan")], DRY, 15, "weight above 0"),
            ([0, 1], [500, 0.0], DRY, 15, "weight above 0"),
            ([0, 1], [500, 400], DRY, 0, "between 0 and 100"),
            ([0, 1, 1], [500, 400, 390], DRY, 15, "order of time"),
            ([0, 1], [500, 400], DRY, 100, "between 0 and 100"),
            ([0, 1], [500, 400], 600, 15, "dry matter"),
            ([0, 1], [500, 400], 450, 15, "already as dry"),
            ([0, 1], [500, 560], DRY, 15, "weighs more"),
            ([0, 2, 4], [500, 499, 499], DRY, 15, "hardly moved"),
        ],
    )
    def test_says_what_is_wrong(self, hours, grams, dry, target, word):
        with pytest.raises(InputProblem) as problem:
            forecast(hours, grams, Beforehand(SOLIDS.scaled(dry / DRY * 500 / (grams or [1])[0]), target))
        assert word in problem_sentence(problem.value)

    def test_what_can_just_be_used_is(self):
        ahead([0, 1], [500, 510])  # two in a hundred heavier: an unsteady hand
        ahead([0, 0.04], [500, 499])  # two minutes and a half apart
        ahead([3, 4], [500, 400])
        assert ahead([0, 1], [500, 400], target=0.5).target_g > DRY
        assert ahead([3, 4, 5], [500, 400, 330]).finish == ahead([0, 1, 2], [500, 400, 330]).finish
        assert ahead([0, 1], [0.9, 0.6]).weighings == 2
        for hours, grams in (
            ([0, 1], [500, 511]), ([0, 0.02], [500, 499]), ([3, 3.02], [500, 499]), ([0, 1], [500, 400, 300]),
            ([0], [0]), ([0, 1, 2], [500, 300, 497]),
        ):  # fmt: skip
            with pytest.raises(InputProblem):
                ahead(hours, grams)

    def test_one_part_in_a_hundred_of_the_water_that_must_go_is_drying(self):
        target = DRY / 0.85
        for share, dries in ((0.0105, True), (0.0095, False)):
            grams = [500, 499, 500 - share * (500 - target)]
            if dries:
                forecast([0, 2, 4], grams, Beforehand(SOLIDS, 15.0))
                continue
            with pytest.raises(InputProblem):
                forecast([0, 2, 4], grams, Beforehand(SOLIDS, 15.0))


class TestPriors:
    HOURS = Fact(10.0, "h", "a table", low=8.0, high=12.5)
    ENERGY = Fact(35.0, "kJ/mol", "a table", low=20.0, high=50.0)

    def test_published_hours_put_the_finish_there(self):
        ratio = (0.15 / 0.85) / (425 / 75)
        answer = ahead([0.0], np.array([500.0]), prior=prior_from_hours(self.HOURS, ratio))
        assert answer.finish.low50 < 10.0 < answer.finish.high50

    def test_warmer_is_faster_by_arrhenius_and_less_sure(self):
        basis = Basis("handbook", "a table")
        same, warm = (prior_from_published(PageRun(0.3, 1.1, 55.0), t, self.ENERGY, basis) for t in (55.0, 65.0))
        assert same.k == pytest.approx(0.3)
        assert (warm.k / same.k) == pytest.approx(1.46, abs=0.01)
        assert warm.sd_ln_k > same.sd_ln_k
        assert "moved to 65 °C" in read(warm.workings)

    def test_several_studies_are_held_more_tightly_than_one(self):
        basis = Basis("handbook", "a table")
        one, four = (prior_from_published(PageRun(0.3, 1.1), None, self.ENERGY, basis, n) for n in (1, 4))
        assert four.sd_ln_k == pytest.approx(one.sd_ln_k * np.sqrt((1 + 1 / 4) / 2))
        assert (one.sd_ln_k, one.n, one.sd_n) == (pytest.approx(1.1), 1.1, 0.2)
        assert prior_from_published(PageRun(0.3, 1.1), None, self.ENERGY, basis) == one

    def test_without_temperatures_nothing_is_moved(self):
        basis = Basis("handbook", "a table")
        for run, heat in ((PageRun(0.3, 1.1), 65.0), (PageRun(0.3, 1.1, 55.0), None)):
            prior = prior_from_published(run, heat, self.ENERGY, basis)
            assert prior.workings == ()
            assert (prior.k, prior.n) == (pytest.approx(0.3), 1.1)

    def test_the_doubt_of_the_energy_by_hand(self):
        """30 kJ/mol are the middle 80 %, 2.563 standard deviations wide."""
        basis = Basis("handbook", "a table")
        same, warm = (prior_from_published(PageRun(0.3, 1.1, 55.0), t, self.ENERGY, basis) for t in (55.0, 65.0))
        wobble = 30_000 / 2.563 / 8.314 * (1 / 328.15 - 1 / 338.15) / 1.1
        assert warm.sd_ln_k == pytest.approx(np.hypot(same.sd_ln_k, wobble))
        sure = Fact(35.0, "kJ/mol", "a table")
        assert prior_from_published(PageRun(0.3, 1.1, 55.0), 65.0, sure, basis).sd_ln_k == pytest.approx(
            same.sd_ln_k
        )

    def test_published_hours_by_hand(self):
        """The middle of 8 to 12.5 h in logarithms is 10: there Page's curve passes the target."""
        prior = prior_from_hours(self.HOURS, 0.05)
        assert np.exp(-prior.k * 10.0**prior.n) == pytest.approx(0.05)
        assert prior.sd_ln_k == pytest.approx(np.hypot(np.log(12.5 / 8.0) / 2.563, 0.4))
        one = prior_from_hours(Fact(10.0, "h", "a table"), 0.05)
        assert (one.k, one.sd_ln_k) == (pytest.approx(prior.k), pytest.approx(0.4))
        assert (prior.n, prior.sd_n) == (1.15, 0.2)
