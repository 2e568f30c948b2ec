"""Nothing but water leaves a tray: raw and dried entries of USDA SR28 against each other.

Source: USDA National Nutrient Database for Standard Reference, release 28 (read). From the energy of the raw
food and both water contents, the dried food's energy follows. Of 21 pairs 16 agree within 5 %; the other
five are named here, each with the reason that its own entries show.
"""

import pytest

from dryhouse.science.moisture import dry_matter, mass_at
from tests.published.readings import USDA_EXCEPTIONS, table

PAIRS = table("usda_sr28_raw_dried_pairs")
ENTRY = {row["ndb_no"]: row for row in table("usda_sr28_pair_composition")}


def predicted(pair):
    """kcal per 100 g dried: the raw food's energy in the mass that is left."""
    left = mass_at(dry_matter(100.0, float(pair["raw_water"])), float(pair["dried_water"]))
    return float(pair["raw_kcal"]) / left * 100


def per_dry_matter(ndb, figure):
    entry = ENTRY[ndb]
    return float(entry[figure]) / (100 - float(entry["water_g"])) * 100


@pytest.mark.parametrize(
    "pair", [p for p in PAIRS if p["dried_ndb"] not in USDA_EXCEPTIONS], ids=lambda p: p["dried"][:40]
)
def test_energy_by_dry_matter_within_5_percent(pair):
    assert predicted(pair) == pytest.approx(float(pair["dried_kcal"]), rel=0.05)


@pytest.mark.parametrize(
    "pair", [p for p in PAIRS if p["dried_ndb"] in USDA_EXCEPTIONS], ids=lambda p: p["dried"][:40]
)
def test_the_exceptions_are_exceptions(pair):
    assert abs(predicted(pair) / float(pair["dried_kcal"]) - 1) > 0.05


def test_freeze_dried_red_pepper_repeats_the_figures_of_the_green():
    """The two freeze-dried entries are the same row twice, while the raw ones differ by a half."""
    for figure in ("energy_kcal", "protein_g", "fat_g", "carbohydrate_g", "fiber_g", "ash_g"):
        assert ENTRY["11931"][figure] == ENTRY["11634"][figure]
    assert float(ENTRY["11821"]["energy_kcal"]) > 1.5 * float(ENTRY["11333"]["energy_kcal"])


def test_sun_dried_tomatoes_hold_more_ash_than_the_fresh():
    """One sample, with half as much ash again in its dry matter; without the ash the energies agree."""
    assert ENTRY["11955"]["water_n"] == "1"
    raw_ash, dried_ash = per_dry_matter("11529", "ash_g"), per_dry_matter("11955", "ash_g")
    assert dried_ash > 1.5 * raw_ash
    raw = per_dry_matter("11529", "energy_kcal") / (100 - raw_ash)
    dried = per_dry_matter("11955", "energy_kcal") / (100 - dried_ash)
    assert raw == pytest.approx(dried, rel=0.05)


def test_the_leeks_are_not_the_same_leeks():
    """One sample each; the freeze-dried holds three quarters more protein in its dry matter."""
    assert ENTRY["11246"]["water_n"] == ENTRY["11624"]["water_n"] == "1"
    assert per_dry_matter("11624", "protein_g") > 1.7 * per_dry_matter("11246", "protein_g")


def test_the_parsley_is_not_the_same_parsley():
    """The freeze-dried is one sample, with a quarter more protein and fibre in its dry matter: less that burns."""
    assert ENTRY["11625"]["water_n"] == "1"
    assert per_dry_matter("11625", "protein_g") > 1.25 * per_dry_matter("11297", "protein_g")
    assert per_dry_matter("11625", "fiber_g") > 1.2 * per_dry_matter("11297", "fiber_g")


def test_the_sun_dried_chile_is_another_pod_than_the_raw_green():
    """Whole ripe pods with their seeds: four times the fat and twice the fibre of the green flesh."""
    assert per_dry_matter("11962", "fat_g") > 3.5 * per_dry_matter("11670", "fat_g")
    assert per_dry_matter("11962", "fiber_g") > 2 * per_dry_matter("11670", "fiber_g")
