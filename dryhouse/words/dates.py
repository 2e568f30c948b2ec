"""Days and clock times in English, whatever language the machine is set to."""

from __future__ import annotations

from datetime import date, datetime

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def day_words(day: date) -> str:
    """`16 Aug 2027`."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def weekday_words(day: date) -> str:
    """`Mon 16 Aug`."""
    return f"{WEEKDAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]}"


def clock_words(moment: datetime) -> str:
    """`18:05`."""
    return f"{moment.hour:02d}:{moment.minute:02d}"
