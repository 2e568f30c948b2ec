"""Everything the command line says to its commands, to the letter: a person has read it in `whole_answers/`.

Where words or figures change on purpose, `python tests/cli/whole_answers.py` writes the files anew; what changed in
them is read before it is kept.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.whole_answers import CHAPTERS, kitchens, told


@pytest.fixture(scope="module")
def journals(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    return kitchens(tmp_path_factory.mktemp("kitchens"))


@pytest.mark.parametrize("chapter", CHAPTERS, ids=lambda file: file.stem)
def test_every_command_says_this_and_nothing_else(chapter, journals):
    written = chapter.read_text(encoding="utf-8")
    assert told(written, journals) == written
