"""How numbers are shown: in the person's own system, never with digits that were not known."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from dryhouse.science.quantities import Area, Duration, Length, Mass, Quantity, Temperature, Volume
from dryhouse.science.units import SIZES, to_fahrenheit
from dryhouse.science.values import Figure

US, METRIC = "us", "metric"


@dataclass(frozen=True, slots=True)
class Style:
    """How this person reads numbers: US customary or metric, decimal point or comma."""

    system: str = US
    decimal_comma: bool = False

    @property
    def mass_unit(self) -> str:
        """The unit a bare number in a mass field is taken to be in."""
        return "oz" if self.system == US else "g"

    @property
    def volume_unit(self) -> str:
        """The unit of a bare number in a volume field."""
        return "cup" if self.system == US else "ml"

    @property
    def temperature_unit(self) -> str:
        """The scale of a bare number in a temperature field."""
        return "F" if self.system == US else "C"

    @property
    def length_unit(self) -> str:
        """The unit of a bare number in a thickness field."""
        return "in" if self.system == US else "mm"

    def number(self, value: float, places: int = 1) -> str:
        """A number with this many decimals at most, trailing zeros dropped."""
        text = f"{value:.{places}f}"
        if "." in text:
            text = text.rstrip("0").rstrip(".")
        text = "0" if text == "-0" else text.replace("-", "−")
        return text.replace(".", ",") if self.decimal_comma else text

    def mass(self, grams: float) -> str:
        """`2 lb 3.1 oz`, `7 oz`; `1.25 kg`, `198 g`."""
        if self.system == METRIC:
            if grams >= 999.5:
                return f"{self.number(grams / 1000, 2)} kg"
            return f"{self.number(grams, 0 if grams >= 100 else 1)} g"
        ounces = grams / SIZES["oz"]
        if ounces < 15.95:
            return f"{self.number(ounces, 1 if ounces >= 1 else 2 if ounces >= 0.2 else 3)} oz"
        tenths = round(ounces * 10)
        pounds, rest = divmod(tenths, 160)
        return f"{pounds} lb {self.number(rest / 10, 1)} oz" if rest else f"{pounds} lb"

    def load(self, grams: float, to: Callable[[float], int] = round) -> str:
        """`5 lb 14½ oz`, `2.68 kg`: what goes on the trays, is bought or is carried, to half an ounce or ten grams;
        with `math.ceil` no less than that. What is lighter than an ounce, or than 100 g, is said as closely as it
        is known."""
        if self.system == METRIC:
            return self.mass(to(round(grams / 10, 6)) * 10 if grams >= 100 else grams)
        if grams < SIZES["oz"]:
            return self.mass(grams)
        pounds, rest = divmod(to(round(grams / SIZES["oz"] * 2, 6)), 32)
        ounces = f"{fraction(rest / 2, self)} oz" if rest else ""
        return " ".join(filter(None, (f"{pounds} lb" if pounds else "", ounces)))

    def load_of(self, figure: Figure) -> str:
        """A figure of weight as a load is said; any other as it is."""
        weighs = figure.unit in ("g", "oz", "lb", "kg")
        return self.load(figure.value * SIZES[figure.unit]) if weighs else self.figure(figure)

    def volume(self, ml: float) -> str:
        """`2½ cups`, `3 tbsp`; `1.2 l`, `350 ml`."""
        if self.system == METRIC:
            return f"{self.number(ml / 1000, 2)} l" if ml >= 999.5 else f"{self.number(ml, 0)} ml"
        return household(ml, self)

    def temperature(self, celsius: float) -> str:
        """`135 °F` or `57 °C`."""
        if self.system == METRIC:
            return f"{self.number(celsius, 0)} °C"
        return f"{self.number(to_fahrenheit(celsius), 0)} °F"

    def length(self, mm: float) -> str:
        """`¼ in` or `6 mm`."""
        if self.system == METRIC:
            return f"{self.number(mm / 1000, 0)} m" if mm >= 10000 else f"{self.number(mm, 1)} mm"
        return f"{self.number(mm / 304.8, 0)} ft" if mm >= 3048 else f"{fraction(mm / 25.4, self)} in"

    def area(self, cm2: float) -> str:
        """`1.2 sq ft` or `1100 cm²`."""
        if self.system == METRIC:
            return f"{self.number(cm2, 0)} cm²"
        return f"{self.number(cm2 / 929.0304, 2)} sq ft"

    def percent(self, value: float, places: int = 1) -> str:
        """`86.5 %`."""
        return f"{self.number(value, places)} %"

    def show(self, quantity: Quantity | None, missing: str = "—") -> str:
        """A stored quantity in the person's own system."""
        match quantity:
            case Mass():
                return self.mass(quantity.si)
            case Volume():
                return self.volume(quantity.si)
            case Temperature():
                return self.temperature(quantity.si)
            case Length():
                return self.length(quantity.si)
            case Area():
                return self.area(quantity.si)
            case Duration():
                return duration(quantity.si)
        return missing

    def amount(self, value: float, unit: str) -> str:
        """A value in a unit, in the person's own system where it is a mass or a volume."""
        if unit in ("g", "oz", "lb", "kg"):
            return self.mass(value * SIZES[unit])
        if unit in ("ml", "l", "cup", "tbsp", "tsp", "fl oz", "pt", "qt"):
            return self.volume(value * SIZES[unit])
        if unit in ("s", "min", "h"):
            return duration(value * SIZES[unit])
        if unit == "degC":
            return self.temperature(value)
        if unit == "%":
            return self.percent(value)
        places = 0 if abs(value) >= 100 else 1 if abs(value) >= 10 else 2
        if unit == "day":
            return days_in_words(value)
        return f"{self.number(value, places)} {unit}".strip()

    def figure(self, figure: Figure) -> str:
        """The value alone, in the person's own system."""
        return self._of(figure, figure.value)

    def interval(self, figure: Figure) -> str:
        """`6.5 oz to 8 oz`, or nothing where no interval is known."""
        if figure.low is None or figure.high is None:
            return ""
        return f"{self._of(figure, figure.low)} to {self._of(figure, figure.high)}"

    def _of(self, figure: Figure, value: float) -> str:
        if figure.as_is:
            return f"{self.number(value, 0 if abs(value) >= 100 else 1)} {figure.unit}"
        spread = 0.0 if figure.low is None or figure.high is None else figure.high - figure.low
        if figure.unit == "%" and spread >= WHOLE_PERCENT:
            return self.percent(value, 0)
        if figure.unit in ("s", "min", "h") and spread * SIZES[figure.unit] >= 3600.0:
            return duration(round(value * SIZES[figure.unit] / QUARTER_HOUR) * QUARTER_HOUR)
        if figure.unit == "kcal":
            return f"{calories(value)} kcal"
        if self.system == METRIC and figure.unit in ("ml", "l") and spread * SIZES[figure.unit] >= 2 * TEN_ML:
            return self.volume(round(value * SIZES[figure.unit] / TEN_ML) * TEN_ML)
        return self.amount(value, figure.unit)


TEN_ML = 10.0
"""Water known no closer than two of these is said in tens of milliliters."""
DAYS_OF_A_MONTH = 365.25 / 12.0
WHOLE_PERCENT = 2.0
"""A share known no closer than this is said in whole percent; hours known no closer than one, in quarters."""
QUARTER_HOUR = 900.0


def days_in_words(days: float) -> str:
    """`1 day`, `14 days`, `2½ months`, `9 months`, `2 years`: no finer than a jar on a shelf is kept."""
    if round(days) < 60:
        return counted(round(days), "day")
    months = days / DAYS_OF_A_MONTH
    halves, one = (months, "month") if months < 23.5 else (months / 12.0, "year")
    finest = 2 if one == "year" or halves < 5.75 else 1
    whole, half = divmod(round(halves * finest), finest)
    return f"{whole}{'½' if half else ''} {one}{'' if (whole, half) == (1, 0) else 's'}"


def calories(kcal: float) -> str:
    """`580`, `45`: to the nearest ten, up to fifty to the nearest five, as a label says it (21 CFR 101.9(c)(1))."""
    step = 5 if abs(kcal) <= 50.0 else 10
    return f"{step * round(kcal / step)}"


def counted(number: int, one: str, many: str = "") -> str:
    """`1 tray`, `3 trays`; `many` where the plural is not `one` with an s."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def duration(seconds: float) -> str:
    """`8 h 30 min`, `45 min`, `2 days 3 h`."""
    minutes = round(seconds / 60)
    if minutes < 0:
        return f"−{duration(-seconds)}"
    if minutes < 60:
        return f"{minutes} min"
    hours, rest = divmod(minutes, 60)
    if hours >= 48:
        days, hours = divmod(hours, 24)
        return f"{days} days {hours} h" if hours else f"{days} days"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


_SIGNS = {
    (1, 8): "⅛",
    (1, 4): "¼",
    (3, 8): "⅜",
    (1, 3): "⅓",
    (1, 2): "½",
    (5, 8): "⅝",
    (2, 3): "⅔",
    (3, 4): "¾",
    (7, 8): "⅞",
}


def fraction(value: float, style: Style) -> str:
    """A value to the nearest kitchen fraction: `2½`, `⅓`; a decimal where none is near."""
    whole = math.floor(value + 1e-9)
    rest = value - whole
    near = min([((0, 1), ""), ((1, 1), ""), *_SIGNS.items()], key=lambda f: abs(f[0][0] / f[0][1] - rest))
    (top, bottom), sign = near
    if abs(top / bottom - rest) > 0.03:
        return style.number(value, 2)
    if top == bottom:
        return str(whole + 1)
    return (f"{whole}{sign}" if whole or not sign else sign) or "0"


def household(ml: float, style: Style) -> str:
    """A volume as a cook would measure it: quarts, cups, then tablespoons, then teaspoons; never none of something.

    What is poured is read off a measuring cup, so cups never carry decimals: eighths and thirds up to four cups,
    then quarters; quarts from eight cups, by quarters, halves from ten, whole ones from thirty. Less than half a
    cup that no mark is near is said in tablespoons; less than one of these in quarters of a teaspoon, below one in
    eighths.
    """
    cups = ml / SIZES["cup"]
    if cups >= 7.875:
        return f"{_marked(ml / SIZES['qt'], style, 0)} quarts"
    if cups >= 0.5 or (cups >= 0.24 and _near_a_mark(cups)):
        text = _marked(cups, style, 4)
        return f"{text} {'cup' if cups < 1 or text == '1' else 'cups'}"
    spoons = ml / SIZES["tbsp"]
    if spoons >= 0.95:
        steps = 4 if spoons < 4 else 2
        return f"{fraction(round(spoons * steps) / steps, style)} tbsp"
    small = ml / SIZES["tsp"]
    steps = 4 if small >= 1 else 8
    marks = round(small * steps)
    return f"{fraction(marks / steps, style)} tsp" if marks or ml <= 0 else "less than ⅛ tsp"


def _near_a_mark(cups: float) -> bool:
    return any(abs(top / bottom - cups) <= 0.03 for top, bottom in _SIGNS)


def _marked(measure: float, style: Style, finest_below: float) -> str:
    """Cups or quarts rounded to a mark, to eighths and thirds below `finest_below`."""
    for least, steps in ((30, 1), (10, 2), (finest_below, 4)):
        if measure >= least:
            return fraction(round(measure * steps) / steps, style)
    whole = math.floor(measure)
    top, bottom = min(((0, 1), (1, 1), *_SIGNS), key=lambda f: abs(f[0] / f[1] - (measure - whole)))
    return fraction(whole + top / bottom, style)
