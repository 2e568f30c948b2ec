"""The guides that F1 opens."""

import re

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from dryhouse.desk.guides import GUIDES, Guides, Page, pages
from tests.rows import every_row


def test_f1_opens_the_guide_of_the_place_and_the_arrow_the_next(window, qtbot):
    window.go("drying")
    qtbot.keyClick(window, Qt.Key.Key_F1)
    guides = next(w for w in QApplication.topLevelWidgets() if isinstance(w, Guides))
    qtbot.addWidget(guides)
    assert "when can I go to bed" in guides.text.toPlainText()
    qtbot.keyClick(guides.titles, Qt.Key.Key_Down)
    assert "work back to the shop" in guides.text.toPlainText()
    qtbot.keyClick(guides.titles, Qt.Key.Key_End)
    assert "Ctrl+Z" in guides.text.toPlainText()


NAMED = [
    (path.name, name)
    for _, path in pages()
    for name in re.findall(r"!\[[^\]]+\]\(([^)]+)\)", path.read_text(encoding="utf-8"))
]


@every_row("guide, name", NAMED)
def test_every_picture_that_a_guide_names_is_there(guide, name):
    assert QImage(str(GUIDES / name)).width() >= 900, guide


def test_a_narrow_guide_is_read_without_scrolling_sideways(qtbot):
    page = Page()
    qtbot.addWidget(page)
    page.resize(900, 500)
    page.show()
    for title, path in pages():
        page.show_file(path)
        for width in (900, 400):
            page.resize(width, 500)
            assert page.horizontalScrollBar().maximum() == 0, title
