"""The contributor's guide and the README stay true."""

import re
from pathlib import Path

from dryhouse.cli import parser
from dryhouse.kitchen.records import RECORD_KINDS

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "DEVELOPERS.md").read_text()
README = (ROOT / "README.md").read_text()


def test_the_guide_names_every_layer():
    layers = {p.name for p in (ROOT / "dryhouse").iterdir() if (p / "__init__.py").exists()}
    assert {layer for layer in layers if f"`{layer}/`" not in GUIDE} == set()


def test_the_guide_names_every_table_of_the_handbook():
    tables = {p.name for p in (ROOT / "dryhouse/handbook/data").glob("*.csv")}
    assert {table for table in tables if f"`{table}`" not in GUIDE} == set()


def test_the_guide_names_every_kind_of_record():
    assert {kind.__name__ for kind in RECORD_KINDS if f"`{kind.__name__}`" not in GUIDE} == set()


def test_the_readme_names_every_verb_of_the_command_line():
    verbs = next(a for a in parser()._actions if a.metavar == "VERB").choices
    assert {verb for verb in verbs if f"dryhouse {verb}" not in README} == set()


def test_the_readme_names_every_place_of_the_desk():
    for place in ("Journal", "Drying now", "Yields", "Shelf", "Meals", "Handbook"):
        assert f"**{place}**" in README


def test_files_named_in_the_guide_exist():
    named = set(re.findall(r"`((?:dryhouse|tests|sample_data|migrations)/[\w/.-]+)`", GUIDE))
    assert {path for path in named if not (ROOT / path).exists()} == set()
