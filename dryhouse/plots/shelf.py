"""The shelf along time: each lot a bar from today to its keep-by, a line at the day that matters.

What will have passed by then is hatched and said in words, so that nothing hangs on colour alone.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from matplotlib import dates as mdates
from matplotlib.ticker import FuncFormatter

from dryhouse.plots.axes import dress
from dryhouse.plots.tokens import Tokens
from dryhouse.words import charts
from dryhouse.words.dates import day_words, month_words, short_day

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_MOST = 24
_LETTER = 0.083
"""Inches a letter of the small type takes, on the wide side."""
_ROW = 0.19
"""Inches a row takes at least."""
_WORDS = 2.2
"""Inches the words to the right of a bar take."""
_EPOCH = date(1970, 1, 1)


@dataclass(frozen=True, slots=True)
class ShelfBar:
    """One lot: its name, its last day, its standing on the day looked at."""

    name: str
    keep_by: date
    standing: str
    amount: str = ""


@dataclass(frozen=True, slots=True)
class ShelfPicture:
    """The lots that have a keep-by, and the two days the picture is about."""

    bars: tuple[ShelfBar, ...]
    today: date
    chosen: date
    unknown: int = 0
    """How many lots have no keep-by and are not in the picture."""

    def passed(self) -> tuple[ShelfBar, ...]:
        """What will have passed by the chosen day."""
        return tuple(bar for bar in self.bars if bar.keep_by < self.chosen)

    def passing(self) -> tuple[ShelfBar, ...]:
        """What is good today and will have passed by the chosen day."""
        return tuple(bar for bar in self.passed() if bar.keep_by >= self.today)

    def shown(self, room: int = _MOST) -> tuple[ShelfBar, ...]:
        """As many as can be read, in the order of their keep-by: what is still to pass comes before what has
        passed, the soonest first and the last passed first."""
        to_come = sorted((b for b in self.bars if b.keep_by >= self.today), key=_order)
        behind = sorted((b for b in self.bars if b.keep_by < self.today), key=_order)
        kept = to_come[:room]
        return (*behind[len(behind) - min(len(behind), room - len(kept)) :], *kept)


def _order(bar: ShelfBar) -> tuple[date, str]:
    return bar.keep_by, bar.name


def say(picture: ShelfPicture) -> str:
    """The picture in a sentence."""
    passed = len(picture.passed())
    on = picture.chosen if picture.chosen > picture.today else None
    return charts.shelf_sentence(len(picture.bars), passed, passed - len(picture.passing()), on, picture.unknown)


def table(picture: ShelfPicture) -> list[tuple[str, ...]]:
    """The rows behind the picture, headings first."""
    rows = [(b.name, b.keep_by.isoformat(), b.standing, b.amount) for b in picture.shown()]
    return [("lot", "keep-by", "standing", "left"), *rows]


def draw_shelf(figure: Figure, picture: ShelfPicture, tokens: Tokens) -> None:
    """Draw the picture on an empty figure, its margins in inches so that no word is cut."""
    figure.set_layout_engine("none")
    width, height = figure.get_size_inches()
    bars = picture.shown(max(4, min(_MOST, int((height - 1.3) / _ROW))))
    longest = max((len(_short(bar.name)) for bar in bars), default=0)
    left = 0.25 + longest * _LETTER
    title = textwrap.wrap(say(picture), max(20, int((width - 0.3) / _LETTER / 1.1)))
    top = 0.35 + 0.18 * len(title)
    axes = figure.add_axes((left / width, 0.62 / height, 1 - (left + 0.15) / width, 1 - (0.62 + top) / height))
    dress(axes, tokens, charts.DAY, "")
    axes.grid(visible=False, axis="y")
    figure.text(0.15 / width, 1 - 0.12 / height, "\n".join(title), va="top", color=tokens.ink, fontsize=tokens.body)
    if not bars:
        axes.set_yticks([])
        return
    days = [_at(bar.keep_by) for bar in bars]
    first, last = min(*days, _at(picture.today)), max(*days, _at(picture.chosen))
    span = max(30.0, last - first)
    words = min(0.75, _WORDS / max(1.0, width - left - 0.15))
    axes.set_xlim(first - 0.02 * span, first + span / (1 - words))
    for n, bar in enumerate(bars):
        _bar(axes, bar, len(bars) - 1 - n, picture, tokens)
    axes.set_ylim(-0.7, len(bars) - 0.3)
    axes.set_yticks(range(len(bars)))
    axes.set_yticklabels([_short(bar.name) for bar in reversed(bars)], color=tokens.ink, fontsize=tokens.small)
    axes.tick_params(axis="y", length=0)
    _mark(axes, picture.today, charts.TODAY, tokens, "dotted", 1.0)
    if picture.chosen != picture.today:
        _mark(axes, picture.chosen, day_words(picture.chosen), tokens, "solid", 0.0)
    room = (width - left) * (1 - words)
    locator = mdates.AutoDateLocator(minticks=2, maxticks=max(3, int(room / 0.7)))  # type: ignore[no-untyped-call]
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(FuncFormatter(_tick))
    if len(picture.bars) > len(bars):
        axes.set_xlabel(charts.not_shown(len(picture.bars) - len(bars)), color=tokens.ink, fontsize=tokens.body)


def _bar(axes: Axes, bar: ShelfBar, y: int, picture: ShelfPicture, tokens: Tokens) -> None:
    tint = tokens.tint(bar.standing)
    begin, end = sorted((_at(picture.today), _at(bar.keep_by)))
    axes.barh(
        y,
        max(end - begin, 0.5),
        left=begin,
        height=0.6,
        facecolor=tint.ground,
        edgecolor=tint.ink,
        hatch="////" if bar.keep_by < picture.chosen else None,
        linewidth=1.0,
    )
    axes.annotate(
        f"{day_words(bar.keep_by)}, {bar.standing}",
        (end, y),
        xytext=(5, 0),
        textcoords="offset points",
        va="center",
        color=tint.ink,
        fontsize=tokens.small,
    )


def _mark(axes: Axes, day: date, words: str, tokens: Tokens, style: str, at_top: float) -> None:
    """A line at a day, named at the top or the bottom of the axes so that two near days do not collide."""
    at = _at(day)
    axes.axvline(at, color=tokens.accent, linestyle=style, linewidth=1.4, zorder=0.5)
    axes.annotate(
        words,
        (at, at_top),
        xycoords=("data", "axes fraction"),
        xytext=(3, 3),
        textcoords="offset points",
        color=tokens.accent,
        fontsize=tokens.small,
    )


def _at(day: date) -> float:
    """Where a day stands on matplotlib's axis of dates: days since 1970."""
    return float((day - _EPOCH).days)


def _tick(at: float, _place: int | None = None) -> str:
    day = _EPOCH + timedelta(days=round(at))
    return month_words(day) if day.day == 1 else short_day(day)


def _short(name: str, longest: int = 26) -> str:
    return name if len(name) <= longest else name[: longest - 1] + "…"
