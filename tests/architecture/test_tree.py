"""The shape of the house, stated as tests."""

import ast
import re
import tomllib
from pathlib import Path

from tests.rows import every_row

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "dryhouse"
MODULES = sorted(PACKAGE.rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))
LONGEST = 400


def name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def test_the_top_level_is_exactly_as_the_design_says():
    given = {p.name for p in ROOT.iterdir() if not p.name.startswith(".")}
    made = {"build", "dist"} | {p.name for p in ROOT.glob("*.egg-info")}
    assert given - made == {
        "README.md", "DEVELOPERS.md", "pyproject.toml", "dryhouse", "migrations", "tests", "sample_data",
    }  # fmt: skip


@every_row("path", MODULES + TESTS, ids=name)
def test_no_module_is_longer_than_a_reader_can_hold(path):
    assert len(path.read_text().splitlines()) <= LONGEST


@every_row("path", MODULES, ids=name)
def test_every_module_says_what_it_is_for(path):
    assert re.match(r'"""\S', path.read_text()), f"{name(path)} has no docstring"


def _public(tree: ast.Module):
    for node in ast.walk(tree):
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield node
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node


PURE = [
    p
    for p in MODULES
    if p.relative_to(PACKAGE).parts[0] in ("science", "handbook", "words", "kitchen", "plots", "journal")
]


@every_row("path", PURE, ids=name)
def test_every_public_name_says_what_it_means(path):
    silent = [node.name for node in _public(ast.parse(path.read_text())) if not ast.get_docstring(node)]
    assert not silent, f"{name(path)}: {silent}"


def test_each_curve_model_each_rule_family_and_each_place_stands_alone():
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    independent = {module for c in contracts if c["type"] == "independence" for module in c["modules"]}
    places = {f"dryhouse.desk.places.{p.parent.name}" for p in PACKAGE.glob("desk/places/*/spec.py")}
    families = {
        f"dryhouse.science.safety.families.{p.stem}"
        for p in PACKAGE.glob("science/safety/families/*.py")
        if p.stem != "__init__"
    }
    curves = {
        f"dryhouse.science.curves.{p.stem}"
        for p in PACKAGE.glob("science/curves/*.py")
        if any(
            isinstance(node, ast.Assign | ast.AnnAssign) and "= Model(" in ast.unparse(node)
            for node in ast.parse(p.read_text()).body
        )
    }
    assert len(curves) >= 6
    assert places
    assert families
    assert places | families | curves <= independent


METHODS = 20
MORE_METHODS = {
    "dryhouse/desk/widgets/food_field.py:FoodField": "it answers Qt's events, its list's and its own question's",
    "dryhouse/desk/places/batches/form_fields.py:Entries": "one method for each thing a form does with its entries",
}
"""Classes of the window with more methods than a reader can hold, each with its reason."""


def test_no_class_of_the_window_does_more_than_a_reader_can_hold():
    large = {
        f"{name(path)}:{node.name}"
        for path in PACKAGE.glob("desk/**/*.py")
        if (text := path.read_text()).count("    def ") > METHODS
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.ClassDef) and sum(isinstance(part, ast.FunctionDef) for part in node.body) > METHODS
    }
    assert large == set(MORE_METHODS)


OPTION = re.compile(r"(^|\s|\()--[a-z]|dryhouse --|“dryhouse ")


@every_row("path", PURE, ids=name)
def test_only_the_command_line_speaks_of_its_verbs_and_options(path):
    text = path.read_text()
    if "--" not in text and "“dryhouse " not in text:
        return
    tree = ast.parse(text)
    said = [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    docs = {
        node.value.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    assert [text for text in said if text not in docs and OPTION.search(text)] == []


PROMISES = re.compile(r"TODO|FIXME|XXX|NotImplementedError|pytest\.(skip|xfail)|mark\.(skip|xfail)")


@every_row("path", [*MODULES, *sorted((ROOT / "migrations").rglob("*.py"))], ids=name)
def test_nothing_is_promised_for_later(path):
    assert not PROMISES.search(path.read_text())


def test_nothing_walks_the_focus_chain_which_would_take_a_form_from_what_holds_it():
    walking = [
        f"{name(path)}:{node.lineno}"
        for path in PACKAGE.glob("desk/**/*.py")
        if "InFocusChain" in (text := path.read_text())
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Attribute) and node.attr in ("nextInFocusChain", "previousInFocusChain")
    ]
    assert not walking, "set the order with tab_through or tab_before"
