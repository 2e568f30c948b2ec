"""How long the handbook takes to open, and a food field to answer a keystroke.

Run: `python tests/benchmarks/finder_speed.py`
"""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parents[2])]

from dryhouse.handbook.reader import handbook  # noqa: E402

TYPED = ("c", "co", "cor", "corn", "squsah winter", "cherries sour", "brocoli", "ground beef", "be", "xyzzy plugh")


def milliseconds(work, times: int) -> list[float]:
    taken = []
    for _ in range(times):
        started = time.perf_counter()
        work()
        taken.append((time.perf_counter() - started) * 1e3)
    return taken


def main() -> None:
    (foods,) = milliseconds(lambda: handbook().foods, 1)
    (index,) = milliseconds(lambda: handbook().finder, 1)
    print(f"{len(handbook().foods)} foods read in {foods:.1f} ms, indexed in {index:.1f} ms")
    for text in TYPED:
        handbook().find(text)
        taken = sorted(milliseconds(lambda text=text: handbook().find(text), 500))
        print(f"{text!r:20} median {statistics.median(taken):.3f} ms, 99th percentile {taken[494]:.3f} ms")


if __name__ == "__main__":
    main()
