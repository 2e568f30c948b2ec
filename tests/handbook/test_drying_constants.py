"""Published drying constants, activation energies and isotherms, as the handbook holds them."""

from __future__ import annotations

import pytest

from dryhouse.handbook.activation import activation_of, activation_rows
from dryhouse.handbook.gab import isotherms
from dryhouse.handbook.reader import handbook
from dryhouse.handbook.thin_layer import published_prior, thin_layers


def test_foods_named_are_foods_of_the_handbook():
    named = {f for row in activation_rows() for f in row.foods}
    named |= {row.food for row in thin_layers() if row.food}
    assert named <= set(handbook().foods)
    assert all(isotherms(slug) for slug in ("potato", "pasta"))


def test_rows_name_their_source_and_lie_in_sane_ranges():
    for row in thin_layers():
        assert row.basis.source
        assert 0.01 < row.k < 20
        assert row.n is None or 0.3 < row.n < 2
    for study in activation_rows():
        assert 5 < study.energy.value < 90
        assert study.energy.low <= study.energy.value <= study.energy.high


def test_a_food_without_a_study_gets_the_middle_of_all():
    energy = activation_of("corn")
    assert (energy.value, energy.low, energy.high) == (35.0, 20.0, 50.0)


def test_studies_of_one_food_are_held_no_tighter_than_they_agree():
    banana = activation_of("banana")
    assert banana.n == 3
    assert banana.low <= 10.3
    assert banana.high >= 38.4
    tomato = activation_of("tomato")
    assert tomato.high - tomato.low >= 16


def test_published_constants_become_an_expectation():
    assert published_prior("corn") is None
    cherry = published_prior("sour-cherry")
    assert cherry.n == pytest.approx(0.761)
    assert cherry.basis.kind == "handbook"
    potato, warm = published_prior("sweet-potato", 65), published_prior("sweet-potato", 72)
    assert warm.k > potato.k
    assert warm.sd_ln_k > potato.sd_ln_k


def test_a_food_nobody_published_has_no_isotherm():
    assert isotherms("carrot") == ()


def test_the_middle_of_the_studies_of_a_food_and_its_ends_by_hand():
    """Banana: 38.46, 29.66 (23.8 to 35.5) and 10.21 kJ/mol. Tomato: one study, 25.17, and 8 either way at least."""
    banana, tomato = activation_of("banana"), activation_of("tomato")
    assert banana.value == pytest.approx((38.46 + 29.662 + 10.214) / 3)
    assert (banana.low, banana.high) == pytest.approx((10.214, 38.46))
    assert banana.source.count(";") == 2
    assert (tomato.value, tomato.low, tomato.high, tomato.n) == pytest.approx((25.17, 17.17, 33.17, 1))


def test_of_one_series_page_is_preferred_to_lewis():
    cherry, potato = published_prior("sour-cherry"), published_prior("sweet-potato", 65)
    assert (cherry.k, cherry.n) == pytest.approx((1.1366, 0.761))
    assert (potato.k, potato.n) == pytest.approx((4.53966, 0.99511))
    assert cherry.sd_ln_k == pytest.approx(1.1)
    assert published_prior("apple") is None
