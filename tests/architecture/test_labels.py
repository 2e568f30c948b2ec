"""What an entry is called stands in the record it fills, and nowhere else."""

import ast
from pathlib import Path

from dryhouse.kitchen.ports import RECORD_KINDS
from dryhouse.kitchen.records.shapes import shapes

PLACES = Path(__file__).parents[2] / "dryhouse" / "desk" / "places"


def written_out(path: Path) -> list[tuple[int, str]]:
    """The labels of entries that stand as text in this module, with their lines."""
    text = path.read_text(encoding="utf-8")
    calls = [n for n in ast.walk(ast.parse(text)) if isinstance(n, ast.Call)] if "Field(" in text else []
    entries = [n for n in calls if ast.unparse(n.func).endswith("Field") and len(n.args) > 1]
    return [(n.lineno, n.args[1].value) for n in entries if isinstance(n.args[1], ast.Constant)]


def test_no_form_repeats_what_a_record_calls_its_field():
    own = {shape.about.label for kind in RECORD_KINDS for shape in shapes(kind)} - {""}
    repeated = [
        f"{path.relative_to(PLACES)}:{line} {label}"
        for path in sorted(PLACES.rglob("*.py"))
        for line, label in written_out(path)
        if label in own
    ]
    assert repeated == []
