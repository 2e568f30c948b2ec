"""What `dryhouse` alone does where there is no screen to open a window on."""

from __future__ import annotations

import os
import sys
from pathlib import Path

_NEWEST = 5


def no_screen() -> bool:
    """Whether this is a Linux without a screen, and nobody asked Qt for another way of drawing."""
    given = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    return sys.platform.startswith("linux") and not any(os.environ.get(name) for name in given)


def tell(path: Path | None, *, sample: bool) -> int:
    """Say so, show the newest batches instead, and name the way on."""
    from dryhouse.cli.answers import say_cautions
    from dryhouse.house import open_kitchen
    from dryhouse.kitchen.cards.batch_list import batch_items, batch_line
    from dryhouse.kitchen.ports import BatchQuery
    from dryhouse.kitchen.settings import style
    from dryhouse.science.display import counted

    with open_kitchen(path, sample=sample) as kitchen:
        count = len(kitchen.journal.batch_ids(BatchQuery()))
        print(
            "There is no screen here, so the window stays closed. The journal holds "
            f"{counted(count, 'batch', 'batches')}; the newest:"
        )
        for item in batch_items(kitchen, BatchQuery(sort="id"), newest=_NEWEST):
            print(batch_line(kitchen, item, style(kitchen)))
            say_cautions((c for c in item["cautions"] if c.severity == "stop"), "        ")
    print("The command line does the same acts: dryhouse --help")
    return 0
