"""Cups of water to a cup dried, as the extension services print them, against the handbook's table."""

from dryhouse.handbook.rehydration_table import published_water
from tests.rows import every_row

B989 = {
    "apple": (1.5, 0.5), "pear": (1.75, 1.25), "peach": (2, 1.25), "asparagus": (2.25, 1.5),
    "lima-bean": (2.5, 1.5), "green-bean": (2.5, 1), "beet": (2.75, 1.5), "carrot": (2.25, 1), "cabbage": (3, 1),
    "corn": (2.25, 0.5),
    "okra": (3, 0.5), "onion": (2, 0.75), "green-pea": (2.5, 0.5), "pumpkin": (3, 1), "zucchini": (1.75, 1),
    "spinach": (1, 0.5), "sweet-potato": (1.5, 0.5), "turnip-greens": (1, 0.75),
}  # fmt: skip
"""University of Georgia Extension Bulletin 989, 3rd ed. 1993, rehydration table: cups, least hours (read)."""

OLDER_LIST = {"green-bean": 2.25, "beet": 2.75, "carrot": 2.25, "corn": 2.25, "onion": 2, "potato": 1.5, "peach": 2}
"""Older extension-style list, origin not stated (public copy, read)."""


@every_row("food", B989)
def test_bulletin_989(food):
    row = published_water(food)[0]
    assert (row.cups_per_cup, row.soak_hours_low) == B989[food]
    assert row.liquid == ("cold" if food in ("apple", "pear", "peach") else "boiling")
    assert "Bulletin 989" in row.basis.source


@every_row("food", OLDER_LIST)
def test_older_list(food):
    assert OLDER_LIST[food] in [r.cups_per_cup for r in published_water(food) if "Older" in r.basis.source]


def test_parsnips():
    """Michigan State University Extension: 2 cups of water to a cup, 30 to 45 min (read)."""
    (row,) = [r for r in published_water("parsnip") if "Michigan" in r.basis.source]
    assert (row.cups_per_cup, row.soak_hours_low, row.soak_hours_high) == (2, 0.5, 0.75)
