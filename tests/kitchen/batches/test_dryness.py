"""One batch has one verdict, wherever it is asked."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from dryhouse.cli import main
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.batches.dryness import judged, learned, verdicts_of
from dryhouse.kitchen.batches.log import BatchDraft, log_batch
from dryhouse.kitchen.cards.batch_card import batch_card, draft_card
from dryhouse.kitchen.cards.batch_list import batch_items
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, Change
from dryhouse.kitchen.records import Batch, BatchPart, OwnFood
from dryhouse.kitchen.shelf.book import ShelfBook
from dryhouse.science.moisture import LoadPart, load_of
from dryhouse.science.quantities import Mass, Volume
from dryhouse.science.statuses import FigureId, Lack
from dryhouse.science.values import Fact
from tests.kitchen.shelf_room import NOW, ROOM, a_batch, a_shelf, packed
from tests.rows import every_row


@pytest.mark.parametrize(
    ("dried", "felt", "word"),
    [
        (250.0, "brittle", "dry enough"),
        (230.0, "", "probably dry"),
        (266.0, "", "nearly"),
        (330.0, "sticky", "still moist"),
        (90.0, "", "weights don't add up"),
    ],
)
def test_card_form_list_run_shelf_and_command_line_say_one_verdict(tmp_path, capsys, dried, felt, word):
    file = tmp_path / "j.dryhouse"
    journal = open_journal(file, write=True)
    batch = a_batch(dried_mass=Mass(dried), felt=felt)
    journal.write([Change(None, r) for r in (*ROOM, batch)])
    kitchen = Kitchen(journal, a_shelf().handbook, lambda: NOW)
    lot = packed(kitchen)
    card, run = batch_card(kitchen, 1), run_of(kitchen, 1)
    said = [
        card.verdict,
        draft_card(kitchen, BatchDraft(batch)).verdict,
        run.verdict,
        ShelfBook.read(kitchen).verdict(lot),
        verdicts_of(kitchen, batch)[0],
    ]
    assert {found.name for found in said} == {word}
    assert len({found.probability for found in said}) == 1
    moisture = card.figure(FigureId.MOISTURE_NOW)
    (item,) = batch_items(kitchen, BatchQuery())
    assert (item["verdict"], item["dry_enough_probability"]) == (word, card.verdict.probability)
    assert item["moisture"] is None if moisture is None else item["moisture"]["value"] == moisture.value
    if moisture is not None:
        assert run.moisture.value == moisture.value
        assert run.target_mass.value == pytest.approx(card.figure(FigureId.TARGET_WEIGHT).value)
    journal.close()

    def answer(*arguments):
        assert main(["--journal", str(file), *arguments, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    (listed,), (shelved,) = answer("batches")["items"], answer("shelf")["items"]
    assert listed["verdict"] == word
    assert (shelved["verdict"] or word) == word
    assert shelved["dry_enough_probability"] == card.verdict.probability


@every_row(
    "batch",
    [
        a_batch(dried_mass=None),
        a_batch(prepared_mass=None),
        a_batch(dried_mass=Mass(0.0)),
        a_batch("no-such-food"),
    ],
)
def test_too_little_known_is_unknown_and_counts_neither_way(batch: Batch):
    for found in verdicts_of(a_shelf(), batch):
        assert (found.name, found.dry, found.in_doubt, found.probability) == ("unknown", None, False, None)


def test_what_keeps_goes_by_the_drier_of_the_two_targets():
    own, kept = verdicts_of(a_shelf(), a_batch(dried_mass=Mass(360.0), felt="", target_moisture_pct=45.0))
    assert own.dry is True
    assert kept.dry is False


def test_a_mix_is_judged_by_its_ingredients_whether_they_are_handed_over_or_looked_up():
    kitchen = a_shelf()
    parts = (BatchPart(0, 0, "corn", Mass(500)), BatchPart(0, 1, "apple", Mass(500)))
    id = log_batch(kitchen, BatchDraft(a_batch(dried_mass=Mass(190.0), felt="", id=0), parts)).record.id
    batch = kitchen.journal.get(Batch, id)
    looked_up, handed_over = verdicts_of(kitchen, batch), verdicts_of(kitchen, batch, parts)
    assert looked_up == handed_over
    assert looked_up[0].name != verdicts_of(kitchen, batch, ())[0].name


def test_half_a_gram_of_herbs_is_judged_too():
    tiny = a_batch("parsley", prepared_mass=Mass(4.0), dried_mass=Mass(0.6), felt="")
    assert verdicts_of(a_shelf(), tiny)[0].dry is not None


def test_what_was_only_measured_in_cups_lacks_its_weight():
    cups = a_batch(prepared_mass=None, prepared_volume=Volume(1400.0))
    assert verdicts_of(a_shelf(cups), cups)[0].lacks == (Lack.LOADED,)
    strange = a_batch("moon-fruit", prepared_mass=None, cooked_mass_out=Mass(900.0))
    kitchen = a_shelf(OwnFood("moon-fruit", "moon fruit", "mixed", contains="plant", id=1), strange)
    assert verdicts_of(kitchen, strange)[0].lacks == (Lack.START_MOISTURE, Lack.TARGET)


@every_row(
    ("batch", "load", "target", "lacks"),
    [
        ({"dried_mass": Mass(250)}, None, 10.0, (Lack.LOADED,)),
        ({"dried_mass": Mass(250), "prepared_mass": Mass(1000)}, None, 10.0, (Lack.START_MOISTURE,)),
        ({"dried_mass": Mass(250), "prepared_volume": Volume(900)}, None, 10.0, (Lack.LOADED,)),
        ({"dried_mass": Mass(250), "cooked_mass_out": Mass(900)}, None, 10.0, (Lack.START_MOISTURE,)),
        ({}, 1000.0, 10.0, (Lack.DRIED,)),
        ({"dried_mass": Mass(0)}, 1000.0, 10.0, (Lack.DRIED,)),
        ({"dried_mass": Mass(250)}, 1000.0, None, (Lack.TARGET,)),
        ({}, None, None, (Lack.LOADED, Lack.DRIED, Lack.TARGET)),
        ({"dried_mass": Mass(250)}, 1000.0, 10.0, None),
        ({"dried_mass": Mass(0.5)}, 2.0, 10.0, None),
    ],
)
def test_what_a_verdict_lacks_is_named_and_nothing_else(batch, load, target, lacks):
    weighed = None if load is None else load_of([LoadPart("corn", load, Fact(76.0, "%", "a test's own figure"))])
    wanted = None if target is None else Fact(target, "%", "a test's own figure")
    found = judged(Batch("corn", **batch), weighed, wanted)
    if lacks is None:
        assert found.name != "unknown"
    else:
        assert (found.name, found.lacks) == ("unknown", lacks)


def test_half_of_what_a_curve_taught_is_nothing():
    whole = Batch("corn", curve_low=0.22, curve_dry=0.24, curve_high=0.26)
    assert learned(whole) is not None
    for name in ("curve_low", "curve_dry", "curve_high"):
        assert learned(replace(whole, **{name: None})) is None
