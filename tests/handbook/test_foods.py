"""Every table of the foods keeps the handbook's rules, and what it says is possible."""

import re

import pytest

from dryhouse.handbook import reading
from dryhouse.handbook.foods import TRAITS, UNITS, load_foods
from dryhouse.handbook.reading import HandbookFault, read, sources
from dryhouse.handbook.spelling import words
from dryhouse.handbook.tables import ANIMAL_CATEGORIES, CATEGORIES, Food
from tests.rows import every_row

FOODS = list(load_foods().values())
every_food = every_row("food", FOODS, ids=lambda food: food.slug)
COMPOSITION = ("protein", "fat", "carbohydrate")


def value(food: Food, name: str) -> float | None:
    fact = food.fact(name)
    return None if fact is None else fact.value


def test_the_shelf_is_well_filled():
    assert len(FOODS) >= 130
    per_category = {c: sum(f.category == c for f in FOODS) for c in CATEGORIES}
    for category, least in {
        "vegetable": 40, "fruit": 30, "herb": 12, "mushroom": 5, "legume": 10, "grain": 8,
        "meat": 10, "poultry": 4, "fish": 4, "egg": 1, "dairy": 1, "mixed": 5,
    }.items():  # fmt: skip
        assert per_category[category] >= least, category


def test_no_name_means_two_foods():
    owner: dict[str, str] = {}
    for food in FOODS:
        for name in (food.name, *food.other_names):
            key = " ".join(sorted(words(name)))
            assert owner.setdefault(key, food.slug) == food.slug, f"{name}: {owner[key]} and {food.slug}"


@every_food
def test_a_food_is_named_and_sorted(food):
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", food.slug)
    assert food.name
    for name in (food.name, *food.other_names):
        assert re.fullmatch(r"[^\W_][\w ,'’.%/()-]*", name), name
        assert name == name.strip()
    assert food.category in CATEGORIES
    assert food.traits <= TRAITS


@every_food
def test_every_figure_names_its_source(food):
    cited = [source.citation for source in sources().values()]
    for named in (*food.facts.values(), *food.sayings.values(), *food.measures):
        assert any(named.source.startswith(citation) for citation in cited), named
        assert named.how in reading.HOW, named


@every_food
def test_figures_are_possible(food):
    for name, fact in food.facts.items():
        assert fact.unit == UNITS[name]
        assert fact.value >= 0, name
        for low, high in ((fact.low, fact.value), (fact.value, fact.high)):
            assert low is None or high is None or low <= high, name
    for name in ("water", "refuse", "target_moisture", "dried_water"):
        assert (value(food, name) or 0) < 100, name
    temperature = food.fact("drying_temperature")
    if temperature is not None:
        assert (temperature.low or temperature.value) >= 30
        assert (temperature.high or temperature.value) <= 71, "no home dryer, no published home figure"
    hours = food.fact("drying_hours")
    if hours is not None:
        assert hours.low is not None
        assert hours.high is not None
        assert 1 <= hours.low < hours.high <= 48


@every_food
def test_composition_fits_into_a_hundred_grams(food):
    """SR28 finds carbohydrate by difference, so water and the three add up to 100 less the ash."""
    parts = [value(food, name) for name in ("water", *COMPOSITION)]
    if None in parts:
        return
    assert 75 <= sum(parts) <= 100.5
    matter = 100 - parts[0]
    energy = value(food, "energy")
    atwater = 4 * parts[1] + 9 * parts[2] + 4 * parts[3]
    assert 1.0 <= energy / matter <= 9.2, "kcal per gram of dry matter lies between straw and oil"
    assert 0.5 * atwater <= energy <= 1.15 * atwater
    assert (value(food, "fibre") or 0) <= parts[3] + 0.05


@every_food
def test_drying_takes_water_away(food):
    water, target = value(food, "water"), value(food, "target_moisture")
    assert water is None or target is None or target < water


@every_food
def test_household_measures_weigh_what_food_weighs(food):
    for measure in food.measures:
        assert 0.02 <= measure.density <= 1.2, measure
    assert len({(m.state, m.cut) for m in food.measures}) == len(food.measures)


def test_a_cup_of_fresh_corn_weighs_145_g():
    """USDA SR28, NDB 11167, 1 cup."""
    (cup,) = load_foods()["corn"].measures_for("fresh")
    assert (round(cup.ml, 1), cup.grams) == (236.6, 145)


def test_a_cup_of_beans_is_a_cup_of_cooked_beans():
    """USDA SR28, NDB 16015, boiled, 1 cup: 172 g. Beans go on the trays cooked, so there is no fresh cup."""
    beans = load_foods()["black-bean"]
    assert beans.measures_for("fresh") == beans.measures_for("cooked")
    assert [cup.grams for cup in beans.measures_for("fresh")] == [172]
    assert beans.measures_for("dried") == ()


def test_targets_are_the_home_targets():
    """Utah State University Extension: vegetables 10 %, fruits 20 %, never the 27 to 32 % of the trade."""
    for food in FOODS:
        target = value(food, "target_moisture")
        if food.category in ("vegetable", "mushroom"):
            assert target == 10, food.slug
        if food.category == "fruit" and food.slug not in ("avocado", "coconut"):
            assert target == (10 if food.slug == "rhubarb" else 20), food.slug


def test_nobody_is_told_when_jerky_raw_fish_egg_or_dairy_are_dry_by_weight():
    for food in FOODS:
        raw = food.category in ("egg", "dairy", "fish") and food.slug not in ("tuna-canned", "shrimp")
        if raw or "jerky" in food.traits:
            assert food.fact("target_moisture") is None, food.slug


def test_beans_with_a_lectin_are_boiled_hard():
    """FDA, Bad Bug Book: soak 5 hours, drain, boil 30 minutes in fresh water."""
    for food in FOODS:
        if "raw_bean" in food.traits:
            said = food.saying("pretreatment").text
            assert "5 h" in said, food.slug
            assert "boil hard" in said, food.slug
            assert "30 min" in said, food.slug


def test_oily_fruits_have_no_published_target():
    for slug in ("avocado", "coconut"):
        assert load_foods()[slug].fact("target_moisture") is None


def test_fish_is_heated_before_it_is_dried():
    """Washington State University Extension: 160 °F held for 30 minutes."""
    for food in FOODS:
        if food.category == "fish" and food.slug not in ("tuna-canned", "shrimp"):
            assert "160 °F" in food.saying("pretreatment").text, food.slug


def test_raw_egg_and_dairy_get_no_drying_advice():
    for slug in ("egg", "milk", "cheese", "cottage-cheese", "yogurt"):
        food = load_foods()[slug]
        assert not {"drying_temperature", "drying_hours"} & set(food.facts), slug


def test_historic_tables_give_no_advice():
    for food in FOODS:
        for named in (*food.facts.values(), *food.sayings.values()):
            assert "1918" not in named.source
            assert "1919" not in named.source


@every_food
def test_traits_that_the_cautions_rest_on(food):
    assert not {"acid", "low_acid"} <= food.traits
    if food.category in ANIMAL_CATEGORIES:
        assert food.animal
        assert {"animal", "low_acid"} <= food.traits
    if food.category in ("poultry", "fish", "egg", "dairy", "fruit", "vegetable", "herb"):
        assert food.category in food.traits
    if food.category == "mushroom":
        assert {"mushroom", "low_acid"} <= food.traits
    if food.category == "legume" and "bean" in food.name and food.slug not in ("refried-beans", "mung-sprout"):
        assert "raw_bean" in food.traits
    if food.category == "grain":
        assert "cooked_starch" in food.traits
    if food.name.startswith("ground ") and food.animal:
        assert "ground" in food.traits
    if "strips for jerky" in food.name:
        assert "jerky" in food.traits


def test_traits_of_some_foods():
    foods = load_foods()
    for slug in ("venison-jerky", "ground-venison", "elk-jerky", "bear", "wild-boar", "moose-jerky"):
        assert "game" in foods[slug].traits
    assert "garlic" in foods["garlic"].traits
    assert "acid" in foods["tomato"].traits
    assert foods["tomato"].category == "vegetable"
    for slug in ("chili-meat", "meat-sauce", "stew-meat", "soup-meat", "casserole-meat", "curry-meat"):
        assert foods[slug].animal, slug
    for slug in ("chili-bean", "vegetable-stew", "tomato-sauce", "corn", "kidney-bean"):
        assert not foods[slug].animal, slug
    assert "egg" in foods["egg-noodles"].traits


def test_meat_is_heated_before_it_is_dried():
    """FSIS, Jerky and Food Safety: 160 °F for meat, 165 °F for poultry, before the dryer; CDC: 165 °F for game."""
    for food in FOODS:
        if food.category == "meat" and ("jerky" in food.traits or "ground" in food.traits):
            asked = "165 °F" if "game" in food.traits else "160 °F"
            assert asked in food.saying("pretreatment").text, food.slug
        if food.category == "poultry":
            assert "165 °F" in food.saying("pretreatment").text, food.slug


def test_water_carries_the_samples_it_rests_on():
    corn, cherry = (load_foods()[slug].fact("water") for slug in ("corn", "sour-cherry"))
    assert (corn.value, corn.n, corn.standard_error) == (76.05, 103, 0.863)
    assert (cherry.value, cherry.n, cherry.standard_error) == (86.13, 348, None)
    with_n = [f for f in FOODS if f.fact("water") and f.fact("water").n]
    assert len(with_n) > 150


# Tables that break the rules -----------------------------------------------------------------------


@pytest.fixture
def tables(tmp_path, monkeypatch):
    """Tables of our own in place of the shipped ones."""
    (tmp_path / "sources.toml").write_text('[book]\ncitation = "A book"\nhow = "read"\n')
    monkeypatch.setattr(reading, "FOLDER", tmp_path)
    reading.sources.cache_clear()
    write(tmp_path, "foods", "slug,name,other_names,category,traits,composition_of", "pea,pea,,vegetable,low_acid,")
    write(tmp_path, "facts", FACTS)
    write(tmp_path, "sayings", "food,name,text,source,how")
    write(tmp_path, "measures", "food,state,cut,ml,grams,source,locator,how")
    yield tmp_path
    reading.sources.cache_clear()


FACTS = "food,name,value,low,high,unit,n,standard_error,source,locator,how,note"


def write(folder, table, *lines):
    (folder / f"{table}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


def test_a_table_in_order_is_read(tables):
    write(tables, "facts", FACTS, "pea,water,78.9,,,% wet basis,10,0.4,book,p. 3,,raw")
    fact = load_foods.__wrapped__()["pea"].fact("water")
    assert (fact.value, fact.n, fact.standard_error, fact.note) == (78.9, 10, 0.4, "raw")
    assert fact.source == "A book, p. 3"
    assert fact.how == "read"


@pytest.mark.parametrize(
    ("table", "lines", "said"),
    [
        ("facts", [FACTS, "pea,water,78.9,,,g,,,book,,,"], "% wet basis"),
        ("facts", [FACTS, "pea,colour,1,,,g,,,book,,,"], "no unit we know"),
        ("facts", [FACTS, "pea,water,,,,% wet basis,,,book,,,"], "empty"),
        ("facts", [FACTS, "pea,water,wet,,,% wet basis,,,book,,,"], "no number"),
        ("facts", [FACTS, "pea,water,78.9,,,% wet basis,,,hearsay,,,"], "hearsay"),
        ("facts", [FACTS, "pea,water,78.9,,,% wet basis,,,book,,guessed,"], "guessed"),
        ("facts", [FACTS, "bean,water,78.9,,,% wet basis,,,book,,,"], "bean"),
        ("facts", [FACTS, *["pea,water,78.9,,,% wet basis,,,book,,,"] * 2], "twice"),
        ("sayings", ["food,name,text,source,how", "pea,gossip,Nice.,book,"], "gossip"),
        ("measures", ["food,state,cut,ml,grams,source,locator,how", "pea,soggy,,240,145,book,,"], "soggy"),
        ("foods", ["slug,name,other_names,category,traits,composition_of", "pea,pea,,pulse,,"], "pulse"),
        ("foods", ["slug,name,other_names,category,traits,composition_of", "pea,pea,,vegetable,shiny,"], "shiny"),
        ("foods", ["slug,name,category", "pea,pea,vegetable"], "columns"),
    ],
)
def test_a_table_that_breaks_the_rules_is_refused(tables, table, lines, said):
    write(tables, table, *lines)
    with pytest.raises(HandbookFault, match=said):
        load_foods.__wrapped__()


def test_composition_stands_beside_the_entry_it_is_of():
    """The entry number in foods.csv is the one the food's water is quoted from."""
    columns = ("slug", "name", "other_names", "category", "traits", "composition_of")
    for row in read("foods", columns):
        water = load_foods()[row.text("slug")].fact("water")
        if row.text("composition_of"):
            assert water.source.endswith(row.text("composition_of"))
