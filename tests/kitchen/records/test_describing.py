"""A field is described where it stands."""

from dataclasses import dataclass, field

from dryhouse.kitchen.records.describing import NOTHING_SAID, about
from dryhouse.kitchen.records.shapes import shapes


@dataclass(frozen=True)
class Jar:
    weight: float = field(default=1.0, metadata=about("Weight", low=0, high=5))
    note: str = ""


def test_what_is_said_of_a_field_is_found_with_its_shape():
    weight, note = shapes(Jar)
    assert (weight.about.label, weight.about.low, weight.about.high) == ("Weight", 0, 5)
    assert note.about == NOTHING_SAID
