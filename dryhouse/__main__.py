"""`python -m dryhouse`, and where the program begins that is installed as one folder."""

import sys

from dryhouse.desk.beside import LIST_FONTS

if sys.argv[1:] == [LIST_FONTS]:
    import matplotlib.font_manager  # noqa: F401
else:
    from dryhouse.cli import run

    run()
