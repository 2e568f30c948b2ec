"""Whether a folder lies on another computer, where the locks of SQLite cannot be relied on."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable
from pathlib import Path, PurePosixPath

_KINDS = frozenset(
    (
        *("afpfs", "afs", "beegfs", "ceph", "cifs", "coda", "davfs", "fuse.davfs", "fuse.davfs2", "fuse.glusterfs"),
        *("fuse.gvfsd-fuse", "fuse.rclone", "fuse.s3fs", "fuse.smbnetfs", "fuse.sshfs", "gfs2", "glusterfs"),
        *("lustre", "ncpfs", "nfs", "nfs4", "ocfs2", "smb3", "smbfs", "webdav"),
    )
)
"""File systems that reach another computer, as Linux and macOS call them."""
_REMOTE = 4
"""What Windows answers for a drive of another computer (`DRIVE_REMOTE` of its GetDriveType)."""


def network_drive(folder: Path) -> str:
    """What the network drive is called that this folder lies on; empty where it lies on a disk of this computer."""
    where = folder.resolve()
    if sys.platform == "win32":
        return _windows_share(where)
    if sys.platform == "darwin":
        if not str(where).startswith(("/Volumes/", "/net/", "/Network/")):
            return ""
        import subprocess

        said = subprocess.run(["/sbin/mount"], capture_output=True, text=True, check=False).stdout
        return kind_of(PurePosixPath(where), mounts_of_macos(said))
    try:
        mounts = Path("/proc/self/mounts").read_text(encoding="utf-8", errors="replace")
    except OSError:
        return ""
    return kind_of(PurePosixPath(where), mounts_of_linux(mounts))


def mounts_of_linux(text: str) -> list[tuple[str, str]]:
    """Each place where something is mounted, and what: `server:/home /home nfs4 rw 0 0`, blanks written `\\040`."""
    rows = [line.split(" ") for line in text.splitlines()]
    return [(re.sub(r"\\(\d{3})", lambda m: chr(int(m[1], 8)), row[1]), row[2]) for row in rows if len(row) > 2]


def mounts_of_macos(text: str) -> list[tuple[str, str]]:
    """The same of `//cook@server/share on /Volumes/share (smbfs, nodev)`."""
    return re.findall(r"^.* on (.+) \((\w+)", text, re.MULTILINE)


def kind_of(folder: PurePosixPath, mounts: Iterable[tuple[str, str]]) -> str:
    """The kind of network drive the folder is on: that of the longest way to it, the last of several there."""
    holding = [(len(way), kind) for way, kind in mounts if folder.is_relative_to(way)]
    longest = max((length for length, _ in holding), default=0)
    kind = next((kind for length, kind in reversed(holding) if length == longest), "")
    return kind if kind in _KINDS else ""


def _windows_share(where: Path) -> str:
    if where.drive.startswith("\\\\"):
        return where.drive
    from ctypes import windll  # type: ignore[attr-defined, unused-ignore]

    return where.drive if windll.kernel32.GetDriveTypeW(f"{where.drive}\\") == _REMOTE else ""
