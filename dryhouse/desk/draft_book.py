"""What was typed and not saved, in a file beside the journal: of each form the newest first.

The file is no part of the journal: it holds what no record holds yet, and goes when nothing is left to offer.
"""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

ENDING = "-drafts"
"""The file of `journal.dryhouse` is `journal.dryhouse-drafts`."""
MOST = 5
"""So many are kept of one form and one record."""


class DraftBook:
    """Drafts by form and by what they are of: `("dryer", "3")`. A file that cannot be read holds none."""

    def __init__(self, journal: Path) -> None:
        self._file = journal.with_name(journal.name + ENDING) if journal.is_absolute() else None
        """None for a journal that no file holds."""
        self._kept: dict[str, dict[str, list[Any]]] = {}
        self._written = ""
        if self._file is not None:
            self._read(self._file)

    def _read(self, file: Path) -> None:
        try:
            text = file.read_text(encoding="utf-8")
            kept = json.loads(text)
            assert all(isinstance(drafts, list) for of in kept.values() for drafts in of.values())
        except (OSError, ValueError, RecursionError, AttributeError, AssertionError):
            return
        self._kept, self._written = kept, text

    def get(self, form: str, of: str = "") -> list[Any]:
        """The drafts, newest first."""
        return list(self._kept.get(form, {}).get(of, ()))

    def put(self, form: str, of: str, drafts: list[Any]) -> None:
        """These are the drafts from now on."""
        if drafts:
            self._kept.setdefault(form, {})[of] = drafts[:MOST]
        elif of in self._kept.get(form, {}):
            del self._kept[form][of]
            if not self._kept[form]:
                del self._kept[form]

    def save(self) -> None:
        """Write what has changed; whole, or as it was. A disk that fails costs no more than the drafts."""
        text = json.dumps(self._kept, ensure_ascii=True) if self._kept else ""
        if self._file is None or text == self._written:
            return
        part = self._file.with_name(self._file.name + ".part")
        try:
            if text:
                handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
                with open(handle, "w", encoding="utf-8") as out:
                    out.write(text)
                os.replace(part, self._file)
            else:
                self._file.unlink(missing_ok=True)
            self._written = text
        except OSError:
            part.unlink(missing_ok=True)
