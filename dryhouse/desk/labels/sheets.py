"""Label sheets, by the millimetres of their pages, labels and gaps: `sheets.csv` beside this file."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from dryhouse.science.display import US

Pair = tuple[float, float]


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A page of labels. All lengths in millimetres, width first."""

    id: str
    words: str
    page: str
    """`A4`, `Letter`, or `custom` where the page is the label."""
    page_mm: Pair
    label_mm: Pair
    across: int
    down: int
    origin_mm: Pair
    step_mm: Pair

    @property
    def count(self) -> int:
        """Labels on one page."""
        return self.across * self.down

    @property
    def area_mm2(self) -> float:
        """Of one label."""
        return self.label_mm[0] * self.label_mm[1]

    def place_mm(self, n: int) -> Pair:
        """The upper left corner of the nth label of a page, row by row."""
        down, across = divmod(n % self.count, self.across)
        return self.origin_mm[0] + across * self.step_mm[0], self.origin_mm[1] + down * self.step_mm[1]


def usual_sheet(system: str) -> LabelSheet:
    """The first of the paper of a kitchen that measures so: Letter beside ounces, A4 beside grams."""
    paper = "Letter" if system == US else "A4"
    return next(sheet for sheet in label_sheets() if sheet.page == paper)


@cache
def label_sheets() -> tuple[LabelSheet, ...]:
    """Every sheet, in the order of the table."""
    with (Path(__file__).parent / "sheets.csv").open(encoding="utf-8", newline="") as file:
        return tuple(
            LabelSheet(
                row["id"],
                row["words"],
                row["page"],
                _pair(row["page_mm"]),
                _pair(row["label_mm"]),
                int(row["across"]),
                int(row["down"]),
                (float(row["left_mm"]), float(row["top_mm"])),
                _pair(row["step_mm"]),
            )
            for row in csv.DictReader(file)
        )


def sheet_named(id: str) -> LabelSheet:
    """The sheet of this id; the first where there is none such."""
    return next((sheet for sheet in label_sheets() if sheet.id == id), label_sheets()[0])


def _pair(text: str) -> Pair:
    width, height = text.split(" x ")
    return float(width), float(height)
