"""Ways in which a journal's file is found damaged, each drawn from a seed."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path
from random import Random

Spoil = Callable[[Path, Random], None]
PAGE = 4096
VALUES = (
    "9e999", "-9e999", "1e300", "-5", "0", "9223372036854775807", "-9223372036854775808", "'much'", "''",
    "x'ff00'", "CAST(x'ff80' AS TEXT)", "'32 Foo'", "'9999-12-31'", "NULL", "'=1+1'", "char(0)",
)  # fmt: skip
"""What may be found in a column, whatever it should hold."""
PARTS = (
    "CREATE TRIGGER sly AFTER INSERT ON batch BEGIN DELETE FROM weighing; END",
    "CREATE TRIGGER sly BEFORE UPDATE ON lot BEGIN SELECT RAISE(IGNORE); END",
    "CREATE VIEW no_end AS WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x FROM n) SELECT x FROM n",
    "CREATE TABLE more (id INTEGER PRIMARY KEY)",
    "CREATE UNIQUE INDEX once ON weighing (batch)",
    "ALTER TABLE batch ADD COLUMN more TEXT",
    "PRAGMA user_version = 77",
    "PRAGMA application_id = 77",
    "UPDATE alembic_version SET version_num = '9999'",
    "UPDATE alembic_version SET version_num = '0001'",
    "DELETE FROM alembic_version",
    "INSERT INTO batch_words (batch_words) VALUES ('delete-all')",
)


def _bits(file: Path, chance: Random) -> None:
    raw = bytearray(file.read_bytes())
    first = chance.choice((0, 0, 100))
    for _ in range(chance.choice((1, 1, 1, 2, 8, 200))):
        last = chance.choice((100, PAGE, 16 * PAGE, len(raw)))
        raw[chance.randrange(first, max(last, first + 1))] ^= 1 << chance.randrange(8)
    file.write_bytes(raw)


def _pages(file: Path, chance: Random) -> None:
    raw = bytearray(file.read_bytes())
    count = len(raw) // PAGE
    for _ in range(chance.choice((1, 1, 2, 10))):
        at, other = chance.randrange(count) * PAGE, chance.randrange(count) * PAGE
        raw[at : at + PAGE] = chance.choice(
            (bytes(PAGE), b"\xff" * PAGE, chance.randbytes(PAGE), bytes(raw[other : other + PAGE]))
        )
    file.write_bytes(raw)


def _cut(file: Path, chance: Random) -> None:
    raw = file.read_bytes()
    at = chance.choice((0, chance.randrange(200), chance.randrange(len(raw)), len(raw) // PAGE // 2 * PAGE))
    file.write_bytes(chance.choice((raw[:at], raw[at:], raw[:at] + bytes(len(raw) - at), raw + raw[:at])))


def _log(file: Path, chance: Random) -> None:
    """A log beside it that is another journal's, or was cut."""
    log = file.with_name(file.name + chance.choice(("-wal", "-journal", "-shm")))
    other = file.read_bytes()
    log.write_bytes(chance.choice((b"", chance.randbytes(5000), other[:9000], b"7\x7f\x06\x82" + other[:8000])))


def _sql(file: Path, *statements: str) -> None:
    with closing(sqlite3.connect(file)) as raw, suppress(sqlite3.Error):
        for statement in statements:
            raw.execute(statement)
        raw.commit()
        raw.execute("PRAGMA journal_mode = DELETE")


def _parts(file: Path, chance: Random) -> None:
    with closing(sqlite3.connect(file)) as raw:
        known = raw.execute("SELECT type, name FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'").fetchall()
        what, name = chance.choice(known)
        columns = [row[1] for row in raw.execute(f'PRAGMA table_info("{name}")')]
    gone = f'DROP {what} "{name}"'
    ways = [gone, chance.choice(PARTS)]
    if what == "table" and columns:
        ways += [f'ALTER TABLE "{name}" DROP COLUMN "{chance.choice(columns)}"', f'DELETE FROM "{name}"']
    _sql(file, chance.choice(ways))


def _values(file: Path, chance: Random) -> None:
    """A value where none of its kind belongs: with the checks of the tables switched off for the while."""
    with closing(sqlite3.connect(file)) as raw:
        tables = raw.execute("SELECT name, sql FROM sqlite_master WHERE sql LIKE '%STRICT%'").fetchall()
        name, made = chance.choice(tables)
        columns = [row[1] for row in raw.execute(f'PRAGMA table_info("{name}")')]
    column, value = chance.choice(columns), chance.choice(VALUES)
    where = chance.choice(("", " WHERE id = 1", " WHERE id % 7 = 3"))
    with closing(sqlite3.connect(file)) as raw:
        raw.execute("PRAGMA writable_schema = ON")
        raw.execute("UPDATE sqlite_master SET sql = ? WHERE name = ?", (made.replace(" STRICT", ""), name))
        raw.commit()
    _sql(file, f'UPDATE "{name}" SET "{column}" = {value}{where}')
    with closing(sqlite3.connect(file)) as raw:
        raw.execute("PRAGMA writable_schema = ON")
        raw.execute("UPDATE sqlite_master SET sql = ? WHERE name = ?", (made, name))
        raw.commit()


WAYS: dict[str, Spoil] = {
    "bits": _bits,
    "pages": _pages,
    "cut": _cut,
    "a stale log": _log,
    "parts": _parts,
    "values": _values,
}


def spoil(file: Path, seed: int) -> str:
    """Damage the file in one of the ways, which take turns; answers which."""
    way = list(WAYS)[seed % len(WAYS)]
    WAYS[way](file, Random(seed))
    return way
