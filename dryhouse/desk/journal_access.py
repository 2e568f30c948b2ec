"""Opening journals from the window: her own, another file, the sample; backing up and restoring.

The desk does not know the journal; what it needs of it is given by the house through `Journals`.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from dryhouse.kitchen.exchange.bringing import Coming, Difference
    from dryhouse.kitchen.kitchen import Kitchen
    from dryhouse.kitchen.ports import Done, KeptCopy, Record
    from dryhouse.science.messages import Message

Opener = Callable[[], "Kitchen"]


class JournalAccess(Protocol):
    """What the house lends the desk. Each raises WorldProblem where the world does not play along."""

    tried: Path
    """The file that was last to be opened, whether or not it could be."""

    def own(self) -> Kitchen:
        """The journal the program was started with: hers, unless another was named."""

    def file(self, path: Path) -> Kitchen:
        """The journal in this file, made where there is none."""

    def sample(self) -> Kitchen:
        """A fresh copy of the sample journal."""

    def path(self, kitchen: Kitchen) -> Path:
        """The file an open journal is in."""

    def name(self, kitchen: Kitchen) -> str:
        """What to call an open journal in the window's title."""

    def back_up(self, kitchen: Kitchen) -> Path:
        """Copy an open journal to its folder of backups; where the copy is."""

    def copy(self, kitchen: Kitchen, into: Path) -> Path:
        """Put a whole copy of an open journal there; where it is."""

    def restore(self, backup: Path, into: Path) -> Path | None:
        """Put a backup in the place of a journal; where the former one is kept."""

    def back_up_if_due(self, path: Path) -> Path | None:
        """A backup of a journal that was written to since the last one, at most once a day."""

    def has_backups(self, path: Path) -> bool:
        """Whether there is any backup of a journal with a batch in it."""

    def backups(self, path: Path) -> Iterable[KeptCopy]:
        """The backups of a journal, newest first, each looked through."""

    def look_inside(self, backup: Path) -> list[str]:
        """The newest batches of a backup and what else is in it, in lines."""

    def back_up_file(self, path: Path) -> Path:
        """Copy a journal to its folder of backups; where the copy is."""

    def export(self, path: Path, destination: Path, tell: Callable[[int], None]) -> int:
        """Everything in a journal to a new file or folder; how many records. Raises InputProblem."""

    def look_through(self, path: Path, source: Path, tell: Callable[[float], None]) -> Coming:
        """What an import into a journal would do; it must be closed. Raises InputProblem."""

    def take_in(self, path: Path, coming: Coming, theirs: Collection[Difference]) -> Done[Record]:
        """Write what came into a journal. Raises InputProblem."""

    def faults(self, path: Path) -> list[Message]:
        """Everything that is wrong with a journal, a message each."""

    def mendable(self, found: Iterable[Message]) -> bool:
        """Whether any of what was found can be mended."""

    def mend(self, path: Path) -> list[Message]:
        """Mend what can be mended, and say what was done."""


class Doorway(Protocol):
    """What the menus can ask of whoever opens journals."""

    def open_own(self) -> None:
        """Her own journal."""

    def open_sample(self) -> None:
        """The sample journal."""

    def ask_open(self) -> None:
        """Ask which file, and open it."""

    def back_up(self) -> None:
        """Copy the open journal to its folder of backups."""

    @property
    def files(self) -> Files:
        """Who makes, opens and copies files."""

    @property
    def rescue(self) -> Rescuer:
        """Who restores backups and checks."""

    @property
    def exchange(self) -> Exchanger:
        """Who exports and imports."""


class Files(Protocol):
    """What the menus can ask of journals as files."""

    def ask_new(self) -> None:
        """Ask where, and begin an empty journal there."""

    def ask_copy(self) -> None:
        """Ask where to, and put a copy there."""

    def open_file(self, path: Path) -> None:
        """The journal in this file."""


class Exchanger(Protocol):
    """What the menus can ask to carry a journal elsewhere."""

    def ask_export(self) -> None:
        """Ask where to, and export everything."""

    def ask_import(self) -> None:
        """Ask what, and bring it in."""


class Rescuer(Protocol):
    """What the menus can ask where something is wrong, or to be safe."""

    def ask_restore(self) -> None:
        """Ask which backup, and put it in the journal's place."""

    def check(self) -> None:
        """Look the whole journal through, and say what was found."""

    def look_for_the_cause(self) -> None:
        """The same after something went wrong; nothing is said where the journal has no part in it."""
