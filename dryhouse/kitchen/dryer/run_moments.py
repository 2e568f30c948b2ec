"""The hours of a run as moments on the person's own clock."""

from __future__ import annotations

from datetime import datetime, timedelta

from dryhouse.kitchen.dryer.runs import DryingRun
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.words.dates import clock, weekday_clock
from dryhouse.words.forecasts import Rounding, When

LONG = timedelta(days=30)


def by_the_clock(kitchen: Kitchen, run: DryingRun) -> When:
    """Tells hours from the first point as her clock shows them, rounded on its face."""

    def when(hours: float, minutes: int = 0, to: Rounding = round) -> str:
        moment = moment_of(kitchen, run, hours)
        return clock_words(kitchen, rounded(kitchen, moment, minutes, to) if minutes else moment)

    return when


def rounded(kitchen: Kitchen, moment: datetime, minutes: int, to: Rounding = round) -> datetime:
    """The moment to so many minutes on her clock. To the nearest, what is still to come stays so, and what has gone
    by too."""
    here, now, step = kitchen.local(moment), kitchen.now(), timedelta(minutes=minutes)
    midnight = here.replace(hour=0, minute=0, second=0, microsecond=0)
    steps = to((here.replace(tzinfo=None) - midnight.replace(tzinfo=None)) / step)
    told = (midnight + steps * step).replace(fold=here.fold)
    if to is not round:
        return told
    if moment > now >= told:
        return told + step
    return told - step if moment <= now < told else told


def moment_of(kitchen: Kitchen, run: DryingRun, hours: float) -> datetime:
    """The moment so many hours after the first point. While paused, as if the dryer went on now."""
    drying = hours + (run.points[0].hours if run.points else 0.0)
    drying = min(drying, run.hours + 24.0 * 366)
    if run.clock.paused_since is not None and drying > run.hours:
        return kitchen.now() + timedelta(hours=drying - run.hours)
    return run.clock.moment(drying)


def clock_words(kitchen: Kitchen, moment: datetime) -> str:
    """`14:30`, `tomorrow 02:10`, `Sat 16 Aug 09:00` on the person's own clock."""
    here, today = kitchen.local(moment), kitchen.local(kitchen.now()).date()
    at = clock(here)
    days = (here.date() - today).days
    near = {0: at, 1: f"tomorrow {at}", -1: f"yesterday {at}"}
    if days in near:
        return near[days]
    if abs(moment - kitchen.now()) > LONG:
        return here.strftime("%Y-%m-%d")
    return weekday_clock(here)
