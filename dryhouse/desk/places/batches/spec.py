"""The Journal, as the rail lists it."""

from dryhouse.desk.place import PlaceSpec

SPEC = PlaceSpec(
    id="journal",
    title="Journal",
    order=1,
    shortcut="Ctrl+1",
    target="dryhouse.desk.places.batches.view:JournalPlace",
    purpose="log a batch, and see what each one tells",
    preload="dryhouse.desk.places.batches.preload:preload_journal",
)
