"""Pictures of the real window on the sample journal: for the README, and to look at after a change.

    python tests/pictures.py FOLDER [--place journal] [--size 1280x800] [--look light]

Without choices it draws every place at 1280×800 and 1920×1080, light and dark. The pictures of the README and of
the guides are made by `python tests/pictures.py dryhouse/share/guides --guides`.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

SIZES = ("1280x800", "1920x1080")
SMALL = ("900x600", "1093x614")
"""The smallest that is comfortable, and 1366x768 at 125 %."""
LOOKS = ("light", "dark", "contrast")


def main() -> None:
    """Draw what is asked for."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("folder", type=Path)
    asked.add_argument("--place", action="append", help="only this place; may be given more than once")
    asked.add_argument("--size", action="append", choices=(*SIZES, *SMALL))
    asked.add_argument("--look", action="append", choices=LOOKS)
    asked.add_argument("--guides", action="store_true", help="the pictures of the README and of the guides")
    asked.add_argument("--zoom", type=int, default=100, help="size of the text, in percent")
    given = asked.parse_args()
    given.folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as data:
        os.environ |= {"XDG_DATA_HOME": data, "DRYHOUSE_SETTINGS": f"{data}/settings.ini"}
        if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
            os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        if given.guides:
            draw(given.folder, None, SIZES[:1], LOOKS[:1], guides=True)
        else:
            draw(given.folder, given.place, given.size or SIZES, given.look or LOOKS[:2], zoom=given.zoom)


def draw(
    folder: Path,
    places: list[str] | None,
    sizes: Sequence[str],
    looks: Sequence[str],
    *,
    guides: bool = False,
    zoom: int = 100,
) -> None:
    """One PNG for each place, size and look."""
    from PySide6.QtWidgets import QApplication

    from dryhouse.desk.opening import Opening
    from dryhouse.desk.settings import settings
    from dryhouse.desk.theme import Theme
    from dryhouse.desk.window import DeskWindow
    from dryhouse.house import Journals
    from dryhouse.kitchen.ports import BatchQuery

    app = QApplication([])
    theme = Theme(app, "light", zoom=zoom)
    window = DeskWindow(theme, settings())
    opening = Opening(window, Journals())
    window.show()
    opening.open_sample()
    for size in sizes:
        window.resize(*(int(side) for side in size.split("x")))
        for look in looks:
            theme.choose(look)
            for spec in window.specs:
                if places and spec.id not in places:
                    continue
                view = window.go(spec.id)
                if guides and spec.id == "journal":
                    corn = opening.session.kitchen.journal.batch_ids(
                        BatchQuery(foods=("corn",), states=("finished",))
                    )
                    view.show_record("batch", corn[0])
                settle(app, 8.0 if guides else 0.4)
                name = spec.id if guides else f"{spec.id}_{size}_{look}_{zoom}"
                window.grab().save(str(folder / f"{name}.png"))
    window.close()


def settle(app: object, seconds: float = 0.4) -> None:
    """Let timers fire and the last paint be done."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        app.processEvents()
        time.sleep(0.01)


if __name__ == "__main__":
    main()
