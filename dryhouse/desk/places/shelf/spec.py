"""The Shelf, as the rail lists it."""

from dryhouse.desk.place import PlaceSpec

SPEC = PlaceSpec(
    id="shelf",
    title="Shelf",
    order=4,
    shortcut="Ctrl+4",
    target="dryhouse.desk.places.shelf.view:ShelfPlace",
    preload="dryhouse.desk.places.shelf.state:read_ahead",
    purpose="what is still good, where it stands and what to use first",
)
