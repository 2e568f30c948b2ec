"""Pictures of the real window on the sample journal: for the README, and to look at after a change.

    python tests/pictures.py FOLDER [--place journal] [--size 1280x800] [--look light] [--zoom 200] [--dots 1.25]

Without choices it draws every place at 1280×800 and 1920×1080, light and dark; with `--forms` every form, page and
dialog too, with `--empty` the welcome and the places of an empty journal. A screen of 1366×768 at 125 % is
`--size 1093x614 --dots 1.25`. A picture is taken when nothing more is on its way: late marks, charts, what is read
beside the window. The pictures of the README and of the guides are made by
`python tests/pictures.py dryhouse/share/guides --guides`.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import threading
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
_SOON_MS = 400
"""A timer that fires once within this still brings something into the picture; later ones take a message away."""


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
    asked.add_argument("--ends", action="store_true", help="a second picture of the end of what scrolls")
    asked.add_argument("--zoom", type=int, default=100, help="size of the text, in percent")
    asked.add_argument("--dots", type=float, default=1.0, help="dots of the screen to a pixel of the window")
    asked.add_argument("--metric", action="store_true", help="in grams, milliliters and °C")
    given = asked.parse_args()
    given.folder.mkdir(parents=True, exist_ok=True)
    if given.dots != 1.0:
        os.environ["QT_SCALE_FACTOR"] = str(given.dots)
    with tempfile.TemporaryDirectory() as data:
        os.environ |= {"XDG_DATA_HOME": data, "DRYHOUSE_SETTINGS": f"{data}/settings.ini"}
        if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
            os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        if given.guides:
            Pictures(given.folder).guides()
        else:
            looks, sizes = given.look or LOOKS[:2], given.size or SIZES
            units = "metric" if given.metric else ""
            pictures = Pictures(given.folder, given.zoom, given.place, units, ends=given.ends)
            pictures.draw(sizes, looks, forms=given.forms, empty=given.empty)


class Pictures:
    """A window on the sample journal, and where its pictures go."""

    def __init__(
        self,
        folder: Path,
        zoom: int = 100,
        only: Sequence[str] | None = None,
        units: str = "",
        *,
        ends: bool = False,
    ) -> None:
        from PySide6.QtWidgets import QApplication

        from dryhouse.desk.opening import Opening
        from dryhouse.desk.settings import settings
        from dryhouse.desk.theme import Theme
        from dryhouse.desk.window import DeskWindow
        from dryhouse.house import Journals

        self.app = QApplication([])
        self.folder, self.zoom, self.only, self.units, self.ends = folder, zoom, only, units, ends
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
            self._let_all_come()
            self.window.grab().save(str(self.folder / f"{spec.id}.png"))
        self.window.close()

    def draw(self, sizes: Sequence[str], looks: Sequence[str], *, forms: bool, empty: bool) -> None:
        """One PNG for each place, or form, size and look."""
        from tests.surfaces import DIALOGS, FORMS, PAGES

        for size in sizes:
            self.window.resize(*(int(side) for side in size.split("x")))
            self._begin()
            shown = {spec.id: lambda w, _o, id=spec.id: w.go(id) for spec in self.window.specs}
            for name, opened in (shown | (FORMS | DIALOGS | PAGES if forms else {})).items():
                if not self.only or name in self.only:
                    self._begin()
                    self.shoot(name, opened, size, looks, apart=name in DIALOGS)
            if empty:
                self.empty(size, looks)
        self.window.close()

    def empty(self, size: str, looks: Sequence[str]) -> None:
        """The welcome, and each place before anything is recorded."""
        folder = Path(os.environ["XDG_DATA_HOME"]) / size
        folder.mkdir()
        self.opening.open(lambda: self.opening.journals.file(folder / "kitchen.dryhouse"))
        self.shoot("welcome", lambda _w, _o: None, size, looks)
        self.opening._start(self.units or "us")
        for spec in self.window.specs:
            self.shoot(f"empty_{spec.id}", lambda w, _o, id=spec.id: w.go(id), size, looks)

    def shoot(
        self,
        name: str,
        opened: Callable[[object, object], object],
        size: str,
        looks: Sequence[str],
        *,
        apart: bool = False,
    ) -> None:
        """Open it, and draw the window in each look, or what it opened in a window of its own."""
        self.theme.choose(looks[0])
        made = opened(self.window, self.opening)
        shown = made if apart else self.window
        of = f"{self.zoom}" + (f"_{self.units}" if self.units else "")
        for look in looks:
            self.theme.choose(look)
            self._let_all_come()
            shown.grab().save(str(self.folder / f"{name}_{size}_{look}_{of}.png"))
        if self.ends and self._scrolled(shown):
            self._let_all_come()
            shown.grab().save(str(self.folder / f"{name}_{size}_{looks[-1]}_{of}_end.png"))
        if apart:
            made.close()

    def _begin(self) -> None:
        """The sample journal as it is opened, with nothing left over of what was typed before."""
        self.opening.close()
        for kept in Path(os.environ["XDG_DATA_HOME"]).rglob("*drafts*"):
            kept.unlink()
        self.opening.open_sample()
        self._measure_in()

    def _let_all_come(self) -> None:
        until = time.monotonic() + _LONGEST_S
        settle(self.app, 0.25)
        while self._more_to_come():
            assert time.monotonic() < until, "something never came"
            settle(self.app, 0.1)

    def _scrolled(self, shown: object) -> bool:
        """Turn every page in view to its end; whether there was more than what was seen."""
        from PySide6.QtWidgets import QScrollArea

        areas = [area for area in shown.findChildren(QScrollArea) if area.isVisible()]
        bars = [bar for bar in (area.verticalScrollBar() for area in areas) if bar.maximum() > bar.value()]
        for bar in bars:
            bar.setValue(bar.maximum())
        return bool(bars)

    def _more_to_come(self) -> bool:
        """Whether a chart is to be drawn, a thread reads, or a timer is about to bring something."""
        from PySide6.QtCore import QTimer

        from dryhouse.desk.widgets.plot_pane import PlotCanvas

        timers = self.window.findChildren(QTimer)
        soon = any(t.isActive() and t.isSingleShot() and t.interval() <= _SOON_MS for t in timers)
        charts = any(chart.awaited for chart in self.window.findChildren(PlotCanvas))
        return soon or charts or threading.active_count() > 1

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
