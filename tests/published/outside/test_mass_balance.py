"""Published worked examples of the moisture mass balance, each with its source beside it."""

import pytest

from dryhouse.science.moisture import (
    LoadPart,
    dry_matter,
    dry_to_wet,
    load_of,
    mass_at,
    moisture_at,
    target_mass,
    wet_to_dry,
)
from dryhouse.science.units import SIZES
from dryhouse.science.values import Fact

USU = "Utah State University Extension, Testing Foods for Dryness"
TABLE = "Moisture basis conversion table (agricultural training text, public copy)"
LECTURE = "Mass and energy balance in food processing, university lecture notes, examples 4 to 6"


def test_cherries_40_oz_at_14_percent_solids_to_80_percent_are_7_oz():
    """Utah State University Extension, Testing Foods for Dryness (read)."""
    load = load_of([LoadPart("cherries", 40 * SIZES["oz"], Fact(86, "%", USU))])
    figure = target_mass(load, Fact(20, "%", USU))
    assert figure.value / SIZES["oz"] == pytest.approx(7.0, abs=1e-9)


def test_the_factor_for_pie_cherries_is_0_175():
    """Kansas State University Extension, citing Utah State University (read)."""
    assert mass_at(dry_matter(1.0, 86), 20) == pytest.approx(0.175)


def test_paddy_1000_kg_at_25_percent_to_14_percent_is_872_kg():
    """International Rice Research Institute, moisture content calculations (read)."""
    final = mass_at(dry_matter(1000, 25), 14)
    assert final == pytest.approx(872, abs=0.5)
    assert 1000 - final == pytest.approx(127.91, abs=0.01)


@pytest.mark.parametrize(
    ("wet", "dry"),
    [(5, 5.3), (10, 11.1), (15, 17.6), (20, 25.0), (25, 33.3), (30, 42.9), (35, 53.8), (40, 66.7), (45, 81.8),
     (50, 100.0), (55, 122.2), (60, 150.0)],
)  # fmt: skip
def test_wet_and_dry_basis_pairs(wet, dry):
    """Moisture basis conversion table (agricultural training text, public copy, read)."""
    assert 100 * wet_to_dry(wet / 100) == pytest.approx(dry, abs=0.051)
    assert 100 * dry_to_wet(dry / 100) == pytest.approx(wet, abs=0.05)


@pytest.mark.parametrize(
    ("computed", "printed", "tolerance"),
    [
        (wet_to_dry(0.85), 5.667, 0.005),  # university lecture notes, example 4 (read)
        (dry_to_wet(0.90), 0.4736, 1e-4),  # the same, example 5 (read; the notes truncate)
        (wet_to_dry(0.15), 0.176, 5e-4),  # food engineering class example (read)
        (dry_matter(10, 75), 2.5, 1e-9),  # university lecture notes, example 6 (read)
        (wet_to_dry(0.40) - wet_to_dry(0.05), 0.614, 5e-4),  # Narayanan & Lakshmikutty, example 9.2 (read)
        (mass_at(dry_matter(1000, 80), 15), 235.29, 0.005),  # the same, example 9.12, first dryer (read)
        (mass_at(dry_matter(1000, 80), 2), 204.08, 0.005),  # the same, oven (read)
        (950 * (wet_to_dry(0.80) - wet_to_dry(0.05)), 3750, 0.5),  # Treybal, illustration 12.1 (read)
        (mass_at(dry_matter(150, 80), 40), 50, 1e-9),  # Himmelblau & Riggs, example 8.5 (read)
        (mass_at(dry_matter(100, 30), 15.5) - 70, 12.8, 0.05),  # Coulson & Richardson vol. 2, example 16.4 (read)
        (
            moisture_at(32, 20),
            37.5,
            1e-9,
        ),  # food drying exercise, public answer page (read): 12 g water left on 20 g
    ],
)
def test_worked_examples_of_textbooks(computed, printed, tolerance):
    assert computed == pytest.approx(printed, abs=tolerance)


def test_five_kilograms_at_150_percent_dry_basis_lose_two_and_a_half():
    """Singh & Heldman, chapter 1 (statement read, answer computed; a public answer of 6.25 kg takes the five
    kilograms for dry matter)."""
    load = load_of([LoadPart("product", 5000, Fact(100 * dry_to_wet(1.5), "%", "Singh & Heldman"))])
    assert 5000 - mass_at(load.solids, 20) == pytest.approx(2500)


def test_watermelon_pieces_moisture_along_a_run():
    """Student laboratory sheet (public document 432239575), watermelon pieces (read): masses in grams and one
    oven determination give the printed wet-basis column."""
    solids = dry_matter(3.43, 91.812)
    printed = {2.64: 89.361, 2.14: 86.876, 1.54: 81.763, 1.02: 72.465, 0.65: 56.792, 0.43: 34.686, 0.33: 14.894}
    for mass, moisture in printed.items():
        assert moisture_at(mass, solids) == pytest.approx(moisture, abs=0.005)


def test_onions_to_flakes_take_nearly_nine_to_one():
    """USDA SR release 28: onions raw 10.89 % solids, dehydrated flakes 96.07 % (computed from read figures);
    US Army Quartermaster subcourse QM6321 says 8 : 1 and an FAO text 9 : 1 (both read)."""
    ratio = 1 / mass_at(dry_matter(1.0, 100 - 10.89), 100 - 96.07)
    assert ratio == pytest.approx(8.82, abs=0.01)
    assert 8 <= ratio <= 9
