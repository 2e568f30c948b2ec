"""Timeline of the shelf: each lot a bar from the day it was packed to its keep-by, a line at today and at the day
looked at, the trips to come behind them.

The graver a status the higher it stands and the fuller its bar; what will have passed by the day looked at is
hatched and said in words, so that nothing hangs on colour alone.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from matplotlib import dates as mdates
from matplotlib.collections import PolyCollection
from matplotlib.ticker import FuncFormatter

from dryhouse.plots.axes import dress, set_labels_at
from dryhouse.plots.rows_of_words import RowsOfWords, Said
from dryhouse.plots.shelf_picture import FOOT, HEAD, ShelfBar, ShelfPicture, ended, say
from dryhouse.plots.tokens import LIGHT, Tokens
from dryhouse.science.statuses import Status
from dryhouse.words import charts
from dryhouse.words.dates import day_words, month_words, short_day

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_LETTER = 0.083
"""Inches a letter of the small type takes, on the wide side."""
_WORDS = 2.4
"""Inches the words to the right of a bar take."""
Box = list[tuple[float, float]]
"""Four corners."""
_EPOCH = date(1970, 1, 1)
_GRAVE = frozenset({Status.DO_NOT_EAT, Status.CHECK_FIRST, Status.PAST})
_OPEN_DAYS = 20.0
"""Days a bar without an end is drawn beyond today."""


def draw_shelf(figure: Figure, picture: ShelfPicture, tokens: Tokens) -> None:
    """Draw the picture on an empty figure, its margins in inches so that no word is cut."""
    figure.set_layout_engine("none")
    width, height = figure.get_size_inches()
    larger = tokens.small / LIGHT.small
    letter, foot = _LETTER * larger, FOOT * larger
    bars = picture.in_order()
    longest = max((len(_short(bar.name)) for bar in bars), default=0)
    left = 0.25 + longest * letter
    room = max(20, int((width - 0.3) / letter / 1.1))
    title = textwrap.wrap(say(picture), room, break_on_hyphens=False)
    top = (HEAD + 0.18 * len(title)) * larger
    axes = figure.add_axes((left / width, foot / height, 1 - (left + 0.15) / width, 1 - (foot + top) / height))
    dress(axes, tokens, charts.DAY, "")
    set_labels_at(figure, axes, left, 0.28 * larger)
    axes.grid(visible=False, axis="y")
    figure.text(0.15 / width, 1 - 0.12 / height, "\n".join(title), va="top", color=tokens.ink, fontsize=tokens.body)
    if not bars:
        axes.set_yticks([])
        return
    first, last = _ends(bars, picture)
    span = max(30.0, last - first)
    words = min(0.6, _WORDS * larger / max(1.0, width - left - 0.15))
    axes.set_xlim(first - 0.02 * span, first + span / (1 - words))
    axes.set_ylim(-0.7, len(bars) - 0.3)
    axes.set_yticks([])
    _bars(axes, bars, picture, tokens)
    names, fates = said_of(picture, tokens)
    RowsOfWords(axes, names, tokens.small, axes.get_yaxis_transform(), to_left=True)
    RowsOfWords(axes, fates, tokens.small, axes.transData, ground=tokens.surface).set_zorder(3.5)
    for name, begin, end in picture.trips:
        axes.axvspan(_at(begin), _at(end) + 1, color=tokens.accent_soft, zorder=0)
        _name(axes, begin, _short(name), tokens, 1.0)
    _mark(axes, picture.today, charts.TODAY, tokens, "dotted", 1.0, left=True)
    if picture.chosen != picture.today:
        _mark(axes, picture.chosen, day_words(picture.chosen), tokens, "solid", 0.0)
    room = (width - left) * (1 - words)
    locator = mdates.AutoDateLocator(minticks=4, maxticks=max(5, int(room / 0.7)))  # type: ignore[no-untyped-call]
    locator.intervald[mdates.MONTHLY] = [1, 2, 3, 4, 6, 12]  # narrow pictures of years have a mark a year
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(FuncFormatter(_tick))


def _ends(bars: Sequence[ShelfBar], picture: ShelfPicture) -> tuple[float, float]:
    """The first and the last day of the picture."""
    trips = [day for _, begin, end in picture.trips for day in (begin, end)]
    ends = [bar.keep_by for bar in bars if bar.keep_by is not None]
    begins = [bar.packed_on for bar in bars]
    return _at(min(*begins, picture.today)), max(_at(max([*ends, *trips, picture.chosen])), _at(picture.today))


def _bars(axes: Axes, bars: Sequence[ShelfBar], picture: ShelfPicture, tokens: Tokens) -> None:
    """The bars from the top down, all that look alike in one."""
    alike: dict[tuple[str, bool, bool], list[Box]] = {}
    for y, bar in zip(_heights(bars), bars, strict=True):
        begin, end, half = _at(bar.packed_on), _end(bar, picture), 0.31
        look = bar.standing, ended(bar, picture.chosen), bar.keep_by is None
        corners = [(begin, y - half), (end, y - half), (end, y + half), (begin, y + half)]
        alike.setdefault(look, []).append(corners)
    for (standing, over, open_end), boxes in alike.items():
        tint, full = tokens.tint(standing), standing in _GRAVE
        drawn = PolyCollection(
            boxes,
            facecolor=tint.ink if full else tint.ground,
            edgecolor=tokens.surface if full else tint.ink,
            hatch="////" if over else None,
            linestyle="dashed" if open_end else "solid",
            linewidth=1.0,
        )
        axes.add_collection(drawn, autolim=False)


def said_of(picture: ShelfPicture, tokens: Tokens) -> tuple[list[Said], list[Said]]:
    """The lot's name at the left of each bar; at its right until when it keeps, and its status."""
    bars = picture.in_order()
    names, fates = list[Said](), list[Said]()
    for y, bar in zip(_heights(bars), bars, strict=True):
        grave, ink = bar.standing in _GRAVE, tokens.tint(bar.standing).ink
        fate = f"{bar.until}, {bar.standing}" if bar.until else bar.standing
        names.append(Said(0.0, y, _short(bar.name), ink if grave else tokens.ink, grave))
        fates.append(Said(_end(bar, picture), y, fate, ink, grave))
    return names, fates


def _heights(bars: Sequence[ShelfBar]) -> range:
    """Where the bars stand, from the top down."""
    return range(len(bars) - 1, -1, -1)


def _end(bar: ShelfBar, picture: ShelfPicture) -> float:
    begin = _at(bar.packed_on)
    end = _at(bar.keep_by) if bar.keep_by is not None else max(begin, _at(picture.today)) + _OPEN_DAYS
    return max(end, begin + 0.5)


def _mark(
    axes: Axes, day: date, words: str, tokens: Tokens, style: str, at_top: float, *, left: bool = False
) -> None:
    """A line at a day, named at the top or the bottom of the axes so that two near days do not collide."""
    axes.axvline(_at(day), color=tokens.accent, linestyle=style, linewidth=1.4, zorder=3)
    _name(axes, day, words, tokens, at_top, left=left)


def _name(axes: Axes, day: date, words: str, tokens: Tokens, at_top: float, *, left: bool = False) -> None:
    axes.annotate(
        words,
        (_at(day), at_top),
        xycoords=("data", "axes fraction"),
        xytext=(-3 if left else 3, 3),
        ha="right" if left else "left",
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
