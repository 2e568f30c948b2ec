"""Every act that is run in these tests answers with the record its type names."""

from __future__ import annotations

import re
import sys
from typing import Any

import pytest

from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import Done, Pending

_commit = Kitchen.commit


def _checked(self: Kitchen, what: str, pending: Pending, **more: Any) -> Done[Any]:
    done = _commit(self, what, pending, **more)
    code = sys._getframe(1).f_code
    act = sys._getframe(1).f_globals.get(code.co_name)
    promised = re.fullmatch(r"Done\[(\w+)\]", str(getattr(act, "__annotations__", {}).get("return", "")))
    if promised is not None and promised[1] not in ("Record", "Any") and done.changes:
        assert type(done.record).__name__ == promised[1], f"{code.co_name} is about {type(done.record).__name__}"
    return done


@pytest.fixture(autouse=True)
def acts_are_about_what_they_say(monkeypatch: pytest.MonkeyPatch) -> None:
    """Holds `Done[…]` to the records of real acts."""
    monkeypatch.setattr(Kitchen, "commit", _checked)
