"""The entry for a day: `2026-11-20`, `20 Nov`, `yesterday`, and days to come as `in 40 days`."""

from __future__ import annotations

import re
from datetime import date, timedelta

from dryhouse.desk.session import Session
from dryhouse.desk.widgets.fields import Field
from dryhouse.kitchen.calendar import read_date, today
from dryhouse.science.errors import InputProblem
from dryhouse.words.dates import full_day

_AHEAD = re.compile(r"(?:in\s+|\+\s*)(\d{1,4})\s*(d|days?|w|weeks?|m|months?)?", re.IGNORECASE)
_SPANS = {"d": 1, "w": 7, "m": 30}


class DateField(Field):
    """Answers a day. With `ahead` it may lie in the future, and a span such as `in 6 weeks` is read too."""

    def __init__(
        self,
        session: Session,
        label: str,
        *,
        hint: str = "2026-11-20, yesterday",
        name: str = "",
        future: bool = False,
    ) -> None:
        self._future = future
        super().__init__(session, label, hint=hint, name=name)

    def read(self, text: str) -> date:
        kitchen = self.session.kitchen
        span = _AHEAD.fullmatch(text.strip()) if self._future else None
        if span is not None:
            return today(kitchen) + timedelta(days=int(span[1]) * _SPANS[(span[2] or "d")[0].lower()])
        day = read_date(kitchen, text, self.name)
        if not self._future and day > today(kitchen) + timedelta(days=1):
            raise InputProblem(f"{full_day(day)} is still to come.", self.name)
        return day

    def write(self, value: date) -> str:
        return value.isoformat()

    def echo(self, value: date, text: str) -> str:
        return full_day(value)
