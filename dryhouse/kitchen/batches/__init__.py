"""Tray batches: logging them, what was loaded, and the dryers they run in."""
