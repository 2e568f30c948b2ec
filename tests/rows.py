"""A table tried as one test: every row is tried, and all that fail are named."""

import inspect
import traceback
from functools import wraps

SHOWN = 20
"""So many failing rows are told in full."""


def every_row(names, rows, ids=None):
    """Takes what `pytest.mark.parametrize` takes, and makes one test of it instead of one a row.

    For rows that leave nothing behind: what the test asks for beside the row is made once for all of them. Rows
    that cost something to find are given as a function, which is asked when the test is run.
    """
    wanted = [name.strip() for name in names.split(",")] if isinstance(names, str) else list(names)
    late = callable(rows) and not isinstance(rows, type)
    rows = rows if late else list(rows)
    assert rows, "a table without rows tests nothing"

    def values(row):
        if hasattr(row, "marks"):
            return row.values
        return tuple(row) if len(wanted) > 1 else (row,)

    def called(number, row):
        if getattr(row, "id", None) and hasattr(row, "marks"):
            return row.id
        if callable(ids):
            return " - ".join(str(ids(value)) for value in values(row))
        return ids[number] if ids is not None else repr(row)[:200]

    def fold(test):
        @wraps(test)
        def whole(**others):
            failed, tried = [], list(rows()) if late else rows
            assert tried, "a table without rows tests nothing"
            for number, row in enumerate(tried):
                try:
                    test(**dict(zip(wanted, values(row), strict=True)), **others)
                except Exception as fault:
                    line = traceback.extract_tb(fault.__traceback__)[-1]
                    failed.append(f"{called(number, row)}: {type(fault).__name__}, line {line.lineno}: {fault}")
            more = f"\n… and {len(failed) - SHOWN} more" if len(failed) > SHOWN else ""
            assert not failed, f"{len(failed)} of {len(tried)} rows fail:\n" + "\n".join(failed[:SHOWN]) + more

        known = inspect.signature(test)
        rest = [p for p in known.parameters.values() if p.name not in wanted]
        whole.__signature__ = known.replace(parameters=rest)
        del whole.__wrapped__
        return whole

    return fold
