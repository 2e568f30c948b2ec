"""Drying now, as the rail lists it."""

from dryhouse.desk.place import PlaceSpec

SPEC = PlaceSpec(
    id="drying",
    title="Drying now",
    order=2,
    shortcut="Ctrl+2",
    target="dryhouse.desk.places.dryer.view:DryingPlace",
    purpose="weigh what is on the dryers, and see when it will be done",
)
