"""What a JSON export looks like, for other programs: a JSON Schema worked out of the records' own descriptions.

It is shipped as `journal.schema.json` beside this module (`python -m dryhouse.kitchen.exchange.schema` writes it);
a test holds the two together. The words are those of https://json-schema.org/draft/2020-12.
"""

from __future__ import annotations

import json
from datetime import date, datetime
from pathlib import Path
from typing import Any

from dryhouse.kitchen.exchange.files import FORMAT, VERSION
from dryhouse.kitchen.records.links import LINKS, OWNERS_FIRST
from dryhouse.kitchen.records.shapes import SUFFIXES, Shape, shapes

FILE = Path(__file__).with_name("journal.schema.json")

_HELD: dict[type, dict[str, Any]] = {
    str: {"type": "string"},
    int: {"type": "integer"},
    float: {"type": "number"},
    bool: {"type": "boolean"},
    date: {"type": "string", "format": "date"},
    datetime: {"type": "string", "format": "date-time"},
}


def journal_schema() -> dict[str, Any]:
    """The schema of a whole export."""
    lists = {
        kind.__name__: {"type": "array", "items": {"$ref": f"#/$defs/{kind.__name__}"}} for kind in OWNERS_FIRST
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A journal of Dryhouse",
        "description": "Each kind comes after those it refers to by number. What is missing is left out.",
        "type": "object",
        "required": ["format", "version", "records"],
        "properties": {
            "format": {"const": FORMAT},
            "version": {"const": VERSION},
            "records": {"type": "object", "properties": lists, "additionalProperties": False},
            "counts": {
                "description": "How many records of each kind were written.",
                "type": "object",
                "additionalProperties": {"type": "integer", "minimum": 0},
            },
        },
        "$defs": {kind.__name__: _of_kind(kind) for kind in OWNERS_FIRST},
    }


def schema_text() -> str:
    """The schema as the text of a file."""
    return json.dumps(journal_schema(), ensure_ascii=False, indent=1) + "\n"


def _of_kind(kind: type[Any]) -> dict[str, Any]:
    every = shapes(kind)
    return {
        "description": (kind.__doc__ or "").split("\n\n")[0].replace("\n", " "),
        "type": "object",
        "required": [shape.name for shape in every if shape.required],
        "properties": {shape.name: _of_field(kind, shape) for shape in every},
        "additionalProperties": False,
    }


def _of_field(kind: type[Any], shape: Shape) -> dict[str, Any]:
    about, said = shape.about, {}
    if about.label:
        said["title"] = about.label
    if target := LINKS.get(kind, {}).get(shape.name):
        said["description"] = f"The id of a {target.__name__}."
    if shape.quantity is not None:
        unit = SUFFIXES[shape.quantity]
        return {
            **said,
            "type": "object",
            "required": [unit, "typed"],
            "properties": {unit: {"type": "number", **_bounds(shape)}, "typed": {"type": "string"}},
            "additionalProperties": False,
        }
    held = {**said, **_HELD[shape.holds], **_bounds(shape)}
    if about.choices:
        may_be_empty = not (about.needed or shape.required)
        held["enum"] = [*about.choices, *([""] if may_be_empty and "" not in about.choices else [])]
    elif about.needed:
        held["minLength"] = 1
    return held


def _bounds(shape: Shape) -> dict[str, Any]:
    about = shape.about
    named = {
        "exclusiveMinimum": 0 if about.positive else None,
        "minimum": about.low,
        "maximum": about.high,
        "exclusiveMaximum": about.below,
    }
    return {name: bound for name, bound in named.items() if bound is not None}


if __name__ == "__main__":
    FILE.write_text(schema_text(), encoding="utf-8")
