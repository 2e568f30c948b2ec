"""The theme dresses the application and follows the choice."""

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QLabel, QListWidget, QPushButton, QWidget

from dryhouse.desk import theme as themes
from dryhouse.desk.measures import hold
from dryhouse.desk.theme import ZOOMS, Theme, set_role, style_sheet
from dryhouse.plots.tokens import BLACK_ON_WHITE, DARK, LIGHT
from tests.plots.contrast import contrast


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
    theme.dress(label)
    label.ensurePolished()
    plain = label.fontInfo().pointSizeF()
    set_role(label, "figure")
    assert label.fontInfo().pointSizeF() > plain


def test_the_text_grows_in_steps_and_goes_back(theme, qapp, qtbot):
    usual = qapp.font().pointSizeF()
    assert theme.enlarge(1) == 110
    assert qapp.font().pointSizeF() > usual
    for _ in ZOOMS:
        theme.enlarge(1)
    assert theme.zoom == 200
    assert qapp.font().pointSizeF() == 2 * usual
    assert theme.enlarge(0) == 100
    assert qapp.font().pointSizeF() == usual


def test_larger_letters_in_the_system_are_larger_here(qapp, monkeypatch):
    monkeypatch.setattr(themes, "system_enlargement", lambda: 1.5)
    made = Theme(qapp, "light")
    assert qapp.font().pointSizeF() == round(1.5 * LIGHT.body, 1)
    made.deleteLater()
    monkeypatch.undo()
    Theme(qapp, "light").deleteLater()


def test_what_is_held_at_a_width_follows_the_text(theme, qtbot):
    held = QWidget()
    qtbot.addWidget(held)
    hold(held, wide=100)
    theme.enlarge(5)
    assert held.width() == held.minimumWidth() == round(100 * theme.zoom / 100)
    theme.enlarge(0)
    assert held.minimumWidth() == 100


def test_the_first_paint_has_the_colours_that_are_kept_and_the_rest_comes_after_it(qapp, settings, qtbot):
    for choice, look in (("dark", DARK), ("light", LIGHT)):
        settings.setValue("window/theme", choice)
        made = themes.theme_of(qapp, settings)
        assert made.tokens is look
        assert qapp.palette().color(QPalette.ColorRole.Window).name().upper() == look.ground
        shown, other = QWidget(), QWidget()
        qtbot.addWidget(shown)
        qtbot.addWidget(other)
        made.dress(shown)
        assert shown.styleSheet() == ""
        made.finish()
        assert made.tokens is look
        assert look.edge in shown.styleSheet()
        assert other.styleSheet() == ""
        made.dress(other)
        assert other.styleSheet() == shown.styleSheet()
        made.deleteLater()


def test_high_contrast_is_a_choice(theme, qapp):
    theme.choose("contrast")
    assert theme.tokens is BLACK_ON_WHITE
    assert qapp.palette().color(QPalette.ColorRole.Window).name().upper() == BLACK_ON_WHITE.ground


def test_the_chosen_line_stands_out_three_to_one(theme, qtbot):
    for choice in ("light", "dark", "contrast"):
        theme.choose(choice)
        lines = QListWidget()
        qtbot.addWidget(lines)
        theme.dress(lines)
        lines.addItems(["corn", "apple"])
        lines.setCurrentRow(0)
        lines.resize(200, 120)
        lines.show()
        image, box = lines.viewport().grab().toImage(), lines.visualItemRect(lines.item(0))
        colours = {image.pixelColor(box.center().x(), y).name() for y in range(box.top(), box.bottom() + 1)}
        assert max(contrast(colour, theme.tokens.surface) for colour in colours) >= 3
        edge = {image.pixelColor(box.center().x(), y).name() for y in (box.top(), box.bottom())}
        assert min(contrast(colour, theme.tokens.surface) for colour in edge) >= 3, choice
    theme.choose("light")


def test_what_cannot_be_pressed_and_what_can_be_ticked_is_read_in_every_look(theme, qtbot):
    for look in ("light", "dark", "contrast"):
        theme.choose(look)
        button, rows = QPushButton("Make the swap"), QListWidget()
        set_role(button, "primary")
        button.setEnabled(False)
        rows.addItem("Batch 12")
        rows.item(0).setCheckState(Qt.CheckState.Unchecked)
        for widget, inside in ((button, QRect(20, 10, 130, 36)), (rows, QRect(4, 4, 24, 24))):
            qtbot.addWidget(widget)
            theme.dress(widget)
            widget.resize(180, 60)
            widget.show()
            picture = widget.grab(inside).toImage()
            spots = ((x, y) for x in range(picture.width()) for y in range(picture.height()))
            seen = {picture.pixelColor(x, y).name() for x, y in spots}
            most = max(contrast(one, other) for one in seen for other in seen)
            assert most >= 3, (look, widget)
