"""The look, in one place: colours, spacing and type sizes that the window and the charts share.

Every text colour reaches a contrast of 4.5 to 1 on the grounds it stands on, and every series colour 3 to 1
(WCAG 2.2, success criteria 1.4.3 and 1.4.11). Series differ in colour, line and marker together, so that a
chart also reads in black and white and for colour-blind eyes.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from dryhouse.science.statuses import Status, VerdictName


class Series(NamedTuple):
    """How one line of a chart is drawn: its colour, its dashes and its marker, in matplotlib's terms."""

    colour: str
    dashes: str | tuple[int, tuple[float, ...]]
    marker: str


class Tint(NamedTuple):
    """A word that carries a colour: the ink it is written in, the ground behind it, the shape beside it."""

    ink: str
    ground: str
    shape: str
    """`octagon`, `triangle`, `disc`, `ring`, `tick`, `half`, `eye`, `clock` or `cross`."""


VERDICT_TINTS: Mapping[str, str] = {
    VerdictName.DRY_ENOUGH: Status.KEEPING,
    VerdictName.PROBABLY_DRY: Status.USE_SOON,
    VerdictName.NEARLY: Status.USE_SOON,
    VerdictName.STILL_MOIST: "warn",
    VerdictName.MISMATCH: "stop",
    VerdictName.UNKNOWN: "note",
}
"""The dryness verdicts borrow the tints of standings and severities."""

PIXELS_A_POINT = 4 / 3
"""At 96 dots an inch, as windows are laid out."""

_DASHES: tuple[str | tuple[int, tuple[float, ...]], ...] = (
    "solid",
    (0, (6.0, 2.0)),
    (0, (1.5, 1.5)),
    (0, (6.0, 2.0, 1.5, 2.0)),
    (0, (10.0, 3.0)),
    (0, (3.0, 1.5, 1.0, 1.5, 1.0, 1.5)),
)
_MARKERS = ("o", "s", "^", "D", "v", "P")


def _series(*colours: str) -> tuple[Series, ...]:
    return tuple(Series(*parts) for parts in zip(colours, _DASHES, _MARKERS, strict=True))


class Tokens(NamedTuple):
    """One complete look."""

    name: str
    ground: str
    """Behind everything."""
    surface: str
    """Cards, tables and fields."""
    rail: str
    """Behind the list of places."""
    ink: str
    muted: str
    """Second-rank text: bases, units."""
    hint: str
    """An example in an empty entry; never to be taken for what was typed."""
    line: str
    """Hairlines between things."""
    edge: str
    """The border of a field one can type in."""
    accent: str
    """The one colour of action: primary buttons, the chosen place, the focus ring."""
    on_accent: str
    accent_soft: str
    """Behind what is chosen."""
    grid: str
    severities: Mapping[str, Tint]
    """By `stop`, `warn`, `note`."""
    standings: Mapping[str, Tint]
    """By the words the shelf uses: one for each `Status` of something that is left, or thrown out."""
    series: tuple[Series, ...]

    space: int = 8
    """Pixels; everything is set in multiples of it."""
    target: int = 44
    """The least height, in pixels, of anything one touches."""
    radius: int = 6
    small: float = 9.5
    """Type sizes in points."""
    body: float = 10.5
    heading: float = 13.0
    title: float = 18.0
    figure: float = 22.0

    def enlarged(self, factor: float) -> Tokens:
        """The same look with every size of text `factor` times as large, and room to touch that follows it."""
        if factor == 1.0:
            return self
        small, body, heading, title, figure = (
            round(factor * size, 1) for size in (self.small, self.body, self.heading, self.title, self.figure)
        )
        return self._replace(
            small=small,
            body=body,
            heading=heading,
            title=title,
            figure=figure,
            target=max(self.target, round(2 * factor * self.body * PIXELS_A_POINT)),
        )

    def tint(self, word: str) -> Tint:
        """The tint of a severity, a standing or a verdict; anything else is a plain note."""
        word = VERDICT_TINTS.get(word, word)
        return self.severities.get(word) or self.standings.get(word) or self.severities["note"]


LIGHT = Tokens(
    name="light",
    ground="#F3F5F2",
    surface="#FFFFFF",
    rail="#E5EAE5",
    ink="#1B2420",
    muted="#525E58",
    hint="#525E58",
    line="#D3DAD4",
    edge="#7C8982",
    accent="#17605A",
    on_accent="#FFFFFF",
    accent_soft="#D6E9E5",
    grid="#DFE4E0",
    severities={
        "stop": Tint("#8E1730", "#FBE6E9", "octagon"),
        "warn": Tint("#6E4300", "#FDF0D5", "triangle"),
        "note": Tint("#28497A", "#E6EEF9", "disc"),
    },
    standings={
        Status.KEEPING: Tint("#17603F", "#DFF1E6", "tick"),
        Status.USE_SOON: Tint("#6E4300", "#FDF0D5", "half"),
        Status.PAST: Tint("#8A3A12", "#FBE9DF", "clock"),
        Status.CHECK_FIRST: Tint("#553085", "#EFE7F8", "eye"),
        Status.DO_NOT_EAT: Tint("#8E1730", "#FBE6E9", "octagon"),
        Status.THROWN_OUT: Tint("#525E58", "#E7EAE8", "cross"),
    },
    series=_series("#134E86", "#B9530B", "#0F7F6C", "#82306E", "#7D6A00", "#4B5560"),
)

DARK = Tokens(
    name="dark",
    ground="#161B19",
    surface="#1F2623",
    rail="#111513",
    ink="#E8EDEA",
    muted="#A6B2AB",
    hint="#A6B2AB",
    line="#35403A",
    edge="#78867E",
    accent="#74C7BB",
    on_accent="#0C1F1C",
    accent_soft="#1F413C",
    grid="#303A35",
    severities={
        "stop": Tint("#FFB1BD", "#48161F", "octagon"),
        "warn": Tint("#F6CF82", "#3F2E0A", "triangle"),
        "note": Tint("#AFCBF5", "#1C2C47", "disc"),
    },
    standings={
        Status.KEEPING: Tint("#97DBB4", "#143524", "tick"),
        Status.USE_SOON: Tint("#F6CF82", "#3F2E0A", "half"),
        Status.PAST: Tint("#FFBE9C", "#43230F", "clock"),
        Status.CHECK_FIRST: Tint("#D5BCF5", "#33224C", "eye"),
        Status.DO_NOT_EAT: Tint("#FFB1BD", "#48161F", "octagon"),
        Status.THROWN_OUT: Tint("#A6B2AB", "#2A322E", "cross"),
    },
    series=_series("#8FBFF2", "#F0A05A", "#4FC7AE", "#DE9BCB", "#D6C24A", "#B4BEC8"),
)


BLACK_ON_WHITE = LIGHT._replace(
    name="high contrast",
    ground="#FFFFFF",
    rail="#FFFFFF",
    ink="#000000",
    muted="#000000",
    hint="#555555",
    line="#000000",
    edge="#000000",
    accent="#003B8E",
    accent_soft="#FFF2A8",
    grid="#767676",
    severities={
        "stop": Tint("#7A0014", "#FFFFFF", "octagon"),
        "warn": Tint("#4A2D00", "#FFFFFF", "triangle"),
        "note": Tint("#00295E", "#FFFFFF", "disc"),
    },
    standings={
        Status.KEEPING: Tint("#00401F", "#FFFFFF", "tick"),
        Status.USE_SOON: Tint("#4A2D00", "#FFFFFF", "half"),
        Status.PAST: Tint("#6B2400", "#FFFFFF", "clock"),
        Status.CHECK_FIRST: Tint("#3E1670", "#FFFFFF", "eye"),
        Status.DO_NOT_EAT: Tint("#7A0014", "#FFFFFF", "octagon"),
        Status.THROWN_OUT: Tint("#000000", "#FFFFFF", "cross"),
    },
)
"""Every text at 7 to 1 or better (WCAG 2.2, success criterion 1.4.6), every border black."""

WHITE_ON_BLACK = DARK._replace(
    name="high contrast, dark",
    ground="#000000",
    surface="#000000",
    rail="#000000",
    ink="#FFFFFF",
    muted="#FFFFFF",
    hint="#A8A8A8",
    line="#FFFFFF",
    edge="#FFFFFF",
    accent="#FFE14D",
    on_accent="#000000",
    accent_soft="#3A3300",
    grid="#8C8C8C",
    severities={
        "stop": Tint("#FFB1BD", "#000000", "octagon"),
        "warn": Tint("#FFD98A", "#000000", "triangle"),
        "note": Tint("#BBD6FF", "#000000", "disc"),
    },
    standings={
        Status.KEEPING: Tint("#9FE8BE", "#000000", "tick"),
        Status.USE_SOON: Tint("#FFD98A", "#000000", "half"),
        Status.PAST: Tint("#FFC4A3", "#000000", "clock"),
        Status.CHECK_FIRST: Tint("#DCC7FF", "#000000", "eye"),
        Status.DO_NOT_EAT: Tint("#FFB1BD", "#000000", "octagon"),
        Status.THROWN_OUT: Tint("#FFFFFF", "#000000", "cross"),
    },
)
