"""The parser of the command line: the desk's options, and each verb from its own module."""

from __future__ import annotations

import argparse
import importlib
import pkgutil
from collections.abc import Callable
from pathlib import Path
from typing import Any, NoReturn

from dryhouse import __version__
from dryhouse.science.errors import InputProblem


class _Parser(argparse.ArgumentParser):
    """argparse with its complaints said in one sentence."""

    def error(self, message: str) -> NoReturn:
        raise InputProblem(f"{message[:1].upper()}{message[1:]}. “{self.prog} --help” shows what would be right.")


def make_parser(desk: Callable[[Any], int]) -> argparse.ArgumentParser:
    """Every option and every verb; without a verb, `desk` is run."""
    top = _Parser(prog="dryhouse", description="A journal and bench calculator for food dried at home.")
    top.add_argument("--version", action="version", version=f"dryhouse {__version__}")
    which = top.add_mutually_exclusive_group()
    which.add_argument("--journal", type=Path, metavar="FILE", help="the journal to open, instead of your own")
    which.add_argument("--sample", action="store_true", help="open a copy of the sample journal")
    top.add_argument("--timings", action="store_true", help="print start-up milestones as JSON")
    top.add_argument("--quit-when-ready", action="store_true", help="leave as soon as the window is usable")
    top.set_defaults(run=desk)
    each = top.add_subparsers(title="verbs", metavar="VERB", parser_class=_Parser)
    folder = importlib.import_module("dryhouse.cli.verbs")
    for module in sorted(pkgutil.iter_modules(folder.__path__), key=lambda m: m.name):
        importlib.import_module(f"dryhouse.cli.verbs.{module.name}").add(each)
    return top
