"""What `dryhouse watch` costs while nothing happens: memory, and share of a core.

python tests/benchmarks/watch_cost.py [SECONDS]
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path


def ticks(pid: int) -> float:
    """Seconds of a core the process and its children that ended have used."""
    used = Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[11:15]
    return sum(map(int, used)) / os.sysconf("SC_CLK_TCK")


def main() -> None:
    """Watch over the sample and print a table."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 120.0
    with tempfile.TemporaryDirectory() as folder:
        environment = {**os.environ, "XDG_DATA_HOME": folder, "DRYHOUSE_SETTINGS": f"{folder}/settings.ini"}
        command = [sys.executable, "-m", "dryhouse", "--sample", "watch"]
        with subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, text=True) as watch:
            assert watch.stdout is not None
            watch.stdout.readline()
            time.sleep(15)
            before = ticks(watch.pid)
            time.sleep(seconds)
            used = ticks(watch.pid) - before
            status = Path(f"/proc/{watch.pid}/status").read_text()
            most = next(line for line in status.splitlines() if line.startswith("VmHWM"))
            watch.terminate()
    print(f"{'most memory':<14}{int(most.split()[1]) / 1024:8.1f} MB   (below 110)")
    print(f"{'of a core':<14}{100 * used / seconds:8.2f} %    (below 1)")


if __name__ == "__main__":
    main()
