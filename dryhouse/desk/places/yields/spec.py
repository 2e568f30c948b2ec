"""The Yields, as the rail lists them."""

from dryhouse.desk.place import PlaceSpec

SPEC = PlaceSpec(
    id="yields",
    title="Yields",
    order=3,
    shortcut="Ctrl+3",
    target="dryhouse.desk.places.yields.view:YieldsPlace",
    purpose="how much dried from fresh, and how much fresh for dried",
)
