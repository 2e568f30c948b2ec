"""The command line: the same acts as the desk, for scripts and for checking.

Each verb is a small module in `verbs` with one function `add(verbs)`, which adds its parser and sets
`run` to a function of the arguments. Exit code 0; 2 with one sentence on stderr where the input cannot be
used, and then nothing has changed; 1 where the world failed (file, disk, lock).
"""

from __future__ import annotations

import errno
import gc
import io
import os
import sys
import time
import warnings
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, NoReturn, TextIO

from dryhouse.science.errors import InputProblem, WorldProblem

if TYPE_CHECKING:
    import argparse

_STARTED = time.perf_counter()


class DeskOptions(NamedTuple):
    """How the desk is to be opened."""

    journal: Path | None = None
    sample: bool = False
    timings: bool = False
    quit_when_ready: bool = False


def parser(given: Sequence[str] = ()) -> argparse.ArgumentParser:
    """Every option, and the verb that is given, or every verb."""
    from dryhouse.cli.parsing import make_parser

    return make_parser(_desk, given)


def desk_options(given: Sequence[str]) -> DeskOptions | None:
    """The options, where they are the desk's and nothing else: its window does not wait for a parser of all
    the verbs. None hands them to the parser, which also says what is wrong with them. A file alone, where
    it is there, is a journal to open."""
    flags = [word for word in given if word in ("--sample", "--timings", "--quit-when-ready")]
    rest = [word for word in given if word not in flags]
    if len(rest) == 1 and Path(rest[0]).is_file():
        rest = ["--journal", *rest]
    if rest and not (len(rest) == 2 and rest[0] == "--journal" and "--sample" not in flags):
        return None
    journal = Path(rest[1]) if rest else None
    return DeskOptions(journal, "--sample" in flags, "--timings" in flags, "--quit-when-ready" in flags)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; answer its exit code."""
    args: argparse.Namespace | None = None
    try:
        given = [_readable(word) for word in (sys.argv[1:] if arguments is None else arguments)]
        if (options := desk_options(given)) is not None:
            return _desk(options)
        given = _in_order(given)
        args = parser(given).parse_args(given)
        _refuse_mistyped(args)
        code: int = args.run(args)
        return code
    except InputProblem as problem:
        from dryhouse.cli.ways_on import with_way_on

        print(with_way_on(problem), file=sys.stderr)
        return 2
    except WorldProblem as problem:
        from dryhouse.cli.ways_on import with_way_back

        print(with_way_back(problem), file=sys.stderr)
        return 1
    except OSError as problem:
        if problem.filename is None:
            raise  # the answer could not be written out
        name = str(problem.filename)
        shown = name if len(name) < _LONGEST_SHOWN else f"{name[:_LONGEST_SHOWN]}…"
        print(f"“{shown}” cannot be used ({problem.strerror}).", file=sys.stderr)
        return 2 if problem.errno == errno.ENAMETOOLONG else 1
    except (ArithmeticError, LookupError, TypeError, ValueError):
        # A mistake of ours, unless it is what somebody else wrote into the journal that cannot be worked with.
        if args is None or not (sentence := _of_unsound_records(args)):
            raise
        print(sentence, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130  # What a shell expects of a program that was stopped by Ctrl+C.


def _refuse_mistyped(args: argparse.Namespace) -> None:
    """A journal that is named has to be there, where what is asked makes sense only of one: of every answer of the
    verb, or of those to the options it names. Raises InputProblem, WorldProblem where it was lost."""
    wanted: bool | tuple[str, ...] = getattr(args, "of_a_journal", False)
    if not isinstance(wanted, bool):
        wanted = any(getattr(args, option) is not None for option in wanted)
    if wanted and args.journal is not None and not args.journal.exists():
        from dryhouse.house import refuse_lost

        refuse_lost(args.journal)
        raise InputProblem(f"There is no journal at “{args.journal}” yet. “dryhouse log” starts one.")


def _of_unsound_records(args: argparse.Namespace) -> str:
    """A sentence where records of the journal cannot be right; empty where there is nothing wrong with them."""
    from dryhouse.cli.ways_on import sentence_of
    from dryhouse.house import default_journal, unsound_among_newest
    from dryhouse.science.messages import MessageKind, message

    path = Path(args.journal or default_journal())
    try:
        found = not args.sample and unsound_among_newest(path)
    except WorldProblem:
        return ""
    problem = WorldProblem(message(MessageKind.UNSOUND_JOURNAL, path=str(path)))
    return f"{sentence_of(problem)} “dryhouse check” names them." if found else ""


def _in_order(given: list[str]) -> list[str]:
    """What the parser reads; a journal that is named alone has to be there."""
    from dryhouse.cli.as_typed import in_order
    from dryhouse.cli.parsing import verbs

    words = in_order(given, verbs())
    if words[:1] == ["--journal"] and words[1:2] == given[:1] and not Path(words[1]).is_file():
        raise InputProblem(f"There is no journal at “{words[1]}”.")
    return words


_LONGEST_SHOWN = 80
"""Letters of a file's name that are shown where it cannot be used."""


def run() -> NoReturn:
    """The console script. What a library warns a programmer of is kept from a person, unless she asks with -W."""
    if not sys.warnoptions:
        warnings.simplefilter("ignore")
    sys.stdout, sys.stderr = _any_text(sys.stdout), _any_text(sys.stderr)
    try:
        code = main()
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever was reading has read enough (`dryhouse batches | head`).
        _write_no_more()
        code = 0
    except OSError as problem:
        # What the journal and the files do is told by then; this is the answer that cannot be written.
        _write_no_more()
        print(f"The answer could not be written out ({problem.strerror}).", file=sys.stderr)
        code = 1
    gc.freeze()  # what is left goes with the program: Python need not look through all of it for cycles first
    sys.exit(code)


def _readable(word: str) -> str:
    """An argument as text, also where the system's own encoding could not read it."""
    try:
        return os.fsencode(word).decode() if any("\ud800" <= c <= "\udfff" for c in word) else word
    except UnicodeError:
        shown = word.encode(errors="replace").decode()
        raise InputProblem(f"“{shown}” is not text that can be read here; write it in UTF-8.") from None


def _any_text(stream: TextIO | None) -> TextIO:
    """A stream that takes any character, as a question mark where it has no other way; nowhere, where closed."""
    if stream is None:
        return open(os.devnull, "w", encoding="utf-8")
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="replace")
    return stream


def _write_no_more() -> None:
    """Let what is still waiting to be written go nowhere, so that leaving is quiet."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _desk(args: argparse.Namespace | DeskOptions) -> int:
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
