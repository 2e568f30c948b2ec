"""The one place that wires the journal, the kitchen and the desk together."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.room import Kitchen


def default_journal() -> Path:
    """Where a person's own journal lives: the platform's data folder."""
    return _data_folder() / "journal.dryhouse"


def sample_file() -> Path:
    """Her own copy of the sample journal: made at first use and kept, so that she can try things in it."""
    file = _data_folder() / "sample" / "sample.dryhouse"
    if not file.exists():
        import shutil

        from dryhouse.journal.opening import sample_journal

        fresh = sample_journal()
        file.parent.mkdir(parents=True, exist_ok=True)
        shutil.move(fresh, file)
    return file


def _data_folder() -> Path:
    from platformdirs import user_data_path

    return user_data_path("dryhouse", appauthor=False)


@contextmanager
def open_kitchen(path: Path | None = None, *, sample: bool = False, write: bool = False) -> Iterator[Kitchen]:
    """A kitchen over her journal, the one named, or her copy of the sample.

    Reading never blocks and never creates a file; writing takes the journal's lock, and makes the file
    where there is none. Raises WorldProblem.
    """
    kitchen = _open(sample_file() if sample else (path or default_journal()), write=write)
    try:
        yield kitchen
    finally:
        kitchen.journal.close()


def _open(file: Path, *, write: bool) -> Kitchen:
    from dryhouse.journal.opening import open_journal

    return Kitchen(open_journal(file, write=write), handbook())


class House:
    """What the desk is lent of journals: opening, backing up, restoring. It meets `desk.doors.Journals`."""

    def __init__(self) -> None:
        self._open: dict[Path, Kitchen] = {}

    def own(self) -> Kitchen:
        """Her own journal, made where there is none yet."""
        return self.file(default_journal())

    def sample(self) -> Kitchen:
        """Her copy of the sample journal."""
        return self.file(sample_file())

    def file(self, path: Path) -> Kitchen:
        """The journal in this file, made where there is none."""
        self._open[path] = kitchen = _open(path, write=True)
        return kitchen

    def back_up(self, kitchen: Kitchen) -> Path:
        """Copy the open journal to its folder of backups; where the copy is."""
        from dryhouse.journal.backup import back_up

        return back_up(self._path(kitchen))

    def restore(self, backup: Path) -> Kitchen:
        """Put a backup in her own journal's place (which is backed up first) and open it.

        A backup that cannot be read is refused before the open journal is let go.
        """
        from dryhouse.journal.backup import restore
        from dryhouse.journal.opening import open_journal

        open_journal(backup, write=False).close()
        own = default_journal()
        if own in self._open:
            self._open.pop(own).journal.close()
        restore(backup, own)
        return self.own()

    def name(self, kitchen: Kitchen) -> str:
        """What to call the open journal in the window's title."""
        path = self._path(kitchen)
        named = {default_journal(): "", _data_folder() / "sample" / "sample.dryhouse": "sample journal"}
        return named.get(path, path.name)

    def _path(self, kitchen: Kitchen) -> Path:
        return next(path for path, open in self._open.items() if open is kitchen)


class Journals:
    """What the desk asks of the house: journals opened to write, backed up, restored. Each raises WorldProblem."""

    def __init__(self, asked: Path | None = None) -> None:
        self._asked = asked or default_journal()
        """The journal the program was started with; hers, where none was named."""
        self._samples: set[Path] = set()

    def own(self) -> Kitchen:
        """The journal the program was started with."""
        return self.file(self._asked)

    def file(self, path: Path) -> Kitchen:
        """The journal in this file, made where there is none."""
        from dryhouse.journal.opening import open_journal

        return Kitchen(open_journal(path, write=True), handbook())

    def sample(self) -> Kitchen:
        """A fresh copy of the sample journal."""
        from dryhouse.journal.opening import sample_journal

        copy = sample_journal()
        self._samples.add(copy)
        return self.file(copy)

    def path(self, kitchen: Kitchen) -> Path:
        """The file an open journal is in."""
        return Path(kitchen.journal.path)  # type: ignore[attr-defined]

    def name(self, kitchen: Kitchen) -> str:
        """What to call an open journal."""
        path = self.path(kitchen)
        if path in self._samples:
            return "Sample journal"
        return "My journal" if path == default_journal() else path.stem

    def back_up(self, kitchen: Kitchen) -> Path:
        """A copy of an open journal in its folder of backups; where the copy is."""
        from dryhouse.journal.backup import back_up

        return back_up(self.path(kitchen))

    def restore(self, backup: Path, into: Path | None = None) -> Path | None:
        """Put a backup in the place of a journal that is not open; where the former one is kept."""
        from dryhouse.journal.backup import restore

        return restore(backup, into or self._asked)


def open_desk(path: Path | None, *, sample: bool, timings: bool, quit_when_ready: bool, began: float) -> int:
    """Open the window; answer the exit code when it closes."""
    from dryhouse.desk.app import run

    journals = Journals(path)
    opener = journals.sample if sample else journals.own
    return run(opener, journals=journals, timings=timings, quit_when_ready=quit_when_ready, began=began)
