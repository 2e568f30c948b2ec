"""The published schema is what is exported: every record fits it, and what an import refuses does not."""

from __future__ import annotations

import json
from copy import deepcopy
from typing import Any

from dryhouse.journal.sample import sample_folder
from dryhouse.kitchen.exchange import read_records, write_records
from dryhouse.kitchen.exchange.schema import FILE, journal_schema, schema_text

SCHEMA = journal_schema()
_TYPES: dict[str, tuple[type, ...]] = {
    "string": (str,), "integer": (int,), "number": (int, float), "boolean": (bool,), "object": (dict,),
    "array": (list,),
}  # fmt: skip


def misfits(value: Any, schema: dict[str, Any], at: str = "") -> list[str]:
    """Where a value does not fit, by the words of JSON Schema that ours uses."""
    if "$ref" in schema:
        return misfits(value, SCHEMA["$defs"][schema["$ref"].rpartition("/")[2]], at)
    held = _TYPES[schema["type"]] if "type" in schema else (object,)
    if not isinstance(value, held) or (isinstance(value, bool) and bool not in held and "type" in schema):
        return [f"{at}: {value!r}"]
    limits = {
        "const": lambda v, s: v == s,
        "enum": lambda v, s: v in s,
        "minimum": lambda v, s: v >= s,
        "exclusiveMinimum": lambda v, s: v > s,
        "maximum": lambda v, s: v <= s,
        "exclusiveMaximum": lambda v, s: v < s,
        "minLength": lambda v, s: len(v) >= s,
        "required": lambda v, s: set(s) <= set(v),
    }
    found = [
        f"{at} {word}: {value!r}"
        for word, holds in limits.items()
        if word in schema and not holds(value, schema[word])
    ]
    if isinstance(value, list):
        return found + [m for n, each in enumerate(value) for m in misfits(each, schema["items"], f"{at}/{n}")]
    if isinstance(value, dict):
        for name, each in value.items():
            inside = schema.get("properties", {}).get(name, schema.get("additionalProperties", {}))
            found += [f"{at}/{name} is not known"] if inside is False else misfits(each, inside, f"{at}/{name}")
    return found


def exported(tmp_path) -> dict[str, Any]:
    write_records(read_records(sample_folder()), tmp_path / "all.json")
    whole: dict[str, Any] = json.loads((tmp_path / "all.json").read_text(encoding="utf-8"))
    return whole


def test_the_file_that_is_shipped_is_the_one_the_records_say() -> None:
    assert FILE.read_text(encoding="utf-8") == schema_text()


def test_the_sample_fits_the_schema_and_is_counted_right(tmp_path) -> None:
    whole = exported(tmp_path)
    assert misfits(whole, SCHEMA) == []
    assert whole["counts"] == {name: len(listed) for name, listed in whole["records"].items()}


def test_what_an_import_refuses_does_not_fit(tmp_path) -> None:
    whole = exported(tmp_path)
    whole["records"] = {"Batch": whole["records"]["Batch"][:1]}
    for spoil in (
        lambda b: b.update(rating=99),
        lambda b: b.update(state="lost"),
        lambda b: b.update(colour="red"),
        lambda b: b.pop("food"),
        lambda b: b.update(prepared_mass={"g": -5, "typed": ""}),
        lambda b: b.update(prepared_mass=500),
        lambda b: b.update(trays=True),
        lambda b: b.update(start_moisture_pct=100),
    ):
        spoilt = deepcopy(whole)
        spoil(spoilt["records"]["Batch"][0])
        assert len(misfits(spoilt, SCHEMA)) == 1
