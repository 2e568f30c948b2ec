"""The Handbook: finding, reading, overriding, adding."""

import pytest
from PySide6.QtWidgets import QLabel

from dryhouse.desk.places.foods.view import HandbookPlace
from dryhouse.desk.places.foods.wording import FIGURES, shown
from dryhouse.desk.session import Session
from dryhouse.handbook.foods import UNITS
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.foods.catalog import FIGURE_UNITS, food
from dryhouse.kitchen.foods.own_foods import add_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import OwnFood
from dryhouse.science.display import Style
from dryhouse.science.values import Fact
from tests.fakes import FakeJournal
from tests.rows import every_row


@pytest.fixture
def place(theme, qtbot):
    """Over the whole handbook that is shipped."""
    made = HandbookPlace(Session(Kitchen(FakeJournal(), handbook()), theme))
    qtbot.addWidget(made)
    made.resize(1080, 760)
    made.show()
    return made


def names(place):
    return [place.list.item(i).text() for i in range(place.list.count())]


def table(place):
    return {what: (value, source) for what, value, source in place.page.printable()}


def find(place, text):
    place.filter.edit.setText(text)
    place.filter.tell()


def test_every_food_is_listed_by_name(place):
    assert len(names(place)) == len(handbook().foods)
    assert names(place) == sorted(names(place), key=str.casefold)


def test_finding_forgives(place):
    find(place, "sweetcorn")
    assert place.page.food.slug == "corn"


def test_what_names_no_food_is_asked_about_and_nothing_near_it_is_opened(place):
    find(place, "turkey")
    find(place, "Duck breast")
    assert place.page.food is None
    assert "No food called “Duck breast” is known. Choose one of those near it" in place.page.heading.text()
    assert place.page.table.isHidden()
    assert place.list.currentItem() is None
    assert "with a name near it" in place.count.text()
    place.list.setCurrentRow(0)
    assert place.page.food.name == place.list.currentItem().text().lower()


def test_what_is_like_nothing_here_says_how_to_go_on(place):
    find(place, "xyzzyplugh")
    assert names(place) == []
    assert "add it as a food of your own" in place.page.heading.text()


def test_a_food_of_another_kind_is_not_opened(place):
    place.kind.set_value("fish")
    find(place, "apple")
    assert place.page.food is None
    assert "None of the fish is called “apple”" in place.page.heading.text()


def test_a_word_begun_and_a_slip_of_one_letter_still_open_the_food(place):
    for typed, slug in (("straw", "strawberry"), ("turnpi", "turnip"), ("cherries sour", "sour-cherry")):
        find(place, typed)
        assert place.page.food.slug == slug
        assert place.list.currentItem() is not None


def test_a_kind_narrows_the_list(place):
    place.kind.set_value("herb")
    assert 3 < len(names(place)) < 60


def test_every_figure_has_a_source(place):
    place.show_record("food", "corn")
    assert table(place)["Water, fresh"][0] == "76.05 %"
    assert all(source for _, source in table(place).values())


def test_every_figure_of_the_handbook_and_every_own_one_has_a_name():
    assert set(UNITS) <= set(FIGURES)
    assert set(FIGURE_UNITS) <= set(FIGURES)


def test_a_saying_stands_with_its_source_and_nothing_else(place):
    place.show_record("food", "corn")
    written = [label.text() for label in place.page.findChildren(QLabel)]
    saying = next(iter(place.page.food.sayings.values()))
    assert saying.text in written
    assert f"handbook: {saying.source}" in written
    sources = {row[1] for row in table(place).values()}
    assert not any(source.startswith(("handbook", "Basis")) for source in sources)


def test_animal_foods_show_their_cautions_above_their_figures(place):
    find(place, "ground beef")
    assert place.page.cautions.cautions[0].severity == "stop"
    assert place.page.cautions.y() < place.page.table.y()


def test_an_own_figure_stands_in_place_of_the_published_one_and_can_be_taken_back(place):
    place.show_record("food", "corn")
    place.page.own.choose("water")
    place.page.own.value.edit.setText("74")
    place.page.own.note.edit.setText("weighed and dried in the oven")
    place.page.own.save()
    value, source = table(place)["Water, fresh"]
    assert value == "74 %"
    assert "entered: weighed and dried in the oven" in source
    assert "the handbook says 76.05 %" in source
    assert food(place.session.kitchen, "corn").fact("water").how == "entered"
    place.page.own.take_back()
    assert table(place)["Water, fresh"][0] == "76.05 %"
    place.session.undo()
    assert table(place)["Water, fresh"][0] == "74 %"


def test_a_temperature_is_entered_in_her_own_degrees(place):
    place.show_record("food", "corn")
    place.page.own.choose("drying_temperature")
    place.page.own.value.edit.setText("130")
    place.page.own.save()
    assert food(place.session.kitchen, "corn").fact("drying_temperature").value == pytest.approx(54.44, abs=0.01)


@pytest.mark.parametrize(("figure", "text"), [("water", "140"), ("water", "wet"), ("energy", "-3"), ("water", "")])
def test_a_figure_that_cannot_be_is_refused_at_the_entry(place, figure, text):
    place.show_record("food", "corn")
    place.page.own.choose(figure)
    place.page.own.value.edit.setText(text)
    place.page.own.save()
    assert place.page.own.value.edit.property("wrong") == "true"
    assert food(place.session.kitchen, "corn").fact(figure).how != "entered"


def test_a_food_of_her_own_takes_over_the_figures_of_the_one_it_dries_like(place):
    place.add_food()
    page = place.own_food
    page.name.edit.setText("club squash")
    page.others.edit.setText("lake squash, dock squash")
    page.kind.set_value("vegetable")
    page.like.set_value("acorn-squash")
    page.save()
    assert place.page.food.name == "club squash"
    assert "Water, fresh" in table(place)
    assert len(names(place)) == len(handbook().foods) + 1
    find(place, "dock squash")
    assert names(place)[0] == "Club squash"


def test_what_is_in_a_food_of_her_own_is_never_preset(place):
    place.add_food()
    page = place.own_food
    page.name.edit.setText("Duck breast")
    assert page.contains.value() == ()
    assert page.kind.value() == ""
    page.save()
    own = place.session.kitchen.journal.where(OwnFood)[0]
    assert own.contains == ""
    assert place.page.food.animal
    assert any(c.severity == "stop" for c in place.page.cautions.cautions)


def test_plants_only_is_asked_about_once_more_where_the_name_says_otherwise(place):
    place.add_food()
    page = place.own_food
    page.name.edit.setText("Duck breast")
    page.contains.boxes["plant"].setChecked(True)
    page.save()
    assert place.session.kitchen.journal.where(OwnFood) == ()
    assert "really no meat, fish, egg or milk" in page.again.text()
    page.save()
    assert place.session.kitchen.journal.where(OwnFood)[0].contains == "plant"


def test_what_is_in_it_can_be_said_later(place):
    place.session.act(add_food, "lotus root")
    place.show_record("food", "lotus-root")
    contents = place.page.contents
    assert contents.isVisible()
    assert "Nobody has said yet" in contents.sentence.text()
    contents.contains.boxes["plant"].setChecked(True)
    contents.save_button.click()
    assert place.session.kitchen.journal.where(OwnFood)[0].contains == "plant"
    assert not food(place.session.kitchen, "lotus-root").animal
    place.show_record("food", "corn")
    assert contents.isHidden()


def test_a_name_that_is_taken_is_refused(place):
    place.add_food()
    place.own_food.name.edit.setText("corn")
    place.own_food.save()
    assert place.own_food.name.edit.property("wrong") == "true"


def test_sources_say_whether_they_were_read(place):
    place.show_sources()
    texts = [label.text() for label in place.sources.findChildren(QLabel)]
    assert any("read at the source" in t for t in texts)
    assert sum(source.citation in texts for source in handbook().sources.values()) == len(handbook().sources)


def test_a_food_is_printed_with_its_sources(place):
    place.show_record("food", "corn")
    assert "76.05 %" in place.printout().toPlainText()


def test_an_unknown_food_is_said(place):
    place.page.show_food("no-such-food")
    assert place.page.food is None
    assert "no-such-food" in place.page.heading.text()


@every_row(
    ("fact", "text"),
    [
        (Fact(57.2, "°C", "s"), "135 °F"),
        (Fact(8.0, "h", "s", low=6.0, high=10.0), "6 to 10 h"),
        (Fact(76.05, "% wet basis", "s", low=74.0, high=78.0), "76.05 % (74 to 78 %)"),
        (Fact(86.0, "kcal per 100 g", "s"), "86 kcal per 100 g"),
    ],
)
def test_figures_read_like_figures(fact, text):
    assert shown(fact, Style()) == text
