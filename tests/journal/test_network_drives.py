"""Folders of other computers are told from disks of this one."""

from __future__ import annotations

import ctypes
import subprocess
import sys
from pathlib import Path, PurePosixPath, PureWindowsPath
from types import SimpleNamespace

import pytest

import dryhouse.journal.opening as opening
from dryhouse.journal.network_drives import (
    _windows_share,
    kind_of,
    mounts_of_linux,
    mounts_of_macos,
    network_drive,
)
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.ports import Change
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import WorldProblem
from tests.rows import every_row
from tests.told import told

LINUX = """/dev/sda2 / ext4 rw,relatime 0 0
server:/home /home nfs4 rw,vers=4.2 0 0
/dev/sdb1 /home/cook/disk ext4 rw 0 0
//server/club /mnt/gullwing\\040club cifs rw 0 0
/dev/sda3 /mnt/gullwing\\040club/here ext4 rw 0 0
tmpfs /tmp tmpfs rw 0 0
cook@server: /media/far fuse.sshfs rw 0 0
"""
MACOS = """/dev/disk3s1 on / (apfs, sealed, local, read-only)
//cook@server/club on /Volumes/club (smbfs, nodev, nosuid)
/dev/disk4s1 on /Volumes/stick (msdos, local)
"""


@pytest.mark.parametrize(
    ("folder", "kind"),
    [
        ("/home/cook", "nfs4"),
        ("/home/cook/disk/journals", ""),
        ("/homely", ""),
        ("/mnt/gullwing club/journals", "cifs"),
        ("/mnt/gullwing club/here", ""),
        ("/media/far/away", "fuse.sshfs"),
        ("/tmp", ""),
        ("/srv", ""),
    ],
)
def test_the_drive_of_a_folder_on_linux(folder: str, kind: str) -> None:
    assert kind_of(PurePosixPath(folder), mounts_of_linux(LINUX)) == kind


@pytest.mark.parametrize(
    ("folder", "kind"), [("/Volumes/club/a", "smbfs"), ("/Volumes/stick", ""), ("/Users/c", "")]
)
def test_the_drive_of_a_folder_on_macos(folder: str, kind: str) -> None:
    assert kind_of(PurePosixPath(folder), mounts_of_macos(MACOS)) == kind


def test_a_folder_of_this_computer_is_on_no_network_drive(tmp_path: Path) -> None:
    assert network_drive(tmp_path) == ""


def test_a_journal_on_a_network_drive_is_read_and_not_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "journal.dryhouse"
    journal = open_journal(file, write=True)
    journal.write([Change(None, Batch("corn", id=1))])
    journal.close()
    before = file.read_bytes()
    monkeypatch.setattr(opening, "network_drive", lambda folder: "nfs4")
    with told(WorldProblem, r"network drive \(nfs4\).*Nothing was changed"):
        open_journal(file, write=True)
    reader = open_journal(file, write=False)
    assert len(reader.where(Batch)) == 1
    reader.close()
    assert file.read_bytes() == before


def test_on_a_mac_what_is_mounted_is_asked_for_where_something_may_be(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[list[str]] = []

    def mount(command: list[str], **_how: object) -> subprocess.CompletedProcess[str]:
        asked.append(command)
        return subprocess.CompletedProcess(command, 0, MACOS, "")

    monkeypatch.setattr(sys, "platform", "darwin")
    monkeypatch.setattr(subprocess, "run", mount)
    assert network_drive(Path("/Volumes/club/journals")) == "smbfs"
    assert network_drive(Path("/Volumes/stick")) == ""
    assert len(asked) == 2
    assert network_drive(Path("/Users/cook")) == ""
    assert len(asked) == 2


@every_row(
    ("folder", "answers", "drive"),
    [
        ("Z:\\journals", 4, "Z:"),
        ("C:\\journals", 3, ""),
        ("\\\\server\\club\\journals", 3, "\\\\server\\club"),
    ],
)
def test_on_windows_a_share_is_one_by_its_name_or_by_what_its_letter_stands_for(
    folder: str, answers: int, drive: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def drive_type(letter: str) -> int:
        asked.append(letter)
        return answers

    kernel = SimpleNamespace(GetDriveTypeW=drive_type)
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(kernel32=kernel), raising=False)
    assert _windows_share(PureWindowsPath(folder)) == drive
    assert asked == ([] if folder.startswith("\\\\") else [f"{folder[:2]}\\"])
