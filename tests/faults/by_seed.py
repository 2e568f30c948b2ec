"""The command line of the scripts beside this file that try something by the thousand, each time from a seed."""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Callable, Iterator

Tried = Iterator[tuple[int, str, list[str]]]
"""For each time its seed, what was done, and what went wrong."""


def main(about: str, called: str, times: int, tries: Callable[[int, int], Tried]) -> int:
    """Try as many times as asked for and tell what went wrong; answers the exit code."""
    options = argparse.ArgumentParser(description=about.splitlines()[0])
    options.add_argument("--times", type=int, default=times)
    options.add_argument("--seed", type=int, default=1)
    asked = options.parse_args()
    done: Counter[str] = Counter()
    failed = 0
    for number, what, wrong in tries(asked.times, asked.seed):
        done[what] += 1
        failed += bool(wrong)
        for said in wrong:
            print(f"seed {number} ({what}): {said}", flush=True)
    every = ", ".join(f"{count} {what}" for what, count in sorted(done.items()))
    print(f"{done.total()} {called} ({every}): {failed} wrong")
    return 1 if failed else 0
