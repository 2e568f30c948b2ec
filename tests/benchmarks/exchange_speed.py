"""How long export and import take, how much memory, and whether what comes back is the same, byte by byte.

python tests/benchmarks/exchange_speed.py [--batches 100000] [--weighings 2000000]
"""

from __future__ import annotations

import argparse
import filecmp
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "sample_data")]

from large import make  # noqa: E402

_MEASURED = """
import resource, sys, time
from dryhouse.cli import main
began = time.process_time()
code = main(sys.argv[1:])
most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(f"{time.process_time() - began:.1f} s of the processor, {most // 1024} MB at most")
sys.exit(code)
"""


def run(what: str, *arguments: object) -> None:
    """One command in a program of its own, with what it took."""
    began = time.perf_counter()
    path = os.pathsep.join(filter(None, (str(ROOT), os.environ.get("PYTHONPATH"))))
    child = subprocess.run(
        [sys.executable, "-c", _MEASURED, *map(str, arguments)],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": path},
    )
    print(f"{what:24}{time.perf_counter() - began:7.1f} s   {child.stdout.strip().splitlines()[-1]}")


def main() -> None:
    """The table."""
    parser = argparse.ArgumentParser(description="Measure export and import.")
    parser.add_argument("--batches", type=int, default=100_000)
    parser.add_argument("--weighings", type=int, default=2_000_000)
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        first, second = Path(folder) / "first.dryhouse", Path(folder) / "second.dryhouse"
        out, again, tables = (Path(folder) / name for name in ("out.json", "again.json", "tables"))
        make(first, args.batches, args.weighings)
        run("export to JSON", "--journal", first, "export", out)
        run("import into a new one", "--journal", second, "import", out)
        run("export that", "--journal", second, "export", again)
        print("the same, byte by byte:", "yes" if filecmp.cmp(out, again, shallow=False) else "NO")
        run("import it once more", "--journal", second, "import", out)
        run("export to tables", "--journal", first, "export", tables)


if __name__ == "__main__":
    main()
