"""Keeps a small journal of the newest revision, for the upgrades to come, and the schema of its export.

python tests/data/old_journals/make.py
"""

from __future__ import annotations

import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[2]))

from dryhouse.handbook.reader import handbook  # noqa: E402
from dryhouse.journal.database import in_memory  # noqa: E402
from dryhouse.journal.revision import HEAD, create  # noqa: E402
from dryhouse.journal.sample import sample_folder  # noqa: E402
from dryhouse.journal.sqlite.file import copy_whole  # noqa: E402
from dryhouse.journal.store import SqlJournal  # noqa: E402
from dryhouse.kitchen.exchange import bring_in, every_record, read_records, schema, write_records  # noqa: E402
from dryhouse.kitchen.kitchen import Kitchen  # noqa: E402
from dryhouse.kitchen.records import Batch  # noqa: E402
from dryhouse.kitchen.records.links import LINKS, OWNERS_FIRST  # noqa: E402


def main() -> None:
    """A tenth of the sample: every kind of record, and whatever they belong to."""
    file = HERE / f"{HEAD}.dryhouse"
    if file.exists():
        raise SystemExit(f"{file} is already there, and stays as it is.")
    wanted = []
    gone: set[tuple[type, int]] = set()
    for record in sorted(read_records(sample_folder()), key=lambda r: OWNERS_FIRST.index(type(r))):
        links = LINKS.get(type(record), {}).items()
        orphan = any((target, getattr(record, name)) in gone for name, target in links)
        if orphan or (isinstance(record, Batch) and record.id % 10 != 1):
            gone.add((type(record), record.id))
        else:
            wanted.append(record)
    database = in_memory()
    create(database)
    journal = SqlJournal(database, file)
    bring_in(Kitchen(journal, handbook()), wanted)
    copy_whole(database.driver, file)
    write_records(every_record(journal), file.with_suffix(".json"))
    schema.FILE.write_text(schema.schema_text(), encoding="utf-8")


if __name__ == "__main__":
    main()
