"""`python -m dryhouse`."""

from dryhouse.cli import run

run()
