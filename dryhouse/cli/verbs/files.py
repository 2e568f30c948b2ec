"""`export`, `import`, `backup`, `restore` and `check`: the journal as a whole."""

from __future__ import annotations

import argparse
from pathlib import Path

from dryhouse.cli.answers import add_json, say_json
from dryhouse.house import back_up, default_journal, faults_in, open_kitchen, restore, sample_file
from dryhouse.science.display import Style, counted
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import said


def add(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """The five verbs."""
    export = verbs.add_parser(
        "export",
        help="write everything to a .json file, or to a folder of CSV tables",
        epilog="Example: dryhouse export kitchen.json",
    )
    export.add_argument("destination", type=Path, metavar="DEST", help="a name that is not taken yet")
    export.set_defaults(run=_export)
    bring = verbs.add_parser(
        "import",
        help="add everything from an exported file or folder",
        epilog="Example: dryhouse import kitchen.json",
    )
    bring.add_argument("file", type=Path, metavar="FILE", help="what was exported before")
    bring.set_defaults(run=_import)
    backup = verbs.add_parser(
        "backup", help="copy the journal into the folder “backups” beside it", epilog="Example: dryhouse backup"
    )
    backup.set_defaults(run=_backup)
    restore = verbs.add_parser(
        "restore",
        help="put a backup in the journal's place; the present one is kept",
        epilog="Example: dryhouse restore kitchen-2026-11-20.dryhouse",
    )
    restore.add_argument("file", type=Path, metavar="FILE", help="one of the backups")
    restore.set_defaults(run=_restore)
    check = verbs.add_parser("check", help="check the journal for damage", epilog="Example: dryhouse check")
    check.set_defaults(run=_check)
    for parser in (export, bring, backup, restore, check):
        add_json(parser)


def _file(args: argparse.Namespace) -> Path:
    return sample_file() if args.sample else Path(args.journal or default_journal())


def _present(args: argparse.Namespace, verb: str) -> Path:
    """The journal that is named, where there is one. Raises InputProblem where there is none."""
    journal = _file(args)
    if not journal.exists():
        raise InputProblem(f"There is no journal at “{journal}” yet, so there is nothing to {verb}.")
    return journal


def _export(args: argparse.Namespace) -> int:
    from dryhouse.kitchen.exchange import every_record, write_records

    _present(args, "export")
    with open_kitchen(args.journal, sample=args.sample) as kitchen:
        count = write_records(every_record(kitchen.journal), args.destination)
    if args.json:
        say_json({"file": str(args.destination), "records": count})
    else:
        print(f"Exported {counted(count, 'record')} to {args.destination}")
    return 0


def _import(args: argparse.Namespace) -> int:
    from dryhouse.kitchen.exchange import bring_in, read_records

    records = read_records(args.file)
    with open_kitchen(args.journal, sample=args.sample, write=True) as kitchen:
        done = kitchen.do(bring_in, records)
    if args.json:
        say_json({"records": len(records), "added": len(done.changes), "what": done.what})
    else:
        print(done.what)
    return 0


def _backup(args: argparse.Namespace) -> int:
    made = back_up(_present(args, "back up"))
    if args.json:
        say_json({"file": str(made)})
    else:
        print(f"Backed up to {made}")
    return 0


def _restore(args: argparse.Namespace) -> int:
    journal = _file(args)
    if not args.file.exists():
        raise InputProblem(f"There is no file “{args.file}” to restore; name a backup.")
    if journal.exists() and args.file.resolve() == journal.resolve():
        raise InputProblem(f"“{args.file}” is the journal itself; name a backup of it. Nothing was changed.")
    former = restore(args.file, journal)
    if args.json:
        say_json(
            {"file": str(journal), "restored": str(args.file), "former": None if former is None else str(former)}
        )
    else:
        print(f"Restored {args.file}" + (f"; the former journal is kept as {former}" if former else ""))
    return 0


def _check(args: argparse.Namespace) -> int:
    faults = [said(fault, Style()) for fault in faults_in(_present(args, "check"))]
    if args.json:
        say_json({"whole": not faults, "faults": faults})
    else:
        print("\n".join(faults) if faults else "No damage found.")
    return 1 if faults else 0
