"""What is written in and said of a chart."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from dryhouse.words.dates import day_words

# a drying run
WEIGHT = "Weight"
WET_BASIS, DRY_BASIS, RATIO = "Moisture, wet basis (%)", "Moisture, dry basis (g/g)", "Moisture ratio"
HOURS_OF_DRYING, TIME_OF_DAY = "Hours of drying (h)", "Time of day"
SINCE_START = "Hours since the start (h)"
MOISTURE_SHORT, RATE_SHORT = "Moisture (%)", "Rate (g/g/h)"
RATE = "Drying rate (g/g per hour)"
BAND_80, BAND_50 = "80 % range", "50 % range"
NOW, TODAY, DAY = "now", "today", "Day"
NOTHING_WEIGHED = "Nothing weighed yet."
ONLY_WEIGHT = "Without the starting moisture only the weight can be drawn."
NO_RATE = "A rate needs two weighings and the starting moisture."
# a yield
DRIED_SHARE, EACH_BATCH, OTHER_FORM = "Dried, % of the prepared fresh weight", "Each batch", "× another form"


def weight(unit: str) -> str:
    """`Weight (g)`."""
    return f"{WEIGHT} ({unit})"


def residual(unit: str) -> str:
    """`Residual (g)`."""
    return f"Residual ({unit})"


def air(fahrenheit: bool) -> str:
    """`Dryer (°F)`: the air in it."""
    return "Dryer (°F)" if fahrenheit else "Dryer (°C)"


def curve(model: str) -> str:
    """`Page curve`; nothing where no curve is drawn."""
    return f"{model} curve" if model else ""


def target(level: str) -> str:
    """`target 20 %`."""
    return f"target {level}"


def percent(value: float) -> str:
    """A share in as many digits as a kitchen knows: `27 %`, `5.4 %`."""
    return f"{value:.0f} %" if value >= 10 else f"{value:.1f} %"


def last(value: float) -> str:
    """`last: 23 %`."""
    return f"last: {percent(value)}"


def span(low: float, high: float) -> str:
    """`19 % to 45 %`."""
    return f"{percent(low)} to {percent(high)}"


def yields_sentence(
    food: str, ways: Iterable[tuple[str, float, float | None, float | None]], last_batch: float | None
) -> str:
    """The chart of a yield as a sentence: each way of knowing it with its middle and its interval."""
    parts = []
    for name, middle, low, high in ways:
        between = f", likely {span(low, high)}" if low is not None and high is not None else ""
        parts.append(f"{name} {percent(middle)}{between}")
    ending = f"; last batch {percent(last_batch)}" if last_batch is not None else ""
    return f"Dried weight of {food} in per cent of the prepared: {'; '.join(parts)}{ending}."


def shelf_sentence(count: int, passed: int, already: int, on: date | None, unknown: int) -> str:
    """How many lots are past their keep-by, or will be `on` a day; how many are so `already`, and how many have
    none."""
    if on is None:
        said = f"{passed} of {count} lots are past their keep-by"
    else:
        said = f"{passed} of {count} lots will have passed their keep-by on {day_words(on)}"
        said += f", {already} of them already" if already else ""
    return said + (f"; {unknown} more {'has' if unknown == 1 else 'have'} no keep-by" if unknown else "")
