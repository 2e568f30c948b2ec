"""How long starting took, in seconds since the process began."""

from __future__ import annotations

import os
import sys
import time


class Milestones:
    """Named moments. `process_start` is 0; everything else is counted from there."""

    def __init__(self, began: float) -> None:
        self._zero = time.perf_counter() - process_age(began)
        self.reached: dict[str, float] = {"process_start": 0.0}
        if began:
            self.reached["program_start"] = round(max(began - self._zero, 0.0), 4)

    def reach(self, name: str) -> None:
        """Note that this is now."""
        self.reached[name] = round(time.perf_counter() - self._zero, 4)


def process_age(began: float) -> float:
    """Seconds since the process started, as the system tells; else since `began`."""
    if sys.platform == "linux":
        with open("/proc/self/stat", encoding="ascii", errors="replace") as stat:
            ticks = int(stat.read().rpartition(")")[2].split()[19])
        started = ticks / os.sysconf("SC_CLK_TCK")
        return max(time.clock_gettime(time.CLOCK_BOOTTIME) - started, 0.0)
    now = time.perf_counter()
    return now - (began or now)
