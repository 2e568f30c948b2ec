"""Dryhouse: a journal and bench calculator for food dried at home."""

__version__ = "0.1.0"
