"""What every test of the window shares is read once, and left alone by the collector from then on.

The collector looks through everything else after each test of a window.
"""

from __future__ import annotations

import gc
from functools import cache
from importlib import import_module

from dryhouse.desk.drawing_library import PARTS
from dryhouse.desk.place import places
from dryhouse.handbook.reader import handbook


@cache
def read_for_windows() -> None:
    """Read the handbook, every place and what charts are drawn with: charts are drawn where they are seen."""
    for part in PARTS:
        import_module(part)
    handbook()
    for place in places():
        place.load()
    gc.collect()
    gc.freeze()
