"""What argparse complains of, said in one sentence."""

from __future__ import annotations

from dryhouse.cli import main


def test_a_word_with_a_line_end_in_it_is_refused_in_one_line(capsys) -> None:
    assert main(["shelf", "corn\nturkey"]) == 2
    said = capsys.readouterr().err
    assert "corn turkey" in said
    assert len(said.splitlines()) == 1
