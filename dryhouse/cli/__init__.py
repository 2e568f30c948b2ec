"""The command line: the same acts as the desk, for scripts and for checking.

Each verb is a small module in `verbs` with one function `add(verbs)`, which adds its parser and sets
`run` to a function of the arguments. Exit code 0; 2 with one sentence on stderr where the input cannot be
used, and then nothing has changed; 1 where the world failed (file, disk, lock).
"""

from __future__ import annotations

import argparse
import importlib
import os
import pkgutil
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from dryhouse import __version__
from dryhouse.science.errors import InputProblem, WorldProblem

_STARTED = time.perf_counter()


class _Parser(argparse.ArgumentParser):
    """argparse with its complaints said in one sentence."""

    def error(self, message: str) -> NoReturn:
        raise InputProblem(f"{message[:1].upper()}{message[1:]}. “{self.prog} --help” shows what would be right.")


def parser(*, verbs: bool = True) -> argparse.ArgumentParser:
    """Every option and every verb. Opening the desk takes no verb, and does not wait for theirs to be imported."""
    top = _Parser(prog="dryhouse", description="A journal and bench calculator for food dried at home.")
    top.add_argument("--version", action="version", version=f"dryhouse {__version__}")
    which = top.add_mutually_exclusive_group()
    which.add_argument("--journal", type=Path, metavar="FILE", help="the journal to open, instead of your own")
    which.add_argument("--sample", action="store_true", help="open a copy of the sample journal")
    top.add_argument("--timings", action="store_true", help="print start-up milestones as JSON")
    top.add_argument("--quit-when-ready", action="store_true", help="leave as soon as the window is usable")
    top.set_defaults(run=_desk)
    if verbs:
        each = top.add_subparsers(title="verbs", metavar="VERB", parser_class=_Parser)
        folder = importlib.import_module("dryhouse.cli.verbs")
        for module in sorted(pkgutil.iter_modules(folder.__path__), key=lambda m: m.name):
            importlib.import_module(f"dryhouse.cli.verbs.{module.name}").add(each)
    return top


def _for_the_desk(given: Sequence[str]) -> bool:
    """Whether the arguments are options of the desk and nothing else."""
    rest = [word for word in given if word not in ("--sample", "--timings", "--quit-when-ready")]
    return not rest or (len(rest) == 2 and rest[0] == "--journal")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; answer its exit code."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        args = parser(verbs=not _for_the_desk(given)).parse_args(given)
        return int(args.run(args) or 0)
    except InputProblem as problem:
        print(problem.sentence, file=sys.stderr)
        return 2
    except WorldProblem as problem:
        print(problem.sentence, file=sys.stderr)
        return 1


def run() -> NoReturn:
    """The console script."""
    try:
        code = main()
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever was reading has read enough (`dryhouse batches | head`).
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = 0
    sys.exit(code)


def _desk(args: argparse.Namespace) -> int:
    from dryhouse.cli.no_screen import no_screen, tell

    if no_screen():
        return tell(args.journal, sample=args.sample)
    from dryhouse.house import open_desk

    return open_desk(
        args.journal,
        sample=args.sample,
        timings=args.timings,
        quit_when_ready=args.quit_when_ready,
        began=_STARTED,
    )
