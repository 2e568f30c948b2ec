"""`export`, `import`, `backup`, `restore` and `check`: the journal as a whole."""

from __future__ import annotations

import argparse
import gc
import sys
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from dryhouse.cli.answers import add_json, say_json
from dryhouse.cli.ways_on import command
from dryhouse.house import (
    back_up,
    can_mend,
    default_journal,
    faults_in,
    mend,
    open_kitchen,
    refuse_lost,
    restore,
    sample_file,
)
from dryhouse.science.display import Style, counted
from dryhouse.science.errors import InputProblem
from dryhouse.words.messages import said

if TYPE_CHECKING:
    from dryhouse.kitchen.exchange.bringing import Coming
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.ports import Done, Record


def add(verbs: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """The five verbs."""
    export = verbs.add_parser(
        "export",
        help="write everything to a .json file, or to a folder of CSV tables",
        epilog="Example: dryhouse export kitchen.json",
    )
    export.add_argument(
        "destination",
        type=Path,
        nargs="?",
        metavar="DEST",
        help="a new .json file or folder",
    )
    export.add_argument("--schema", action="store_true", help="print what the JSON looks like, as a JSON Schema")
    export.set_defaults(run=_export)
    bring = verbs.add_parser(
        "import",
        help="add everything from an exported file or folder",
        epilog="Example: dryhouse import kitchen.json",
    )
    bring.add_argument("file", type=Path, metavar="FILE", help="an exported file or folder")
    which = bring.add_mutually_exclusive_group()
    which.add_argument(
        "--keep-mine", action="store_true", help="where records differ, keep what is here (the default)"
    )
    which.add_argument("--take-theirs", action="store_true", help="where records differ, take what the file says")
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
    check.add_argument(
        *("--repair", "--mend"), action="store_true", help="also repair what can be repaired, and say what was done"
    )
    check.set_defaults(run=_check)
    for parser in (export, bring, backup, restore, check):
        add_json(parser)


def _file(args: argparse.Namespace) -> Path:
    return sample_file() if args.sample else Path(args.journal or default_journal())


def _present(args: argparse.Namespace, verb: str) -> Path:
    """The journal that is named, where there is one. Raises InputProblem where there is none."""
    journal = _file(args)
    if not journal.exists():
        refuse_lost(journal)
        raise InputProblem(f"There is no journal at “{journal}” yet, so there is nothing to {verb}.")
    return journal


def _export(args: argparse.Namespace) -> int:
    from dryhouse.kitchen.exchange import every_record, write_records

    if args.schema:
        from dryhouse.kitchen.exchange.schema import schema_text

        print(schema_text(), end="")
        return 0
    if args.destination is None:
        raise InputProblem("Name a file or a folder to export to, such as kitchen.json.")
    _present(args, "export")
    with open_kitchen(args.journal, sample=args.sample) as kitchen, kitchen.journal.at_one_moment():
        count = write_records(every_record(kitchen.journal), args.destination)
    if args.json:
        say_json({"file": str(args.destination), "records": count})
    else:
        print(f"Exported {counted(count, 'record')} to {args.destination}")
    return 0


def _import(args: argparse.Namespace) -> int:
    from dryhouse.kitchen.exchange import entries, look_through, take_in

    try:
        with open_kitchen(args.journal, sample=args.sample) as kitchen, _no_collecting():
            coming = look_through(kitchen, entries(args.file), _progress())
        with closing(coming), open_kitchen(args.journal, sample=args.sample, write=True) as kitchen:
            done = take_in(kitchen, coming, coming.differences if args.take_theirs else ())
            _tell(args, kitchen, coming, done)
    except KeyboardInterrupt:
        print("Stopped; nothing was changed.", file=sys.stderr)
        return _STOPPED
    return 0


@contextmanager
def _no_collecting() -> Iterator[None]:
    """Python's collector of circles would go through millions of records again and again, a tenth of the time; they
    refer to each other by number, so that it finds nothing."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


_STOPPED = 130
"""What a shell expects of a program that was stopped by Ctrl+C."""
_AT_MOST = 20
"""How many differences are listed; as JSON all are."""


def _progress() -> Callable[[float], None]:
    """Says how far the reading is, to a person and not to a file."""
    if not sys.stderr.isatty():
        return lambda _share: None

    def tell(share: float) -> None:
        print(f"\r{'' if share == 1.0 else f'Reading: {share:.0%} '}", end="\r", file=sys.stderr, flush=True)

    return tell


def _tell(args: argparse.Namespace, kitchen: Kitchen, coming: Coming, done: Done[Record]) -> None:
    from dryhouse.kitchen.exchange.telling import difference_line

    differ = [difference_line(kitchen, difference) for difference in coming.differences]
    if args.json:
        added, same = coming.added.total(), coming.same
        records = added + same + len(differ)
        say_json({"records": records, "added": added, "same": same, "differ": differ, "what": done.what})
        return
    print(done.what)
    if differ and not args.take_theirs:
        more = len(differ) - _AT_MOST
        lines = [*differ[:_AT_MOST], *([f"And {more} more; --json lists them all."] if more > 0 else [])]
        print("\n".join(f"  {line}" for line in lines))
        if not args.keep_mine:
            print("To have them as they are there, import again with --take-theirs.")


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
    journal, mended = _present(args, "check"), []
    faults = faults_in(journal)
    if args.repair and can_mend(faults):
        mended = mend(journal)
        faults = faults_in(journal)
    lines, done = [said(fault, Style()) for fault in faults], [said(each, Style()) for each in mended]
    if args.json:
        say_json({"whole": not lines, "faults": lines, **({"repaired": done} if args.repair else {})})
    else:
        can_be = not args.repair and can_mend(faults)
        way_on = [f"Some of it can be repaired: {command(journal, 'check --repair')}"] if can_be else []
        print("\n".join([*done, *lines, *way_on] if lines else [*done, "No damage found."]))
    return 1 if lines else 0
