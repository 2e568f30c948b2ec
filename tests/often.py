"""How often a random walk is walked: once in the suite, more often in a long run.

OFTEN=10 python -m pytest tests/kitchen
"""

import os


def often(cases: int) -> int:
    """So many cases, times what a long run asks for."""
    return cases * int(os.environ.get("OFTEN", "1"))
