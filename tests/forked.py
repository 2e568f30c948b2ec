"""A run of pytest that reads all tests once and tries each break in a child of its own: pytest starts once, not for
every break.

    python -m pytest -p tests.forked --capture=sys TESTS…        with the breaks, a line each, in the file BREAKS

A break is put into the functions that are there already, by giving them the code they would have; what is run
when a module is imported can't be broken so, and is told as `import`. Nothing a function remembers, and no file of
another child, is seen by a child. POSIX only.
"""

from __future__ import annotations

import functools
import gc
import importlib
import json
import os
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import pytest
from _pytest.runner import runtestprotocol

TOLD = "\x1eBREAK "
"""How a line of the answers begins."""
Key = tuple[str, str, int]


def codes(code: CodeType) -> Iterator[CodeType]:
    """A code and all codes inside it."""
    yield code
    for held in code.co_consts:
        if isinstance(held, CodeType):
            yield from codes(held)


def _key(code: CodeType) -> Key:
    return code.co_filename, code.co_qualname, code.co_firstlineno


class Functions:
    """The functions that are alive, by where they stand."""

    def __init__(self) -> None:
        self.live: dict[Key, list[FunctionType]] = {}
        self.remembering: list[Any] = []
        for found in gc.get_objects():
            if type(found) is FunctionType:
                self.live.setdefault(_key(found.__code__), []).append(found)
            elif isinstance(found, functools._lru_cache_wrapper):
                self.remembering.append(found)

    def forget(self) -> None:
        """What functions of ours remember."""
        for function in self.remembering:
            if getattr(function, "__module__", "").startswith(("dryhouse", "tests")):
                function.cache_clear()

    def broken(self, path: Path, text: str) -> bool:
        """Give the functions of a module the code of this text; whether any has another code now."""
        name, was = str(path), path.read_text(encoding="utf-8")
        old, new = (compile(source, name, "exec", dont_inherit=True) for source in (was, text))
        changed = False
        for before, after in zip(codes(old), codes(new), strict=False):
            same = _key(before) == _key(after) and before.co_freevars == after.co_freevars
            if same and _whole(before) != _whole(after):
                for function in self.live.get(_key(before), ()):
                    function.__code__ = after
                    changed = True
        return changed


def _whole(code: CodeType) -> list[tuple[Any, ...]]:
    """What a code and all codes inside it do: a generator expression has no function of its own to be broken."""
    return [_plain(each) for each in codes(code)]


def _plain(code: CodeType) -> tuple[Any, ...]:
    """What a code does, names and holds, but for the codes inside it; 1, 1.0 and True are told apart."""
    consts = [repr(held) for held in code.co_consts if not isinstance(held, CodeType)]
    return code.co_code, consts, code.co_names, code.co_varnames


def pytest_runtestloop(session: pytest.Session) -> bool:
    """Instead of running the tests, answer for each break."""
    for path in Path("dryhouse").rglob("*.py"):
        if path.parts[1] not in ("desk", "__main__.py"):
            importlib.import_module(".".join(path.with_suffix("").parts).removesuffix(".__init__"))
    items = {item.nodeid: item for item in session.items}
    functions = Functions()
    functions.forget()
    gc.freeze()
    breaks = Path(os.environ["BREAKS"]).read_text(encoding="utf-8").splitlines()
    waiting = [json.loads(line) for line in reversed(breaks)]
    running: dict[int, tuple[dict[str, Any], Path, float]] = {}
    while waiting or running:
        while waiting and len(running) < int(os.environ.get("CHILDREN", "1")):
            asked = waiting.pop()
            own = Path(tempfile.mkdtemp(prefix="break-"))
            sys.stdout.flush()
            child = os.fork()
            if not child:
                _child(asked, own, functions, [items[t] for t in asked["tests"] if t in items])
            running[child] = (asked, own, time.monotonic() + asked["longest"])
        time.sleep(0.01)
        for child, (asked, own, until) in list(running.items()):
            ended, status = os.waitpid(child, os.WNOHANG)
            if not ended and time.monotonic() < until:
                continue
            if not ended:
                os.killpg(child, signal.SIGKILL)
                os.waitpid(child, 0)
            answer = own / "answer"
            told = answer.read_text(encoding="utf-8") if answer.exists() else "it never ends"
            if ended and status:
                told = f"it ends with {status}"
            print(TOLD + json.dumps({"number": asked["number"], "noticed": told}), file=sys.__stdout__, flush=True)
            del running[child]
            shutil.rmtree(own, ignore_errors=True)
    return True


def _child(asked: dict[str, Any], own: Path, functions: Functions, items: list[pytest.Item]) -> None:
    """Break, run the tests up to the first that fails, say it, and be gone."""
    os.setpgid(0, 0)
    os.environ |= {"XDG_DATA_HOME": f"{own}/data", "XDG_CACHE_HOME": f"{own}/cache"}
    path = Path(asked["path"]).resolve()
    raw = path.read_bytes()
    text = (raw[: asked["start"]] + asked["after"].encode() + raw[asked["end"] :]).decode()
    told = "import"
    if functions.broken(path, text):
        told = next((item.nodeid for item, after in _with_next(items) if _fails(item, after)), "")
    (own / "answer").write_text(told, encoding="utf-8")
    os._exit(0)


def _with_next(items: list[pytest.Item]) -> Iterator[tuple[pytest.Item, pytest.Item | None]]:
    return zip(items, [*items[1:], None], strict=True)


def _fails(item: pytest.Item, after: pytest.Item | None) -> bool:
    return any(report.failed for report in runtestprotocol(item, nextitem=after, log=False))
