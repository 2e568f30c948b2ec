"""What a function says of itself."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "dryhouse"
PROBLEMS = {"InputProblem", "WorldProblem", "NotKnown", "WhichFood", "DoubtfulWeight", "ReallyPlant",
            "NothingPublished"}  # fmt: skip


def public(module: ast.Module) -> Iterator[ast.FunctionDef]:
    """The functions and methods that others may call."""
    for node in module.body:
        inside = node.body if isinstance(node, ast.ClassDef) and not node.name.startswith("_") else [node]
        yield from (f for f in inside if isinstance(f, ast.FunctionDef) and not f.name.startswith("_"))


def problems_raised(node: ast.AST) -> Iterator[str]:
    """The problems that a function raises itself and does not catch again."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.FunctionDef | ast.Lambda | ast.ClassDef | ast.Try):
            continue
        if isinstance(child, ast.Raise) and isinstance(child.exc, ast.Call):
            yield from {ast.unparse(child.exc.func)} & PROBLEMS
        yield from problems_raised(child)


REFUSES = re.compile(rf"raise ({'|'.join(PROBLEMS)})\b")


def test_every_public_function_that_refuses_says_so():
    silent = [
        f"{path.relative_to(PACKAGE)}:{function.lineno} {function.name}"
        for path in sorted(PACKAGE.rglob("*.py"))
        if REFUSES.search(text := path.read_text(encoding="utf-8"))
        for function in public(ast.parse(text))
        if (said := ast.get_docstring(function)) is not None and any(problems_raised(function))
        if not any(word in said.lower() for word in ("raise", "refus", "problem"))
    ]
    assert silent == []
