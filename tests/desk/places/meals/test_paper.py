"""What is printed of meals and trips."""

from __future__ import annotations

from PySide6.QtGui import QPdfWriter

from dryhouse.desk.places.meals.view import MealsPlace
from dryhouse.desk.places.meals.wording import drying_page, meal_page, packing_page, shopping_page
from dryhouse.desk.widgets.printing import document
from dryhouse.kitchen.meals.meals import draft_part, save_meal
from dryhouse.kitchen.meals.sheet import meal_sheet
from dryhouse.kitchen.records import Meal
from dryhouse.kitchen.trips.bag_labels import bag_labels
from dryhouse.kitchen.trips.provisioning import plan


def test_every_page_prints(tmp_path, place: MealsPlace) -> None:
    kitchen, style = place.session.kitchen, place.session.style
    worked, sheet = plan(kitchen, 1), meal_sheet(kitchen, 1)
    pages = {
        "meal": meal_page(sheet, style),
        "shopping": shopping_page(worked, style),
        "packing": packing_page(worked, style),
        "drying": drying_page(worked, style, kitchen),
    }
    for name, body in pages.items():
        file = tmp_path / f"{name}.pdf"
        document(name, body).print_(QPdfWriter(str(file)))
        assert file.read_bytes().startswith(b"%PDF")
    told = {name: document(name, body).toPlainText() for name, body in pages.items()}
    assert "camp stew" in told["meal"]
    assert "160 mg" not in told["shopping"]
    assert "couscous" in told["shopping"]
    assert "Thursday 20 August" in told["packing"]
    assert "jar by the door" in told["packing"]
    assert "Start by" in told["drying"]


def test_names_with_signs_of_the_page_language_stay_words(place: MealsPlace) -> None:
    kitchen = place.session.kitchen
    save_meal(kitchen, Meal("<b>fish & chips</b>"), [draft_part(kitchen, "couscous", "10 g")])
    body = meal_page(meal_sheet(kitchen, 3), place.session.style)
    assert "<b>fish & chips</b>" in document("x", body).toPlainText()


def test_a_bag_label_has_its_day_and_stops_and_no_water_for_what_must_not_be_eaten(place: MealsPlace) -> None:
    kitchen = place.session.kitchen
    (label,) = bag_labels(plan(kitchen, 1), place.session.style)
    assert label.title == "Camp stew"
    assert label.lines[0] == "Thu 20 Aug, dinner"
    assert not any("Water" in line for line in label.lines)
    assert any("heating" in stop.casefold() for stop in label.stops)


def test_a_meal_without_ingredients_prints_no_sums_that_look_measured(place: MealsPlace) -> None:
    kitchen = place.session.kitchen
    save_meal(kitchen, Meal("lentil stew", 1.0), [])
    empty = next(m.id for m in kitchen.journal.where(Meal) if m.name == "lentil stew")
    page = meal_page(meal_sheet(kitchen, empty), place.session.style)
    assert "1 serving;" in page
    assert "No ingredients yet." in page
    assert "Water 0" not in page
    assert "Dry mass" not in page
    assert "<h2>Cautions</h2>" in page
