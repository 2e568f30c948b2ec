"""The Shelf, as the rail lists it."""

from dryhouse.desk.place import PlaceSpec

SPEC = PlaceSpec(
    id="shelf",
    title="Shelf",
    order=4,
    shortcut="Ctrl+4",
    target="dryhouse.desk.places.shelf.view:ShelfPlace",
    preload="dryhouse.desk.places.shelf.state:read_ahead",
    purpose="your jars and bags: place, keep-by, what to use first",
)
