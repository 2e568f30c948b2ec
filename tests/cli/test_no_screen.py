"""Without a screen the program says so in plain words and shows what it can."""

import pytest

from dryhouse.cli import main


@pytest.mark.parametrize("name", ["DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"])
def test_a_screen_or_another_way_of_drawing_counts_as_one(monkeypatch, name):
    from dryhouse.cli.no_screen import no_screen

    for other in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(other, raising=False)
    monkeypatch.setattr("sys.platform", "linux")
    assert no_screen()
    monkeypatch.setenv(name, ":0")
    assert not no_screen()


def test_the_journal_is_listed_instead(monkeypatch, capsys, tmp_path):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("sys.platform", "linux")
    journal = ["--journal", str(tmp_path / "mine.dryhouse")]
    main([*journal, "log", "--food", "corn", "--fresh", "2 lb", "--dried", "8 oz"])
    main([*journal, "log", "--food", "turkey", "--fresh", "2 lb", "--dried", "11 oz"])
    capsys.readouterr()
    assert main(journal) == 0
    out = capsys.readouterr().out
    assert "no screen" in out
    assert "sweet corn" in out
    assert "STOP: No temperature reached before drying is recorded" in out
    assert "dry enough" not in out.partition("turkey")[2].partition("\n")[0]
