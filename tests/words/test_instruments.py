"""Every notice of an instrument has its sentence."""

from __future__ import annotations

from dryhouse.science.steady import NoticeKind
from dryhouse.words.instruments import notice_words


def test_every_notice_is_a_sentence_and_shows_no_control_characters() -> None:
    for kind in NoticeKind:
        said = notice_words(kind, "the scale", "\x00\xff 12")
        assert said[0].isupper()
        assert said.endswith((".", "?"))
        assert all(c.isprintable() for c in said)
