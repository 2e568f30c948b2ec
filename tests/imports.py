"""What a file imports of ours, without reading the rest of it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

_STATEMENT = re.compile(r"^[ \t]*(from (dryhouse[\w.]*) import (?:\([^)]*\)|[^(\n]+))", re.M)


def imports_of(path: Path) -> Iterator[tuple[str, list[str]]]:
    """Each module of ours that a file imports from, with the names it takes; those of a program it starts too."""
    for statement, module in _STATEMENT.findall(path.read_text(encoding="utf-8")):
        (read,) = ast.parse(statement).body
        assert isinstance(read, ast.ImportFrom)
        yield module, [alias.name for alias in read.names]
