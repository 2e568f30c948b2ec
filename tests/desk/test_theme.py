"""The theme dresses the application and follows the choice."""

from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QLabel

from dryhouse.desk.theme import set_role, style_sheet
from dryhouse.plots.tokens import DARK, LIGHT


def test_choosing_dark_dresses_the_whole_application(theme, qapp, qtbot):
    with qtbot.waitSignal(theme.changed):
        theme.choose("dark")
    assert theme.tokens is DARK
    assert qapp.palette().color(QPalette.ColorRole.Window).name().upper() == DARK.ground
    theme.choose("light")
    assert qapp.palette().color(QPalette.ColorRole.Window).name().upper() == LIGHT.ground


def test_choosing_the_same_again_costs_nothing(theme, qtbot):
    with qtbot.assertNotEmitted(theme.changed):
        theme.choose("light")


def test_an_unknown_choice_follows_the_system(theme):
    theme.choose("sepia")
    assert theme.choice == "system"


def test_the_style_sheet_is_filled_in():
    for look in (LIGHT, DARK):
        assert "{t." not in style_sheet(look)
        assert "None" not in style_sheet(look)


def test_a_role_changes_the_look(theme, qtbot):
    label = QLabel("7 oz")
    qtbot.addWidget(label)
    label.ensurePolished()
    plain = label.fontInfo().pointSizeF()
    set_role(label, "figure")
    assert label.fontInfo().pointSizeF() > plain
