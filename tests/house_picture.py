"""The picture of the house, drawn from the imports in the code: which part knows which.

    python tests/house_picture.py

prints the diagram that stands in DEVELOPERS.md; a test holds the two together. What is only for the type checker is
left out, and so is an arrow that a longer way says already.
"""

from __future__ import annotations

import argparse
from pathlib import Path

import grimp

PACKAGE = "dryhouse"


def layers() -> dict[str, set[str]]:
    """Each part of the package, with the parts it imports."""
    graph = grimp.build_graph(PACKAGE, exclude_type_checking_imports=True)
    root = Path(__file__).parents[1] / PACKAGE
    parts = sorted(p.stem for p in root.iterdir() if (p / "__init__.py").exists() or p.stem == "house")

    def whole(part: str) -> set[str]:
        name = f"{PACKAGE}.{part}"
        return {name} | graph.find_descendants(name)

    modules = {part: whole(part) for part in parts}
    return {
        part: {
            other
            for other in parts
            if other != part
            and any(graph.find_modules_directly_imported_by(m) & modules[other] for m in modules[part])
        }
        for part in parts
    }


def thinned(knows: dict[str, set[str]]) -> dict[str, set[str]]:
    """The same without an arrow that a way over another part says already."""

    def reached(part: str) -> set[str]:
        return {p for step in knows[part] for p in {step} | reached(step)}

    return {
        part: {p for p in to if not any(p in reached(other) for other in to - {p})} for part, to in knows.items()
    }


def diagram() -> str:
    """The picture as text that code hosts draw."""
    arrows = [f"    {part} --> {to}" for part, tos in sorted(thinned(layers()).items()) for to in sorted(tos)]
    return "\n".join(["flowchart TD", *arrows])


if __name__ == "__main__":
    argparse.ArgumentParser(description=__doc__.splitlines()[0]).parse_args()
    print(diagram())
