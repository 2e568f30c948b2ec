"""The property tests on other cases than those of CI: one run for each of so many random seeds.

    python tests/random_seeds.py [--seeds 5] [--first SEED] [--often 3] [PATH ...]

A seed that fails is printed with the command that repeats it. Exit code 1 where there was one.
"""

from __future__ import annotations

import argparse
import os
import random
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def tried(seed: int, paths: list[str], often: int) -> bool:
    """Whether every property holds with this seed."""
    command = [sys.executable, "-m", "pytest", "-q", "-m", "hypothesis", f"--hypothesis-seed={seed}", *paths]
    around = {name: value for name, value in os.environ.items() if name != "CI"}
    around |= {"PYTHONPATH": str(ROOT), "OFTEN": str(often)}
    ended = subprocess.run(command, cwd=ROOT, env=around, capture_output=True, text=True, check=False)
    if ended.returncode:
        print(ended.stdout[-4000:])
        print(f"Seed {seed} fails. Again: {' '.join(command[1:])}", flush=True)
    else:
        print(f"Seed {seed}: {ended.stdout.splitlines()[-1]}", flush=True)
    return ended.returncode == 0


def main() -> int:
    """The script."""
    asked = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    asked.add_argument("--seeds", type=int, default=5)
    asked.add_argument("--first", type=int, default=random.randrange(10**6))
    asked.add_argument("--often", type=int, default=3, help="times as many random walks as in the suite")
    asked.add_argument("paths", nargs="*", default=["tests"])
    given = asked.parse_args()
    held = [tried(seed, given.paths, given.often) for seed in range(given.first, given.first + given.seeds)]
    return 0 if all(held) else 1


if __name__ == "__main__":
    sys.exit(main())
