"""The Meals, as the rail lists them."""

from dryhouse.desk.place import PlaceSpec

SPEC = PlaceSpec(
    id="meals",
    title="Meals",
    order=5,
    shortcut="Ctrl+5",
    target="dryhouse.desk.places.meals.view:MealsPlace",
    purpose="meals from your shelf, and trips with what to dry, buy and pack",
)
