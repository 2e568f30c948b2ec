"""What the guides and the README tell a person to type is typed here, in an empty home."""

import re
import shlex
from pathlib import Path

import pytest

from dryhouse.cli import main
from dryhouse.desk.guides import pages
from tests.rows import every_row

RUN = "hours,grams\n0,1200\n1,980\n2,800\n3.5,610\n5,480\n"
COMMANDS = [
    (path.name, line.strip())
    for _, path in pages()
    for block in re.findall(r"```\n(.*?)```", path.read_text(encoding="utf-8"), re.S)
    for line in block.splitlines()
]


@pytest.fixture
def empty_home(tmp_path, monkeypatch) -> Path:
    """A home where nothing was ever recorded, with one file of weighings in it."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("DRYHOUSE_SETTINGS", str(tmp_path / "settings.ini"))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "weighings.csv").write_text(RUN)
    return tmp_path


@every_row("guide, command", COMMANDS)
def test_every_command_of_the_guides_works_in_their_order(guide, command, empty_home, capsys):
    verb, *rest = shlex.split(command)
    assert verb == "dryhouse", guide
    # What stays until it is stopped is asked for one look.
    assert main([*rest, "--once"] if rest == ["watch"] else rest) == 0, command
    assert capsys.readouterr().out.strip(), command
