"""What is said of an instrument that reports by itself."""

from __future__ import annotations

from collections.abc import Mapping

from dryhouse.science.steady import NoticeKind

NOTICES: Mapping[NoticeKind, str] = {
    NoticeKind.LIFTED: "The weight on {name} changed at once: a tray was lifted, or something was put on. "
    "Nothing is recorded until it is back.",
    NoticeKind.BACK: "The weight on {name} is back; readings go on.",
    NoticeKind.DOOR: "The air in the dryer cooled quickly: was its door open?",
    NoticeKind.DRIFT: "{name} shows more than before, and drying food gets lighter: the scale drifts. Nothing is "
    "recorded until it comes down. Set it to zero if it stays so.",
    NoticeKind.SILENT: "Nothing comes from {name}: is the cable in, and the scale on?",
    NoticeKind.SPEAKS: "{name} reports again.",
    NoticeKind.GARBLED: "{name} sends lines that hold no weight, such as “{line}”. Is the speed of the port right, "
    "or the pattern?",
    NoticeKind.OTHER_UNIT: "{name} shows another unit now ({line}). Where it names the unit its readings are "
    "converted; else nothing is recorded.",
}
"""A sentence each, with the instrument's name and, where it helps, the line it sent."""


def notice_words(kind: NoticeKind, name: str, line: str = "") -> str:
    """The sentence for what an instrument did."""
    shown = "".join(c if c.isprintable() else "·" for c in line)[:40]
    said = NOTICES[kind].format(name=name, line=shown)
    return said[:1].upper() + said[1:]
