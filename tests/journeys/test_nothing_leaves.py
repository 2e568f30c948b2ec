"""Nothing leaves this machine: neither Python nor Qt opens a socket to a network in a walk through the program."""

import os
import subprocess
import sys

WALK = """
import re, sys
from pathlib import Path

opened = []
sys.addaudithook(lambda event, of: opened.append(of[1:3]) if event == "socket.__new__" else None)
sys.addaudithook(lambda event, of: opened.append(of) if event in ("socket.getaddrinfo", "urllib.Request") else None)

def of_a_network():
    \"\"\"The sockets of this process that the system lists under TCP or UDP, whoever opened them.\"\"\"
    mine = set()
    for fd in Path("/proc/self/fd").iterdir():
        try:
            mine |= set(re.findall(r"socket:\\[(\\d+)\\]", str(fd.readlink())))
        except OSError:
            pass
    listed = set()
    for table in ("tcp", "tcp6", "udp", "udp6"):
        path = Path("/proc/self/net") / table
        if path.exists():
            listed |= {line.split()[9] for line in path.read_text().splitlines()[1:]}
    return mine & listed

from dryhouse.cli import main

for words in (
    ["yields", "corn", "--fresh", "1 cup"],
    ["--sample", "log", "--food", "sweet corn", "--fresh", "2 lb", "--dried", "7 oz", "--hours", "9"],
    ["--sample", "shelf"],
    ["--sample", "plan", "Lake circuit 2026"],
    ["--sample", "check"],
    ["--sample", "export", "all.json"],
):
    assert main(words) == 0, words

from PySide6.QtWidgets import QApplication

app = QApplication([])
from dryhouse.desk.guides import show_guides
from dryhouse.desk.help import show_about
from dryhouse.desk.opening import Opening
from dryhouse.desk.settings import settings
from dryhouse.desk.theme import Theme
from dryhouse.desk.window import DeskWindow
from dryhouse.house import Journals

window = DeskWindow(Theme(app, "light"), settings())
opening = Opening(window, Journals())
window.show()
opening.open_sample()
for spec in window.specs:
    window.go(spec.id)
    for _ in range(20):
        app.processEvents()
    assert not of_a_network(), spec.id
show_guides(window)
show_about(window)
app.processEvents()
assert not of_a_network()
window.close()
families = [family for family, *_ in opened]
assert not [f for f in families if int(f) in (2, 10)], opened
print("walked")
"""


def test_no_socket_to_a_network_is_opened_in_a_walk_through_every_place(tmp_path):
    here = {"XDG_DATA_HOME": str(tmp_path), "DRYHOUSE_SETTINGS": str(tmp_path / "settings.ini")}
    walked = subprocess.run(
        [sys.executable, "-c", WALK],
        cwd=tmp_path,
        env=os.environ
        | here
        | {"QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
        capture_output=True,
        text=True,
        check=False,
    )
    assert walked.stdout.strip().endswith("walked"), walked.stdout + walked.stderr
