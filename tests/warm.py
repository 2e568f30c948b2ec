"""Programs that tests start and kill, without paying for Python and its libraries anew each time.

One process has read the journal, its libraries and the handbook, and has neither Qt nor a thread. Each program
asked for is a fork of it: a process of its own, with its own memory, files and exit code, that a signal ends as it
ends any other. POSIX only.
"""

from __future__ import annotations

import atexit
import gc
import importlib
import json
import os
import pkgutil
import select
import signal
import socket
import subprocess
import sys
import threading
import time
import traceback
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import IO, Any

ROOT = Path(__file__).parents[1]
LONGEST_S = 120
"""A program that a test forgot, or that never ends, is ended after this long."""
READ = (
    "_strptime", "alembic.command", "alembic.config", "alembic.runtime.migration", "dryhouse.house", "icalendar",
    "numpy.polynomial", "psychrolib", "runpy", "sqlalchemy.dialects.sqlite",
)  # fmt: skip
"""What is read beside the command line, the journal and the kitchen."""

AS_SCRIPT = """
import runpy, sys
sys.argv = sys.argv[1:]
sys.path[0] = sys.argv[0].rpartition("/")[0]
runpy.run_path(sys.argv[0], run_name="__main__")
"""
"""A program that is the script its first word names."""
AS_MODULE = """
import runpy, sys
runpy.run_module(sys.argv.pop(1), run_name="__main__", alter_sys=True)
"""
"""A program that is the module its first word names."""


class Program:
    """A program that was started: what of `subprocess.Popen` the tests use, by the same names."""

    def __init__(self, control: socket.socket, stdout: IO[str], stderr: IO[str]) -> None:
        self.stdout, self.stderr = stdout, stderr
        self._control = control
        self.returncode: int | None = None
        self.pid = int(control.recv(32))

    def poll(self) -> int | None:
        """The exit code, or None while it runs; the negative of a signal that ended it."""
        return self.wait(0)

    def wait(self, timeout: float = LONGEST_S) -> int | None:
        """The exit code once it has ended, None where it has not by then."""
        if self.returncode is None and select.select([self._control], [], [], timeout)[0]:
            self.returncode = int(self._control.recv(32))
            self._control.close()
        return self.returncode

    def kill(self) -> None:
        """End it without warning."""
        if self.poll() is None:
            os.kill(self.pid, signal.SIGKILL)

    def communicate(self) -> tuple[str, str]:
        """All it says on standard output and standard error until it ends."""
        told: list[str] = []
        beside = threading.Thread(target=lambda: told.append(self.stderr.read()))
        beside.start()
        said = self.stdout.read()
        beside.join()
        self.wait()
        self.close()
        return said, told[0]

    def close(self) -> None:
        """Listen no longer."""
        self.stdout.close()
        self.stderr.close()


@cache
def _warm(_of: int) -> socket.socket:
    """The way to the process that forks, which belongs to the process of this number."""
    ours, its = socket.socketpair()
    command = [sys.executable, "-c", f"from tests.warm import serve; serve({its.fileno()})"]
    process = subprocess.Popen(command, cwd=ROOT, pass_fds=[its.fileno()], stdin=subprocess.DEVNULL)
    its.close()

    def end() -> None:
        ours.close()
        process.wait()

    atexit.register(end)
    return ours


def started(
    code: str, *words: object, environment: Mapping[str, str] | None = None, folder: Path = ROOT
) -> Program:
    """Start a program of this code and these words, as `python -c CODE WORDS…` does."""
    read_out, write_out = os.pipe()
    read_err, write_err = os.pipe()
    ours, its = socket.socketpair()
    asked = [code, [str(word) for word in words], dict(environment or os.environ), str(folder)]
    message = json.dumps(asked).encode()
    warm, handed = _warm(os.getpid()), [its.fileno(), write_out, write_err]
    socket.send_fds(warm, [len(message).to_bytes(8, "big")], handed)
    warm.sendall(message)
    its.close()
    os.close(write_out)
    os.close(write_err)
    return Program(ours, os.fdopen(read_out, encoding="utf-8"), os.fdopen(read_err, encoding="utf-8"))


def _forks(way: socket.socket) -> None:
    """Fork a program for each that is asked for, tell how each ended, and go when nobody can ask any more."""
    running: dict[int, socket.socket] = {}

    def tell(*_: Any) -> None:
        while running:
            pid, status = os.waitpid(-1, os.WNOHANG)
            if not pid:
                return
            with running.pop(pid) as control:
                control.send(str(os.waitstatus_to_exitcode(status)).encode())

    signal.signal(signal.SIGCHLD, tell)
    while True:
        size, handed, *_ = socket.recv_fds(way, 8, 3)
        if not size:
            break
        message = b""
        while len(message) < (whole := int.from_bytes(size, "big")):
            message += way.recv(whole - len(message))
        signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGCHLD})
        pid = os.fork()
        if not pid:
            way.close()
            _be(*json.loads(message), handed)
        control = running[pid] = socket.socket(fileno=handed[0])
        control.send(str(pid).encode())
        for handle in handed[1:]:
            os.close(handle)
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGCHLD})
    for pid in list(running):
        os.kill(pid, signal.SIGKILL)


def _be(code: str, words: list[str], environment: dict[str, str], folder: str, handed: list[int]) -> None:
    """Be the program that was asked for."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGCHLD})
    signal.alarm(LONGEST_S)
    os.close(handed[0])
    for handle, known in zip(handed[1:], (1, 2), strict=True):
        os.dup2(handle, known)
        os.close(handle)
    os.environ.clear()
    os.environ.update(environment)
    time.tzset()
    encoding = environment.get("PYTHONIOENCODING")
    sys.stdout = sys.__stdout__ = os.fdopen(1, "w", encoding=encoding)
    sys.stderr = sys.__stderr__ = os.fdopen(2, "w", 1, encoding=encoding, errors="backslashreplace")
    os.chdir(folder)
    sys.argv = ["-c", *words]
    ended = 0
    try:
        exec(compile(code, "<string>", "exec"), {"__name__": "__main__"})
    except SystemExit as asked:
        ended = asked.code if isinstance(asked.code, int) else bool(asked.code)
    except BaseException:
        traceback.print_exc()
        ended = 1
    threading._shutdown()
    atexit._run_exitfuncs()
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(ended)


def serve(handle: int) -> None:
    """Be the process that forks, with this way to whoever asks."""
    sys.path[0] = str(ROOT)
    _read()
    _forks(socket.socket(fileno=handle))


def _read() -> None:
    """Read what the programs will need, and leave it alone from then on."""
    for package in ("dryhouse.cli", "dryhouse.journal", "dryhouse.kitchen"):
        for found in pkgutil.walk_packages(importlib.import_module(package).__path__, package + "."):
            importlib.import_module(found.name)
    for name in READ:
        importlib.import_module(name)
    from dryhouse.handbook.reader import handbook
    from dryhouse.science.quantities import parse_mass

    handbook()
    parse_mass("1 lb")
    assert "PySide6" not in sys.modules
    assert threading.active_count() == 1
    gc.collect()
    gc.freeze()
