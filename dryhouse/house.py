"""The one place that wires the journal, the kitchen and the desk together."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from dryhouse.science.errors import WorldProblem

if TYPE_CHECKING:
    from dryhouse.kitchen.exchange.bringing import Coming, Difference
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.ports import Change, Done, KeptCopy, Record
    from dryhouse.science.messages import Message


def default_journal() -> Path:
    """Where a person's own journal lives: the platform's data folder."""
    return _data_folder() / "journal.dryhouse"


def sample_file() -> Path:
    """Her own copy of the sample journal: made at first use and kept, so that she can try things in it.

    Raises WorldProblem.
    """
    file = _sample_place()
    if not file.exists() or not file.stat().st_size:
        import os
        import shutil

        from dryhouse.journal.sample import fresh_copy

        try:
            file.parent.mkdir(parents=True, exist_ok=True)
            part = shutil.copyfile(fresh_copy(), file.with_name(f"{file.name}.{os.getpid()}"))
            os.replace(part, file)
        except OSError as problem:
            raise WorldProblem(
                f"A copy of the sample journal could not be made at “{file}” ({problem.strerror})."
            ) from None
    return file


def _sample_place() -> Path:
    return _data_folder() / "sample" / "sample.dryhouse"


def _data_folder() -> Path:
    from platformdirs import user_data_path

    return user_data_path("dryhouse", appauthor=False)


@contextmanager
def open_kitchen(
    path: Path | None = None, *, sample: bool = False, write: bool = False, begin: bool = True
) -> Iterator[Kitchen]:
    """A kitchen over her journal, the one named, or her copy of the sample.

    Reading never blocks and never creates a file; to write, the file is made where there is none, unless what is
    written about must be in it already (not `begin`). Several windows and commands may have it open: each act is
    done alone (`Kitchen.do`). Raises WorldProblem.
    """
    file = sample_file() if sample else (path or default_journal())
    _refuse_emptied(file)
    kitchen = _open(file, write=write and (begin or file.exists()))
    try:
        yield kitchen
    finally:
        kitchen.journal.close()


def _refuse_emptied(file: Path) -> None:
    """A journal that was lost is not begun anew beside its backups without a word."""
    from dryhouse.journal.backup import emptied

    if emptied(file):
        from dryhouse.science.messages import MessageKind, message

        where = {"path": str(file.resolve()), "backups": str(file.resolve().parent / "backups")}
        raise WorldProblem(message(MessageKind.EMPTIED, **where))


def _open(file: Path, *, write: bool) -> Kitchen:
    from dryhouse.handbook.reader import handbook
    from dryhouse.journal.opening import open_journal
    from dryhouse.kitchen.kitchen import Kitchen

    return Kitchen(open_journal(file, write=write), handbook(), follow=_follow)


def _follow(kitchen: Kitchen, changes: Sequence[Change]) -> Sequence[Change]:
    from dryhouse.kitchen.dryer.learned import learned_anew

    return learned_anew(kitchen, changes)


def back_up(journal: Path) -> Path:
    """A copy of a journal, open or not, in its folder of backups; where the copy is. Raises WorldProblem."""
    from dryhouse.journal import backup

    return backup.back_up(journal)


def restore(backup: Path, journal: Path) -> Path | None:
    """Put a backup in the place of a journal that is not open; where the former is kept. Raises WorldProblem."""
    from dryhouse.journal.backup import restore

    return restore(backup, journal)


def backups_of(journal: Path) -> list[Path]:
    """The backups of a journal, newest first."""
    from dryhouse.journal import backup_names

    return backup_names.backups_of(journal)


def newest_whole_backup(journal: Path) -> Path | None:
    """The newest backup of a journal that is whole and whose records can be read; None where there is none."""
    from dryhouse.journal import backup_list

    return backup_list.newest_whole(journal)


def refuse_lost(journal: Path) -> None:
    """Raises WorldProblem where there is no journal, and yet there are backups of it, or its log."""
    _refuse_emptied(journal)
    _open(journal, write=False).journal.close()


def faults_in(journal: Path) -> list[Message]:
    """Everything that is wrong with a journal, a message each. Raises WorldProblem where it cannot be opened."""
    from dryhouse.journal.check import check

    return check(journal)


def unsound_among_newest(journal: Path) -> bool:
    """Whether a command may have stumbled over a record that cannot be right. Raises WorldProblem."""
    from dryhouse.journal import check

    return check.unsound_among_newest(journal)


def can_mend(found: Iterable[Message]) -> bool:
    """Whether any of what a check found can be mended."""
    from dryhouse.journal.mending import mendable

    return any(map(mendable, found))


def mend(journal: Path) -> list[Message]:
    """Mend what a check can mend, and say what was done. Raises WorldProblem where a backup is needed."""
    from dryhouse.journal import mending

    return mending.mend(journal)


class Journals:
    """What the desk asks of the house: journals opened to write, backed up, restored. Each raises WorldProblem."""

    def __init__(self, asked: Path | None = None) -> None:
        self._asked = asked
        """The journal the program was started with; None means hers."""
        self.tried = asked or default_journal()
        """The file that was last to be opened, whether or not it could be."""

    def own(self) -> Kitchen:
        """The journal the program was started with, made where there is none yet."""
        return self.file(self._asked or default_journal())

    def file(self, path: Path) -> Kitchen:
        """The journal in this file, made where there is none."""
        self.tried = path
        return _open(path, write=True)

    def sample(self) -> Kitchen:
        """Her copy of the sample journal."""
        self.tried = _sample_place()
        return self.file(sample_file())

    def path(self, kitchen: Kitchen) -> Path:
        """The file an open journal is in."""
        return kitchen.journal.path

    def name(self, kitchen: Kitchen) -> str:
        """What to call an open journal."""
        path = self.path(kitchen)
        named = {default_journal().resolve(): "My journal", _sample_place().resolve(): "Sample journal"}
        return named.get(path, path.stem)

    def back_up(self, kitchen: Kitchen) -> Path:
        """A copy of an open journal in its folder of backups; where the copy is."""
        return back_up(self.path(kitchen))

    def copy(self, kitchen: Kitchen, into: Path) -> Path:
        """Put a whole copy of an open journal there; where it is."""
        from dryhouse.journal.backup import copy_to

        copy_to(self.path(kitchen), into)
        return into

    def restore(self, backup: Path, into: Path) -> Path | None:
        """Put a backup in the place of a journal; where the former one is kept."""
        return restore(backup, into)

    def back_up_if_due(self, path: Path) -> Path | None:
        """A backup of a journal that was written to since the last one, at most once a day."""
        from dryhouse.journal import backup

        return backup.back_up_if_due(path)

    def has_backups(self, path: Path) -> bool:
        """Whether there is any backup of a journal with a batch in it."""
        from dryhouse.journal.backup_list import any_with_batches

        return any_with_batches(path)

    def backups(self, path: Path) -> Iterator[KeptCopy]:
        """The backups of a journal, newest first, each looked through."""
        from dryhouse.journal.backup_list import listed

        return listed(path)

    def look_inside(self, backup: Path) -> list[str]:
        """The newest batches of a backup and what else is in it, in lines."""
        from dryhouse.kitchen.cards.contents import contents_lines

        with open_kitchen(backup) as kitchen:
            return contents_lines(kitchen)

    def back_up_file(self, path: Path) -> Path:
        """A copy of a journal in its folder of backups; where the copy is."""
        return back_up(path)

    def export(self, path: Path, destination: Path, tell: Callable[[int], None]) -> int:
        """Everything in a journal to a file or folder that is not there yet; how many records."""
        from dryhouse.kitchen.exchange import every_record, write_records

        with open_kitchen(path) as kitchen, kitchen.journal.at_one_moment():
            return write_records(every_record(kitchen.journal), destination, tell)

    def look_through(self, path: Path, source: Path, tell: Callable[[float], None]) -> Coming:
        """What an import into a journal would do; it must be closed."""
        from dryhouse.kitchen.exchange import entries, look_through

        with open_kitchen(path) as kitchen:
            return look_through(kitchen, entries(source), tell)

    def take_in(self, path: Path, coming: Coming, theirs: Collection[Difference]) -> Done[Record]:
        """Write what came into a journal."""
        from dryhouse.kitchen.exchange import take_in

        with open_kitchen(path, write=True) as kitchen:
            return take_in(kitchen, coming, theirs)

    def faults(self, path: Path) -> list[Message]:
        """Everything that is wrong with a journal, a message each."""
        return faults_in(path)

    def mendable(self, found: Iterable[Message]) -> bool:
        """Whether any of what was found can be mended."""
        return can_mend(found)

    def mend(self, path: Path) -> list[Message]:
        """Mend what can be mended, and say what was done."""
        return mend(path)


def open_desk(path: Path | None, *, sample: bool, timings: bool, quit_when_ready: bool, began: float) -> int:
    """Open the window, or bring to the front the one that has this journal open; answer the exit code."""
    from dryhouse.desk.app import run
    from dryhouse.desk.one_window import brought_to_front

    asked = _sample_place() if sample else path or default_journal()
    if not (timings or quit_when_ready) and brought_to_front(asked):
        return 0
    journals = Journals(path)
    opener = journals.sample if sample else journals.own
    return run(opener, journals=journals, timings=timings, quit_when_ready=quit_when_ready, began=began)


def keep_watch(path: Path | None, *, sample: bool, quiet: str | None) -> int:
    """Keep the alarms and the instruments of a journal going without a window; answer the exit code."""
    from dryhouse.desk.watch import watch
    from dryhouse.kitchen.cards.alarms import QUIET_KEY
    from dryhouse.kitchen.settings import set_preference

    with open_kitchen(path, sample=sample, write=True) as kitchen:
        if quiet is not None:
            kitchen.do(set_preference, QUIET_KEY, quiet)
        return watch(kitchen, kitchen.journal.path)
