"""The sample journal: built once from the files in `sample_data`, then copied for whoever asks."""

from __future__ import annotations

from pathlib import Path


def sample_folder() -> Path:
    """Where the sample's files are: inside an installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "_sample_data"
    return inside if inside.is_dir() else package.parent / "sample_data"


def fresh_copy() -> Path:
    """A copy of the sample journal of its own."""
    import tempfile

    return Path(tempfile.mkdtemp(prefix="dryhouse-sample-")) / "sample.dryhouse"
