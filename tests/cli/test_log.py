"""The command line records all that the form can, and refuses what the form refuses."""

import json

import pytest

from dryhouse.cli import main
from dryhouse.house import open_kitchen
from dryhouse.kitchen.batches.typed import ENTRIES
from dryhouse.kitchen.records import Batch, BatchPart, Dryer

ALL = {
    "title": "for the lake", "form": "strips", "thickness": "1/4 in", "made_from": "frozen", "purchased": "3 lb",
    "fresh": "2 lb", "fresh_volume": "6 cups", "pretreatment": "sliced", "precook_method": "steamed",
    "precook": "170 F", "precook_measured": "thermometer", "precook_held": "30 min", "finish": "275 F",
    "finish_held": "10 min", "identified": "bought", "cooked_in": "2 lb 8 oz", "cooked_out": "2 lb",
    "drained_fat": "1 oz", "drained_liquid": "2 oz",
    "test_sample": "20 g", "test_dry": "6.4 g", "dryer": "shelf", "trays": "3", "temp": "155 F",
    "kitchen_temp": "70 F", "humidity": "45", "start_moisture": "66", "moisture": "10", "dried": "10 oz",
    "dried_volume": "2 cups", "energy_kwh": "3.5", "notes": "crisp", "rating": "4",
}  # fmt: skip


@pytest.fixture
def journal(tmp_path):
    file = tmp_path / "journal.dryhouse"
    with open_kitchen(file, write=True) as kitchen:
        from dryhouse.kitchen.batches.dryers import save_dryer

        save_dryer(kitchen, Dryer("shelf dryer", 6))
    return file


def log(journal, *words):
    return main(["--journal", str(journal), "log", *words])


def options(entries):
    return [word for entry, text in entries.items() for word in (f"--{entry.replace('_', '-')}", text)]


def the_batch(journal):
    with open_kitchen(journal) as kitchen:
        return kitchen.journal.where(Batch)[-1]


def test_what_is_given_by_an_option_is_recorded(journal, capsys):
    assert log(journal, "--food", "turkey", "--start", "2026-11-20 18:00", "--hours", "9", *options(ALL)) == 0
    batch = the_batch(journal)
    for entry in ALL:
        shape = ENTRIES[entry]
        value = getattr(batch, shape.name)
        assert value not in (None, ""), entry
        if shape.quantity is not None:
            assert value.typed == ALL[entry]
    assert batch.precook_method == "simmered or steamed"
    assert batch.precook_held.si == 1800
    assert (batch.trays, batch.rating, batch.made_from) == (3, 4, "frozen")


def test_how_a_piece_feels_and_that_the_moisture_was_tested_are_recorded(journal, capsys):
    given = ("--food", "corn", "--fresh", "2 lb", "--dried", "8 oz", "--felt", "brittle")
    assert log(journal, *given, "--start-moisture", "76", "--start-moisture-tested") == 0
    assert (the_batch(journal).felt, the_batch(journal).start_moisture_tested) == ("brittle", True)
    assert log(journal, *given[:6]) == 0
    assert (the_batch(journal).felt, the_batch(journal).start_moisture_tested) == ("", None)


def test_a_dry_matter_test_is_given_in_one_or_in_two(journal, capsys):
    given = ("--food", "corn", "--fresh", "2 lb", "--dried", "8 oz")
    assert log(journal, *given, "--dry-matter-test", "20 g, 5.1 g") == 0
    in_one = the_batch(journal)
    assert (in_one.test_sample.si, in_one.test_dry.si, in_one.start_moisture_tested) == (20.0, 5.1, True)
    assert log(journal, *given, "--test-sample", "20 g", "--test-dry", "5.1 g") == 0
    assert the_batch(journal).test_dry == in_one.test_dry
    capsys.readouterr()
    assert log(journal, *given, "--dry-matter-test", "20 g") == 2
    assert "20 g, 1.9 g" in capsys.readouterr().err
    assert log(journal, *given, "--dry-matter-test", "20 g, 5 g", "--test-dry", "5 g") == 2
    assert "twice" in capsys.readouterr().err
    assert log(journal, *given, "--dry-matter-test", "5 g, 20 g") == 2
    assert "swapped" in capsys.readouterr().err


COOKED = ("--food", "turkey", "--fresh", "2 lb", "--dried", "7.5 oz", "--precook", "165 F")


def test_a_raw_weight_typed_for_cooked_food_is_asked_about_and_kept_if_she_says_so(journal, capsys):
    assert log(journal, *COOKED) == 2
    assert "Was 2 lb the weight before cooking?" in capsys.readouterr().err
    with open_kitchen(journal) as kitchen:
        assert not kitchen.journal.where(Batch)
    assert log(journal, *COOKED, "--keep-anyway") == 0
    assert the_batch(journal).dried_mass.typed == "7.5 oz"


def test_with_the_weight_before_cooking_told_it_is_not_asked_about(journal, capsys):
    loaded = ("--fresh", "1 lb 7 oz", "--cooked-in", "2 lb", "--cooked-out", "1 lb 7 oz")
    assert log(journal, *COOKED[:2], *loaded, *COOKED[4:]) == 0


def test_weights_far_below_the_dry_matter_are_asked_about(journal, capsys):
    assert log(journal, "--food", "corn", "--fresh", "1 lb", "--dried", "0.5 oz") == 2
    said = capsys.readouterr().err
    assert "0.5 oz is less than the dry matter in 1 lb, at least" in said
    assert "tare taken off twice?" in said


def test_what_was_heated_is_echoed_in_both_scales(journal, capsys):
    words = ("--fresh", "2 lb", "--dried", "11 oz", "--precook", "166", "--finish", "275 F", "--json")
    assert log(journal, "--food", "turkey", *words) == 0
    said = " ".join(json.loads(capsys.readouterr().out)["sentences"])
    assert "Precooked to 166 °F (74 °C)" in said
    assert "275 °F (135 °C)" in said
    assert "lifts no caution" in said


def test_a_mix_is_logged_by_its_ingredients(journal, capsys):
    words = ("--part", "ground beef=1 lb", "--part", "onion = 8 oz", "--dried", "9 oz")
    assert log(journal, "--food", "chili pot", "--contains", "meat", "--contains", "plant", *words) == 0
    assert "STOP" in capsys.readouterr().out
    with open_kitchen(journal) as kitchen:
        parts = kitchen.journal.where(BatchPart)
    assert [(p.food, p.mass.typed) for p in parts] == [("ground-beef", "1 lb"), ("onion", "8 oz")]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--fresh", "2 lb", "--dried", "9 oz", "--precook", "160 C"), "Did you mean 160 F?"),
        (("--fresh", "2 lb", "--dried", "9 oz", "--precook", "350 F"), "boiling water"),
        (
            ("--fresh", "2 lb", "--dried", "9 oz", "--precook-method", "sun"),
            "simmered or steamed, roasted in an oven",
        ),
        (("--fresh", "2 lb", "--dried", "9 oz", "--precook-measured", "guess"), "thermometer, not measured"),
        (("--fresh", "2 lb", "--dried", "9 oz", "--made-from", "air"), "fresh, frozen, canned, cooked"),
        (("--fresh", "2 lb", "--dried", "9 oz", "--finish", "900 F"), "between 104 and 500"),
        (("--fresh", "2 lb", "--dried", "9 oz", "--rating", "9"), "1 to 5"),
        (("--dried", "9 oz"), "What was loaded?"),
        (("--fresh", "2 lb"), "What did it weigh dry?"),
        (("--dried", "9 oz", "--part", "onion"), "turkey=8 oz"),
        (("--dried", "9 oz", "--part", "moon rock=8 oz"), "Ingredient 1"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence_and_nothing_is_recorded(journal, capsys, words, said):
    assert log(journal, "--food", "turkey", *words) == 2
    err = capsys.readouterr().err
    assert said in err
    assert len(err.strip().splitlines()) == 1
    with open_kitchen(journal) as kitchen:
        assert kitchen.journal.where(Batch) == ()


def test_every_entry_of_the_form_has_its_option(capsys):
    with pytest.raises(SystemExit):
        main(["log", "--help"])
    said = " ".join(capsys.readouterr().out.split())
    assert "how long it was held at that temperature" in said
    assert "kitchen humidity, %" in said
    for entry in ENTRIES:
        assert f"--{entry.replace('_', '-')} " in said


def test_the_same_again_takes_what_is_done_and_nothing_that_was_measured(capsys, tmp_path) -> None:
    journal = str(tmp_path / "mine.dryhouse")

    def log(*arguments: str) -> tuple[int, str]:
        code = main(["--journal", journal, "log", *arguments])
        said = capsys.readouterr()
        return code, said.out + said.err

    first = (
        "--food",
        "apple",
        "--fresh",
        "2 lb",
        "--dried",
        "5 oz",
        "--temp",
        "135 F",
        "--form",
        "rings",
        "--trays",
        "3",
    )
    assert log(*first, "--hours", "9h")[0] == 0
    assert log("--like", "1", "--fresh", "3 lb", "--dried", "8 oz")[0] == 0
    with open_kitchen(tmp_path / "mine.dryhouse") as kitchen:
        again = kitchen.journal.get(Batch, 2)
        assert (again.food, again.form, again.trays) == ("apple", "rings", 3)
        assert again.set_temperature.typed == "135 F"
        assert (again.prepared_mass.typed, again.dried_mass.typed) == ("3 lb", "8 oz")
    code, said = log("--like", "1", "--dried", "8 oz")
    assert (code, "What was loaded" in said) == (2, True)
    code, said = log("--like", "77", "--fresh", "3 lb", "--dried", "8 oz")
    assert (code, "no batch" in said) == (2, True)
    code, said = log("--fresh", "3 lb", "--dried", "8 oz")
    assert (code, "--like" in said) == (2, True)


def test_a_mix_is_made_again_with_its_ingredients_and_its_meat_is_asked_for_anew(capsys, tmp_path) -> None:
    journal = tmp_path / "mine.dryhouse"
    made = ["--contains", "poultry", "--part", "turkey, cooked=8 oz", "--part", "carrot=4 oz", "--precook", "165 F"]
    code = main(["--journal", str(journal), "log", "--food", "lake pot", "--dried", "4 oz", *made])
    said = capsys.readouterr()
    assert code == 0, said.err
    assert main(["--journal", str(journal), "log", "--like", "1", "--dried", "4.1 oz"]) == 0
    with open_kitchen(journal) as kitchen:
        again = kitchen.journal.get(Batch, 2)
        assert len(kitchen.journal.where(BatchPart, batch=2)) == 2
        assert again.precook_temperature is None


def test_grams_typed_are_grams_answered_whatever_the_journal_is_in(journal, capsys):
    assert log(journal, "--food", "carrot", "--fresh", "1 kg", "--dried", "180 g") == 0
    said = capsys.readouterr().out
    assert "50 g of water still to go" in said
    assert "Target weight: 130 g" in said
    assert log(journal, "--food", "carrot", "--fresh", "1 kg", "--dried", "30 g") == 2
    assert "30 g is less than the dry matter in 1 kg" in capsys.readouterr().err
    assert log(journal, "--food", "carrot", "--fresh", "2 lb", "--dried", "5 oz") == 0
    assert "0.8 oz of water still to go" in capsys.readouterr().out


def test_cups_typed_for_a_weight_are_kept_as_the_volume(journal, capsys):
    assert log(journal, "--food", "carrot", "--fresh", "3 cups", "--dried", "1 cup") == 0
    batch = the_batch(journal)
    assert (batch.prepared_volume.typed, batch.dried_volume.typed) == ("3 cups", "1 cup")
    assert batch.prepared_mass is batch.dried_mass is None
    assert "while nothing says how dry it is" not in capsys.readouterr().out
    assert log(journal, "--food", "carrot", "--fresh", "3 cups", "--dried", "40 g") == 0
    assert "No keep-by is given while nothing says how dry it is." in capsys.readouterr().out


@pytest.mark.parametrize("typed", ["125 C", "135 C", "160 C"])
def test_fahrenheit_typed_as_celsius_is_asked_about(journal, capsys, typed):
    assert log(journal, "--food", "carrot", "--fresh", "1 kg", "--dried", "130 g", "--temp", typed) == 2
    assert "other scale" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--purchased", "0.5 kg"), "500 g bought is less than the 1 kg loaded. Are the two swapped?"),
        (("--fresh-volume", "1 cup", "--dried-volume", "3 qt"), "loaded. Are the two swapped?"),
        (("--moisture", "95"), "not below that of what was loaded (88 %)"),
        (("--start", "2026-11-20 18:00", "--end", "2026-11-21 03:00", "--hours", "6"), "9 h apart, not 6 h"),
    ],
)
def test_what_cannot_be_together_is_asked_about_and_nothing_is_recorded(journal, capsys, words, says):
    assert log(journal, "--food", "carrot", "--fresh", "1 kg", "--dried", "130 g", *words) == 2
    assert says in capsys.readouterr().err
    with open_kitchen(journal) as kitchen:
        assert not kitchen.journal.where(Batch)


def test_what_was_cooked_or_drained_may_weigh_more_than_was_bought_and_hours_are_round(journal):
    times = ("--start", "2026-11-20 18:00", "--end", "2026-11-21 03:10", "--hours", "9")
    assert log(journal, "--food", "lentil", "--fresh", "1 kg", "--dried", "330 g", "--purchased", "400 g") == 0
    raw = ("--fresh", "1 kg", "--dried", "130 g", "--purchased", "1.2 kg")
    assert log(journal, "--food", "carrot", *raw, *times) == 0
    batch = the_batch(journal)
    assert (batch.ended - batch.started).total_seconds() == 9 * 3600 + 600, "two times say more than round hours"
