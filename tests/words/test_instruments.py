"""Every notice of an instrument has its sentence."""

from __future__ import annotations

from dryhouse.science.steady import NoticeKind
from dryhouse.words.instruments import notice_words


def test_the_instrument_and_what_it_sent_are_named() -> None:
    assert notice_words(NoticeKind.SPEAKS, "the box scale") == "The box scale reports again."
    assert notice_words(NoticeKind.OTHER_UNIT, "the scale", "5 " * 40) == (
        f"The scale shows another unit now ({'5 ' * 20}). Where it names the unit its readings are converted; else "
        "nothing is recorded."
    )


def test_every_notice_is_a_sentence_and_shows_no_control_characters() -> None:
    for kind in NoticeKind:
        said = notice_words(kind, "the scale", "\x00\xff 12")
        assert said[0].isupper()
        assert said.endswith((".", "?"))
        assert all(c.isprintable() for c in said)
