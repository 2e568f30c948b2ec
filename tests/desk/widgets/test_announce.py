"""What comes up by itself is told to a screen reader, once."""

import pytest

from dryhouse.desk.widgets import announce as announcing
from dryhouse.desk.widgets.announce import Speaker
from dryhouse.desk.widgets.basics import text_label


@pytest.fixture
def heard(monkeypatch):
    said = []
    monkeypatch.setattr(
        announcing.QAccessible, "updateAccessibility", staticmethod(lambda event: said.append(event.message()))
    )
    return said


def test_a_message_is_told(window, heard):
    window.session.say("Logged sweet corn, batch 4", "done")
    assert heard[-1] == "Done: Logged sweet corn, batch 4"


def test_an_answer_is_told_once_the_typing_has_paused_and_not_twice(theme, qtbot, heard):
    label = text_label("about 9 oz dried")
    qtbot.addWidget(label)
    label.show()
    speaker = Speaker(label)
    for said in ("about 8 oz dried", "about 9 oz dried"):
        speaker.answer(said)
    speaker.tell()
    speaker.answer("about 9 oz dried")
    speaker.tell()
    assert heard == ["about 9 oz dried"]


def test_what_is_out_of_sight_is_not_told(theme, qtbot, heard):
    label = text_label("about 9 oz dried")
    qtbot.addWidget(label)
    speaker = Speaker(label)
    speaker.answer("about 9 oz dried")
    speaker.tell()
    assert heard == []


def test_the_yields_tell_their_answer(window, heard, qtbot):
    place = window.go("yields")
    place.type("corn 1 cup")
    place.answers._speaker.tell()
    assert heard[-1] == place.answers.said != ""
