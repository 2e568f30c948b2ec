"""The contributor's guide and the README stay true."""

import re
import subprocess
import tomllib
from pathlib import Path

from dryhouse.cli import parser
from dryhouse.kitchen.records import RECORD_KINDS
from tests.house_picture import diagram
from tests.rows import every_row
from tests.warm import AS_SCRIPT, started

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "DEVELOPERS.md").read_text()
CONTRACTS = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
README = (ROOT / "README.md").read_text()


def test_the_guide_names_every_layer():
    layers = {p.name for p in (ROOT / "dryhouse").iterdir() if (p / "__init__.py").exists()}
    assert {layer for layer in layers if f"`{layer}/`" not in GUIDE} == set()


def test_the_guide_names_every_room_of_the_kitchen_in_the_order_of_the_contract():
    layers = next(c["layers"] for c in CONTRACTS if c["name"].startswith("Rooms of the kitchen"))
    order = [sorted(room.strip() for room in layer.split("|")) for layer in reversed(layers)]
    (chain,) = (part for part in GUIDE.split("\n\n") if part.startswith("`records` →"))
    assert [sorted(re.findall(r"`(\w+)`", link)) for link in chain.split("→")] == order


def test_the_guide_names_every_script_of_the_tests():
    scripts = {p.name for p in (ROOT / "tests").glob("*.py") if '__name__ == "__main__"' in p.read_text()}
    assert {script for script in scripts if f"tests/{script}" not in GUIDE} == set()


def test_the_guide_says_of_the_command_line_what_its_contract_says():
    (forbidden,) = (c["forbidden_modules"] for c in CONTRACTS if c["name"].startswith("The command line"))
    (row,) = (line for line in GUIDE.splitlines() if line.startswith("| `cli/`"))
    may, never = row.split("|")[3:5]
    assert {"dryhouse.journal", "dryhouse.desk", "dryhouse.plots", "PySide6"} <= set(forbidden)
    assert [layer in never for layer in ("journal", "desk", "plots", "Qt")] == [True] * 4
    assert not set(re.findall(r"\w+", may)) & {name.removeprefix("dryhouse.") for name in forbidden}


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


def test_the_picture_of_the_house_is_the_one_that_the_code_draws():
    assert f"```mermaid\n{diagram()}\n```" in GUIDE


SCRIPTS = sorted(set(re.findall(r"python (tests/[\w/]+\.py)", GUIDE + README)))
SHELL = sorted(set(re.findall(r"(?:bash )?(\.ci/[\w-]+)", GUIDE + README)))


@every_row("script", SCRIPTS)
def test_every_script_that_the_guide_names_starts_and_says_what_it_takes(script):
    program = started(AS_SCRIPT, script, "--help")
    said, errors = program.communicate()
    assert program.returncode == 0, errors
    assert said.startswith("usage:")


@every_row("script", SHELL)
def test_every_shell_script_that_the_guide_names_can_be_read(script):
    assert subprocess.run(["bash", "-n", script], cwd=ROOT, check=False).returncode == 0


def test_the_tools_that_the_guide_names_run_in_ci():
    start = GUIDE.split("## Start")[1].split("```")[1]
    tools = re.findall(r"^\.venv/bin/([\w-]+)|(?<=&& )\.venv/bin/([\w-]+)", start, re.M)
    run = (ROOT / ".ci/run").read_text()
    assert {name for pair in tools for name in pair if name and f".venv/bin/{name}" not in run} <= {"python", "pip"}
