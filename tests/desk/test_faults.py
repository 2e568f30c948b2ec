"""Our own mistakes are told plainly, with details to copy and a log to send."""

import sys
import threading

import pytest

from dryhouse.desk import fault_log
from dryhouse.desk.fault_log import details
from dryhouse.desk.faults import watch
from dryhouse.science.errors import InputProblem


@pytest.fixture(autouse=True)
def logged(monkeypatch):
    """What goes to the log; the program's hooks are put back after each test."""
    written = []
    monkeypatch.setattr(sys, "excepthook", sys.__excepthook__)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    monkeypatch.setattr(fault_log, "write", written.append)
    return written


def raised(problem):
    try:
        raise problem
    except Exception as caught:
        return type(caught), caught, caught.__traceback__


def test_a_mistake_of_ours_becomes_a_message_with_details(window, capsys, logged):
    watch(window)
    sys.excepthook(*raised(ZeroDivisionError("in the middle")))
    message = window.session.messages.latest
    assert message.kind == "fault"
    assert "Nothing was saved half-way" in message.text
    assert "ZeroDivisionError: in the middle" in message.details
    assert "ZeroDivisionError" in capsys.readouterr().err
    assert logged == [message.details]


def test_a_mistake_in_a_thread_is_in_the_log_too(window, capsys, logged):
    watch(window)
    thread = threading.Thread(target=lambda: 1 / 0)
    thread.start()
    thread.join()
    (told,) = logged
    assert "ZeroDivisionError" in told
    assert "ZeroDivisionError" in capsys.readouterr().err


def test_a_refusal_nobody_caught_is_still_shown_as_a_sentence(window, logged):
    watch(window)
    sys.excepthook(*raised(InputProblem("That is no weight.")))
    assert window.session.messages.latest.kind == "input"
    assert logged == []


def test_details_name_the_versions():
    assert "Python" in details(*raised(ValueError("x")))
