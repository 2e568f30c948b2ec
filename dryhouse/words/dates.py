"""Days and clock times in English, whatever language the machine is set to."""

from __future__ import annotations

from datetime import date, datetime

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def weekday(day: date) -> str:
    """`Friday`."""
    return WEEKDAYS[day.weekday()]


def month(day: date) -> str:
    """`Aug`."""
    return MONTHS[day.month - 1][:3]


def day_words(day: date) -> str:
    """`6 Aug 2027`."""
    return f"{day.day} {month(day)} {day.year}"


def month_words(day: date) -> str:
    """`Aug 2027`."""
    return f"{month(day)} {day.year}"


def short_day(day: date) -> str:
    """`6 Aug`."""
    return f"{day.day} {month(day)}"


def weekday_words(day: date) -> str:
    """`Fri 6 Aug`."""
    return f"{weekday(day)[:3]} {short_day(day)}"


def full_day(day: date) -> str:
    """`Fri 6 Aug 2027`."""
    return f"{weekday(day)[:3]} {day_words(day)}"


def long_day(day: date) -> str:
    """`Friday 6 August`."""
    return f"{weekday(day)} {day.day} {MONTHS[day.month - 1]}"


class _Clock:
    """How the hours are told: as her machine tells them, which the program says at its start."""

    twelve_hours = False


def tell_twelve_hours(on: bool) -> None:
    """Tell the hours from 1 to 12 with am and pm from now on, or from 0 to 23."""
    _Clock.twelve_hours = on


def clock(moment: datetime, *, seconds: bool = False) -> str:
    """`18:05`; `6:05 pm` where her machine tells the hours so; with `seconds` `18:05:30`."""
    after = f"{moment:%M:%S}" if seconds else f"{moment:%M}"
    if _Clock.twelve_hours:
        return f"{moment.hour % 12 or 12}:{after} {'am' if moment.hour < 12 else 'pm'}"
    return f"{moment:%H}:{after}"


def weekday_clock(moment: datetime) -> str:
    """`Fri 6 Aug 18:05`."""
    return f"{weekday_words(moment)} {clock(moment)}"


def full_moment(moment: datetime) -> str:
    """`Fri 6 Aug 2027, 18:05`."""
    return f"{full_day(moment)}, {clock(moment)}"


def day_and_clock(moment: datetime, now: datetime | None = None, *, seconds: bool = False) -> str:
    """`today 18:05`, `yesterday 09:30`, else `6 Aug 2027 18:05`; on the machine's own clock."""
    local, today = moment.astimezone(), (now or datetime.now().astimezone()).date()
    day = {0: "today", 1: "yesterday"}.get((today - local.date()).days, day_words(local.date()))
    return f"{day} {clock(local, seconds=seconds)}"
