"""The handbook opens without paying for anything it does not need."""

import subprocess
import sys

HEAVY = ("numpy", "scipy", "pint", "matplotlib", "sqlalchemy", "alembic", "PySide6")


def test_reading_the_foods_loads_no_heavy_library():
    script = (
        "import sys; from dryhouse.handbook.reader import handbook; handbook().find('corn'); "
        "print(sorted(set(sys.modules) & set(sys.argv[1:])))"
    )
    done = subprocess.run([sys.executable, "-c", script, *HEAVY], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
