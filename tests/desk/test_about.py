"""What the program is, whose, and under which license."""

import tomllib
from pathlib import Path

from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QTextBrowser, QWidget

from dryhouse.desk.help import SHARE, show_about

ROOT = Path(__file__).parents[2]


def test_about_names_the_license_qts_license_and_the_sources(qtbot):
    window = QWidget()
    qtbot.addWidget(window)
    said = show_about(window).findChild(QTextBrowser).toPlainText()
    for words in ("MIT license", "GNU Lesser General Public License", "USDA", "Nothing leaves this computer"):
        assert words in said


def test_the_program_has_a_picture_of_its_own_in_every_size(qtbot):
    picture = QIcon(str(SHARE / "dryhouse.svg"))
    for size in (16, 48, 256):
        drawn = picture.pixmap(size, size).toImage()
        colours = {drawn.pixel(x, y) for x in range(0, size, 2) for y in range(0, size, 2)}
        assert len(colours) > 3, size


def test_the_license_is_told_to_whoever_packs_the_program():
    told = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert told["license"] == "MIT"
    assert [(ROOT / name).read_text(encoding="utf-8").startswith("MIT License") for name in told["license-files"]]
