"""No letter with Alt means two things, in any place or form of the window."""

import re
from collections import defaultdict

from PySide6.QtWidgets import QAbstractButton, QApplication

from dryhouse.desk.widgets.draft import DraftOffer
from tests.surfaces import FORMS


def letters(window) -> dict[str, list[str]]:
    """What each letter with Alt presses or opens, as the window stands."""
    found = defaultdict(list)
    shown = [b.text() for b in window.findChildren(QAbstractButton) if b.isVisible() and b.isEnabled()]
    for text in (*shown, *(action.text() for action in window.menuBar().actions())):
        for letter in re.findall(r"&(\w)", text.replace("&&", "")):
            found[letter.upper()].append(text)
    return found


def test_no_letter_means_two_things(person):
    window = person.window
    opened = {spec.id: lambda w, _o, id=spec.id: w.go(id) for spec in window.specs} | FORMS
    for name, open_form in opened.items():
        open_form(window, person.opening)
        offers = {offer.parentWidget(): offer for offer in window.view(window.here).findChildren(DraftOffer)}
        for form, offer in offers.items():  # a form makes one offer at a time
            offer.setVisible(form.isVisible())
        QApplication.processEvents()
        twice = {letter: texts for letter, texts in letters(window).items() if len(texts) > 1}
        assert not twice, (name, twice)


def test_the_letters_go_with_the_batch_in_focus(person):
    drying = person.window.go("drying")
    first, second = (drying.strips[id] for id in list(drying.strips)[:2])
    assert "&" in first.weigh_button.text()
    assert "&" not in second.weigh_button.text()
    second.reading.setFocus()
    drying.choose(second.run.batch.id)
    assert "&" in second.weigh_button.text()
    assert "&" not in first.weigh_button.text()
