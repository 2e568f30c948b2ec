"""The parser of the command line: the desk's options, and each verb from its own module."""

from __future__ import annotations

import argparse
import difflib
import importlib
import pkgutil
import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NoReturn

from dryhouse import __version__
from dryhouse.science.errors import InputProblem

FILES = "files"
OF_FILES = ("export", "import", "backup", "restore", "check")
"""The module of several verbs, and its verbs."""


class _Parser(argparse.ArgumentParser):
    """argparse with its complaints said in one sentence, and with values that may begin with a minus (`-18C`)."""

    def __init__(self, **how: Any) -> None:
        super().__init__(**how)
        self._negative_number_matcher = re.compile(r"-[\d.]")

    def error(self, message: str) -> NoReturn:
        if unknown := re.match(r"argument VERB: invalid choice: '(.*?)' \(choose from", message):
            raise InputProblem(_no_such_verb(unknown[1]))
        said = " ".join(message.split())
        raise InputProblem(f"{said[:1].upper()}{said[1:]}. “{self.prog} --help” shows what would be right.")


def make_parser(desk: Callable[[Any], int], given: Sequence[str] = ()) -> argparse.ArgumentParser:
    """Every option, and the verb that is given, or every verb where it is not clear which. Without, `desk` is run.

    Reading the other verbs' modules would cost more than most verbs do.
    """
    top = _Parser(prog="dryhouse", description="A journal and bench calculator for food dried at home.")
    top.add_argument("-V", "--version", action="version", version=f"dryhouse {__version__}")
    which = top.add_mutually_exclusive_group()
    which.add_argument("--journal", type=Path, metavar="FILE", help="the journal to open, instead of your own")
    which.add_argument("--sample", action="store_true", help="open a copy of the sample journal")
    top.add_argument("--timings", action="store_true", help="print start-up milestones as JSON")
    top.add_argument("--quit-when-ready", action="store_true", help="leave as soon as the window is usable")
    top.set_defaults(run=desk)
    each = top.add_subparsers(title="verbs", metavar="VERB", parser_class=_Parser)
    names = _modules()
    verb = _verb(given)
    for name in [verb] if verb in names else names:
        importlib.import_module(f"dryhouse.cli.verbs.{name}").add(each)
    return top


def verbs() -> tuple[str, ...]:
    """Every verb, by name."""
    return (*(name for name in _modules() if name != FILES), *OF_FILES)


def _modules() -> list[str]:
    folder = importlib.import_module("dryhouse.cli.verbs")
    return sorted(module.name for module in pkgutil.iter_modules(folder.__path__))


def _no_such_verb(word: str) -> str:
    near = difflib.get_close_matches(word, verbs(), n=1)
    meant = f" Did you mean “{near[0]}”?" if near else ""
    return f"“{word}” is not something Dryhouse does.{meant} “dryhouse --help” lists what it does."


def _verb(given: Sequence[str]) -> str:
    """The first word that is neither an option nor the name of the journal."""
    words = iter(given)
    for word in words:
        if word == "--journal":
            next(words, None)
        elif not word.startswith("-"):
            return word
    return ""
