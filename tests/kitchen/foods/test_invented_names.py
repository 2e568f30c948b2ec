"""Names nobody thought of: none becomes another food, and no animal comes in without its stop."""

import pytest

from dryhouse.handbook.finder import WhichFood
from dryhouse.handbook.reader import handbook
from dryhouse.kitchen.cautions.cautions import batch_cautions
from dryhouse.kitchen.foods.catalog import food
from dryhouse.kitchen.foods.not_yet_written import with_food
from dryhouse.kitchen.foods.own_foods import ReallyPlant, new_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.science.errors import InputProblem
from tests.builders import NOW
from tests.fakes import FakeJournal
from tests.rows import every_row

ANIMAL = """
venison chili; duck eggs; duck breast; smoked venison; turkey jerky sticks; duck; goose; bacon; sausage;
salami sticks; steak; liver; veal; crab; sardines; mackerel; minced meat; pâté; pemmican; bone broth; egg
white; butter; feta; mozzarella; lasagna; tuna casserole; quail eggs; hot dogs; crickets; lean beef; meatball
soup; lamb curry; goat stew; rabbit pie filling; pheasant strips; squirrel stew; beaver tail; muskrat;
raccoon; alligator bites; frog legs; snails; oxtail soup; tripe; kidneys; beef tongue; pork belly; pulled
pork; ham hock; corned beef; pastrami; chorizo hash; pepperoni; bratwurst; meatloaf; sloppy joes; shepherd's
pie; beef stroganoff; chicken noodles; chicken wings; hen; rooster soup; goose liver; grouse; partridge;
pigeon pie; ostrich strips; salmon patties; smoked trout; pickled herring; anchovies; eel; catfish; pike
cakes; perch chowder; clam chowder; oysters; mussels; scallops; lobster; crayfish; squid; octopus; shrimp
gumbo; fish sauce; caviar; omelet; egg salad; quiche; custard; eggnog; scrambled duck egg; goat cheese; cream
cheese; sour cream; ice cream; buttermilk; ghee; kefir; parmesan rind; milk pudding; mac and cheese; beef and
barley; elk burger; moose roast; bear sausage; wild hare; horse meat; whale; snake; turtle soup; kangaroo
steak; carne asada; pollo con arroz; jamón; huevos rancheros; pescado frito; camarones; chorizo y papas; caldo
de res; queso fresco; albóndigas; cordero; pato; atún; boeuf bourguignon; coq au vin; blanquette de veau;
poulet basquaise; saumon fumé; oeufs brouillés; crème fraîche; lapin à la moutarde; canard confit; moules;
fromage de chèvre; jambon; magret d'oie; Hühnersuppe; Rindergulasch; Schweinebraten; Hackfleisch; Leberknödel;
Forelle; Heringssalat; Käsespätzle; Rehrücken; Hähnchenbrust; Rührei; Putenstreifen; Wildschweinragout;
Quarkspeise; ragù di cinghiale; polpette; uova; pollo alla cacciatora; vitello tonnato; baccalà; prosciutto;
formaggio; gamberetti; kippensoep; gehaktballen; zalmfilet; rundvlees; eiersalade; mosselen; spekjes;
kødboller; frikadeller; kyllingesuppe; laksefilet; flæskesteg; rejer; æggesalat; kjøttkaker; reinsdyrgryte;
torsk i fløtesaus; elgkarbonader; köttbullar; laxsoppa; älggryta; kycklinggryta; renskav; räkor; ägg;
korvstroganoff
"""

MISSPELT = {
    "carrott": "carrot", "tomatto": "tomato", "onoin": "onion", "zuchini": "zucchini", "appel": "apple",
    "chiken": "chicken", "salmn": "salmon", "venisn": "venison-jerky", "turky": "turkey", "brocolli": "broccoli",
    "steek": None, "chikin": None, "ducck": None, "bacn": None, "muton": "lamb-jerky",
    "vinison": "venison-jerky", "hadock": "haddock",
    "sardin": None, "goos": None, "eeggs": None, "beeff": None, "porc chop": None, "shrims": "shrimp",
}  # fmt: skip
"""What is typed, and the one food it is one letter away from; None where it is to be asked about."""

OTHERS = """
lotus root; minestrone soup; sea buckthorn; kombucha leather; banana peel; turkey berry; seitan; lean
cuisine; bay bolete; jicama sticks; cactus paddles; burdock root; water chestnut; bamboo shoots; hops;
samphire; kudzu; purslane; sorrel soup; peach melba; cherry pie filling; corn fritters; squash blossom; garden
salad; potato pancakes
"""

PLANTS = """
king oyster; pearl oyster mushroom; hen of the woods; chicken of the woods; lobster mushroom; beefsteak
mushroom; turkey tail; lion's mane; saffron milk cap; deer mushroom; horse chestnut; lamb's quarters; lamb's
lettuce; sheep sorrel; duck potato; chickweed; henbit; goosefoot; goose grass; goat's beard; pigweed; hogweed;
sow thistle; catfish mint; fish mint; bear garlic; bear berry; buffalo berry; partridge berry; salmon berry;
crab grass; cow parsnip; cowpea; cockscomb; ox heart tomato; beefsteak tomato; kidney vetch; milk thistle;
coconut milk; cocoa butter; almond butter; oat milk; eggfruit; snake gourd; turtle bean; kangaroo apple;
custard apple; ostrich fern; vegetable marrow
"""


def listed(text):
    return [name.strip() for name in " ".join(text.split()).split(";") if name.strip()]


def a_full_kitchen():
    return Kitchen(FakeJournal(), handbook(), lambda: NOW)


def stops_of(own):
    kitchen = with_food(a_full_kitchen(), own)
    return {c.rule for c in batch_cautions(kitchen, Batch(own.slug)) if c.severity == "stop"}


def test_there_are_enough_of_them():
    assert len(listed(ANIMAL)) + len(MISSPELT) + len(listed(OTHERS)) >= 200
    assert len(listed(PLANTS)) >= 40


def test_no_animal_dish_is_taken_for_another_food_and_none_comes_in_without_a_stop():
    for name in listed(ANIMAL):
        try:
            known = food(a_full_kitchen(), name)
        except WhichFood:
            for answers in ((), ("unknown",), ("meat",), ("milk", "plant")):
                assert stops_of(new_food(a_full_kitchen(), name, answers)), (name, answers)
        else:
            assert known.animal, name
            assert {c.rule for c in batch_cautions(a_full_kitchen(), Batch(known.slug)) if c.severity == "stop"}


def test_an_animal_dish_said_to_be_plants_only_is_asked_about_once_more():
    for name in listed(ANIMAL):
        with pytest.raises(InputProblem) as asked:
            new_food(a_full_kitchen(), name, ("plant",))
        if handbook().animal_named(name, exactly=True) is None:
            assert isinstance(asked.value, ReallyPlant), name
        else:
            assert not isinstance(asked.value, ReallyPlant), f"{name}: a yes would be refused, so it is not asked"
            assert "give it a name of its own" in str(asked.value)
        own = new_food(a_full_kitchen(), name, ("plant",), really_plant=True)
        assert own.contains == "plant"


def test_only_one_clear_slip_is_forgiven():
    for typed, slug in MISSPELT.items():
        if slug is None:
            with pytest.raises(WhichFood):
                food(a_full_kitchen(), typed)
        else:
            assert food(a_full_kitchen(), typed).slug == slug, typed


def test_two_slips_are_too_many_and_a_name_with_an_animals_word_is_no_plant():
    for typed in ("strewbarry", "crab aple", "oyster mushrom", "turkey bery"):
        with pytest.raises(WhichFood):
            food(a_full_kitchen(), typed)


def test_a_kind_alone_does_not_say_what_is_in_it():
    own = new_food(a_full_kitchen(), "lotus root", category="vegetable")
    assert own.contains == ""
    assert "ingredients-unknown" in stops_of(own)
    sure = new_food(a_full_kitchen(), "lotus root", ("plant",), "vegetable")
    assert not stops_of(sure)


def test_what_is_not_known_is_asked_about():
    for name in listed(OTHERS):
        with pytest.raises(WhichFood):
            food(a_full_kitchen(), name)
        own = new_food(a_full_kitchen(), name)
        assert own.name == name
        assert "ingredients-unknown" in stops_of(own), name


def test_a_plant_with_an_animals_word_in_its_name_is_taken_after_one_answer_and_has_no_stop():
    for name in listed(PLANTS):
        own = new_food(a_full_kitchen(), name, ("plant",))
        assert own.contains == "plant"
        assert not stops_of(own), name


@every_row(
    "name",
    [
        "eggplant",
        "butternut",
        "crab apple",
        "oyster mushroom",
        "horseradish",
        "kidney beans",
        "chickpeas",
        "gooseberry",
    ],
)
def test_the_handbooks_own_plants_with_an_animals_word_have_no_animal_stop(name):
    known = food(a_full_kitchen(), name)
    assert not known.animal
    said = {c.rule for c in batch_cautions(a_full_kitchen(), Batch(known.slug)) if c.severity == "stop"}
    assert not {rule for rule in said if rule.startswith(("heat-", "ingredients-", "egg-", "dairy-"))}
