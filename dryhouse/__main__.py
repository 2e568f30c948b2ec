"""`python -m dryhouse`, and where the program begins that is installed as one folder."""

import sys

from dryhouse.desk.beside import LIST_FONTS

if sys.argv[1:] == [LIST_FONTS]:
    from pathlib import Path

    import matplotlib.font_manager

    # A list made before this program was installed is looked through by now, and is not waited for again.
    for made in Path(matplotlib.get_cachedir()).glob("fontlist-v*.json"):
        made.touch()
else:
    from dryhouse.cli import run

    run()
