"""The Journal, as the rail lists it."""

from dryhouse.desk.place import PlaceSpec

SPEC = PlaceSpec(
    id="journal",
    title="Journal",
    order=1,
    shortcut="Ctrl+1",
    target="dryhouse.desk.places.batches.view:JournalPlace",
    purpose="log each batch, and see how dry it is",
    preload="dryhouse.desk.places.batches.preload:preload_journal",
)
