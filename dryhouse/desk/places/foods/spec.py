"""The Handbook, as the rail lists it."""

from dryhouse.desk.place import PlaceSpec

SPEC = PlaceSpec(
    id="handbook",
    title="Handbook",
    order=6,
    shortcut="Ctrl+6",
    target="dryhouse.desk.places.foods.view:HandbookPlace",
    purpose="read the published figures and their sources",
)
