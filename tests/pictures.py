"""Pictures of the real window on the sample journal: for the README, and to look at after a change.

    python tests/pictures.py FOLDER [--place journal] [--size 1280x800] [--look light]

Without choices it draws every place at 1280×800 and 1920×1080, light and dark; with `--forms` every form, page and
dialog too, with `--empty` the welcome and the places of an empty journal. The pictures of the README and of the
guides are made by `python tests/pictures.py dryhouse/share/guides --guides`.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

SIZES = ("1280x800", "1920x1080")
SMALL = ("900x600", "1093x614")
"""The smallest that is comfortable, and 1366x768 at 125 %."""
LOOKS = ("light", "dark", "contrast")
_LONGEST_S = 120.0
"""What a chart may take: on the first start of all every font of the machine is looked through."""


def main() -> None:
    """Draw what is asked for."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("folder", type=Path)
    asked.add_argument("--place", action="append", help="only this place or form; may be given more than once")
    asked.add_argument("--size", action="append", choices=(*SIZES, *SMALL))
    asked.add_argument("--look", action="append", choices=LOOKS)
    asked.add_argument("--forms", action="store_true", help="every form, page and dialog")
    asked.add_argument("--empty", action="store_true", help="the welcome and the places of an empty journal")
    asked.add_argument("--guides", action="store_true", help="the pictures of the README and of the guides")
    asked.add_argument("--zoom", type=int, default=100, help="size of the text, in percent")
    asked.add_argument("--metric", action="store_true", help="in grams, milliliters and °C")
    given = asked.parse_args()
    given.folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as data:
        os.environ |= {"XDG_DATA_HOME": data, "DRYHOUSE_SETTINGS": f"{data}/settings.ini"}
        if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
            os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        if given.guides:
            Pictures(given.folder).guides()
        else:
            looks, sizes = given.look or LOOKS[:2], given.size or SIZES
            pictures = Pictures(given.folder, given.zoom, given.place, "metric" if given.metric else "")
            pictures.draw(sizes, looks, forms=given.forms, empty=given.empty)


class Pictures:
    """A window on the sample journal, and where its pictures go."""

    def __init__(self, folder: Path, zoom: int = 100, only: Sequence[str] | None = None, units: str = "") -> None:
        from PySide6.QtWidgets import QApplication

        from dryhouse.desk.opening import Opening
        from dryhouse.desk.settings import settings
        from dryhouse.desk.theme import Theme
        from dryhouse.desk.window import DeskWindow
        from dryhouse.house import Journals

        self.app = QApplication([])
        self.folder, self.zoom, self.only, self.units = folder, zoom, only, units
        self.theme = Theme(self.app, "light", zoom=zoom)
        self.window = DeskWindow(self.theme, settings())
        self.opening = Opening(self.window, Journals())
        self.window.show()
        self.window.activateWindow()

    def guides(self) -> None:
        """Each place by its name, the Journal on a batch of corn."""
        from dryhouse.kitchen.ports import BatchQuery

        self.opening.open_sample()
        self.window.resize(1280, 800)
        for spec in self.window.specs:
            view = self.window.go(spec.id)
            if spec.id == "journal":
                query = BatchQuery(foods=("corn",), states=("finished",))
                view.show_record("batch", self.opening.session.kitchen.journal.batch_ids(query)[0])
            settle(self.app, 2.0)
            self._let_charts_be_drawn()
            self.window.grab().save(str(self.folder / f"{spec.id}.png"))
        self.window.close()

    def draw(self, sizes: Sequence[str], looks: Sequence[str], *, forms: bool, empty: bool) -> None:
        """One PNG for each place, or form, size and look."""
        from tests.surfaces import DIALOGS, FORMS, PAGES

        for size in sizes:
            for look in looks:
                self.window.resize(*(int(side) for side in size.split("x")))
                self.theme.choose(look)
                suffix = f"{size}_{look}_{self.zoom}" + (f"_{self.units}" if self.units else "")
                self.opening.open_sample()
                self._measure_in()
                shown = {spec.id: lambda w, _o, id=spec.id: w.go(id) for spec in self.window.specs}
                for name, opened in (shown | (FORMS | DIALOGS | PAGES if forms else {})).items():
                    if not self.only or name in self.only:
                        self.shoot(f"{name}_{suffix}", opened, apart=name in DIALOGS)
                if empty:
                    self.empty(suffix)
        self.window.close()

    def empty(self, suffix: str) -> None:
        """The welcome, and each place before anything is recorded."""
        folder = Path(os.environ["XDG_DATA_HOME"]) / suffix
        folder.mkdir()
        self.opening.open(lambda: self.opening.journals.file(folder / "kitchen.dryhouse"))
        self.shoot(f"welcome_{suffix}", lambda _w, _o: None)
        self.opening._start(self.units or "us")
        for spec in self.window.specs:
            self.shoot(f"empty_{spec.id}_{suffix}", lambda w, _o, id=spec.id: w.go(id))

    def shoot(self, name: str, opened: Callable[[object, object], object], *, apart: bool = False) -> None:
        """Open it, and draw the window, or what it opened in a window of its own."""
        made = opened(self.window, self.opening)
        settle(self.app)
        self._let_charts_be_drawn()
        shown = made if apart else self.window
        shown.grab().save(str(self.folder / f"{name}.png"))
        if apart:
            made.close()

    def _let_charts_be_drawn(self) -> None:
        from dryhouse.desk.widgets.plot_pane import PlotCanvas

        until = time.monotonic() + _LONGEST_S
        while any(chart.awaited for chart in self.window.findChildren(PlotCanvas)):
            assert time.monotonic() < until, "a chart was never drawn"
            settle(self.app, 0.1)

    def _measure_in(self) -> None:
        if self.units:
            from dryhouse.kitchen.settings import UNITS_KEY, set_preference

            self.opening.session.act(set_preference, UNITS_KEY, self.units)


def settle(app: object, seconds: float = 0.4) -> None:
    """Let timers fire and the last paint be done, with all that they ask for."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        app.processEvents()
        time.sleep(0.01)
    for _ in range(20):
        app.processEvents()


if __name__ == "__main__":
    main()
