"""Our own mistakes are told plainly, with details to copy."""

import sys

from dryhouse.desk.faults import details, watch
from dryhouse.science.errors import InputProblem


def raised(problem):
    try:
        raise problem
    except Exception as caught:
        return type(caught), caught, caught.__traceback__


def test_a_mistake_of_ours_becomes_a_message_with_details(window, monkeypatch, capsys):
    monkeypatch.setattr(sys, "excepthook", sys.__excepthook__)
    watch(window)
    sys.excepthook(*raised(ZeroDivisionError("in the middle")))
    message = window.session.messages.latest
    assert message.kind == "fault"
    assert "Nothing was saved half-way" in message.text
    assert "ZeroDivisionError: in the middle" in message.details
    assert "ZeroDivisionError" in capsys.readouterr().err


def test_a_refusal_nobody_caught_is_still_shown_as_a_sentence(window, monkeypatch):
    monkeypatch.setattr(sys, "excepthook", sys.__excepthook__)
    watch(window)
    sys.excepthook(*raised(InputProblem("That is no weight.")))
    assert window.session.messages.latest.kind == "input"


def test_details_name_the_versions():
    assert "Python" in details(*raised(ValueError("x")))
