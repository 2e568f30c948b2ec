"""What is wrong in the log form is told once, beside its entry, the first on the page before all others."""

from PySide6.QtWidgets import QApplication


def test_of_several_wrong_entries_the_first_on_the_page_has_the_keyboard(window, qtbot):
    window.activateWindow()
    journal = window.go("journal")
    journal.log()
    entries = journal.form.entries
    entries.food.set_value("corn")
    for name, text in (("trays", "some"), ("dried", "much"), ("hours", "long"), ("fresh", "two")):
        entries.set_text(name, text)
    journal.form.save()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is entries.fields["fresh"].edit)


def test_a_refusal_is_told_beside_its_entry_and_nowhere_else(window):
    journal = window.go("journal")
    journal.log()
    entries = journal.form.entries
    entries.food.set_value("corn")
    entries.set_text("fresh", "2 lb")
    entries.set_text("dried", "3 lb")
    journal.form.save()
    assert entries.fields["dried"].sentence.text() or entries.fields["fresh"].sentence.text()
    assert not window._bar.isVisible()


def test_a_day_or_a_year_in_the_search_narrows_the_list(window):
    listing = window.go("journal").listing
    listing.filter.edit.setText("corn 2026")
    listing.filter.tell()
    assert list(listing.table.rows.ids) == [1]
    listing.filter.edit.setText("corn 2025")
    listing.filter.tell()
    assert list(listing.table.rows.ids) == []
