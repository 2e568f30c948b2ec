"""A notice over a real session bus: taken as the specification has it, and its button is heard."""

from __future__ import annotations

import json

import pytest

from dryhouse.desk.notices import DesktopNotices
from dryhouse.desk.session_bus import SessionBus


@pytest.fixture
def notices(qapp):
    made = DesktopNotices()
    yield made
    made.close()


def test_a_notice_is_taken_and_put_off_by_its_button(qtbot, bus, notices) -> None:
    with qtbot.waitSignal(notices.put_off, timeout=10_000) as heard:
        number = notices.show("Dryhouse", "Apple, batch 1 may be dry by now. Weigh it and check by hand.")
    assert heard.args == [number]
    (notice,) = [json.loads(line) for line in bus.read_text().splitlines()]
    assert notice == [
        "Dryhouse", 0, "Dryhouse", "Apple, batch 1 may be dry by now. Weigh it and check by hand.",
        ["default", "Show it", "put-off", "Again in 30 minutes"], ["desktop-entry", "urgency"],
    ]  # fmt: skip


def test_where_there_is_no_bus_nothing_is_shown_and_nothing_breaks(monkeypatch, tmp_path, notices) -> None:
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", f"unix:path={tmp_path / 'nothing'}")
    assert notices.show("Dryhouse", "x") == 0
    with pytest.raises(OSError, match="such file"):
        SessionBus()


def test_what_is_no_bus_is_left_alone(monkeypatch, tmp_path, notices) -> None:
    import socket

    listens = socket.socket(socket.AF_UNIX, socket.SOCK_STREAM)
    listens.bind(str(tmp_path / "odd"))
    listens.listen(1)
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", f"unix:path={tmp_path / 'odd'}")
    with pytest.raises(OSError, match="timed out"):
        SessionBus(patience_s=0.2)
    listens.close()
