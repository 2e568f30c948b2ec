"""The step from the first journals to those that record what answers a question of safety."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from dryhouse.journal.backup_names import backups_of
from dryhouse.journal.opening import open_journal
from dryhouse.kitchen.records import Batch, Lot, OwnFood
from dryhouse.science.errors import WorldProblem

FIRST = Path(__file__).parents[1] / "data" / "old_journals" / "0001.dryhouse"

CHANGES = """
INSERT INTO batch (id, food, state, made_from, precook_method, notes) VALUES
    (901, 'turkey', 'finished', 'fresh', 'steamed 20 min', 'By the lake'),
    (902, 'turkey', 'finished', 'fresh', 'pressure-cooked', ''),
    (903, 'turkey', 'finished', 'fresh', 'boiled, then in the dryer', ''),
    (904, 'turkey', 'finished', 'fresh', 'oven-roasted', ''),
    (905, 'turkey', 'finished', 'fresh', '', 'Nobody said');
INSERT INTO lot (id, food, packed_on, batch, package, sealed, bought_keep_by) VALUES
    (901, 'mango', '2026-06-20', NULL, 'bag', 1, '2027-02-28'),
    (902, 'turkey', '2026-06-20', 901, 'jar', 1, '2029-01-01'),
    (903, 'turkey', '2026-06-20', NULL, 'jar', 1, NULL);
INSERT INTO own_food (id, slug, name, category) VALUES
    (901, 'duck', 'duck breast', 'poultry'), (902, 'roe', 'roe', 'fish'), (903, 'curd', 'curd', 'dairy'),
    (904, 'smoked-something', 'smoked something', 'vegetable'), (905, 'a-pot', 'a pot', 'mixed');
"""


@pytest.fixture
def first(tmp_path: Path) -> Path:
    """A journal of the first version with everything the step has to read."""
    file = Path(shutil.copy(FIRST, tmp_path / "journal.dryhouse"))
    with closing(sqlite3.connect(file)) as database:
        database.executescript(CHANGES)
    return file


def test_words_that_unmistakably_name_a_way_of_cooking_become_it_and_none_is_lost(first: Path) -> None:
    with closing(open_journal(first, write=True)) as journal:
        found = {b.id: (b.precook_method, b.notes) for b in journal.where(Batch) if b.id > 900}
    assert found == {
        901: ("simmered or steamed", "By the lake Cooked first: steamed 20 min."),
        902: ("other", "Cooked first: pressure-cooked."),
        903: ("other", "Cooked first: boiled, then in the dryer."),
        904: ("roasted in an oven", "Cooked first: oven-roasted."),
        905: ("", "Nobody said"),
    }


def test_the_notes_that_took_up_the_words_are_found_by_them(first: Path) -> None:
    from dryhouse.kitchen.ports import BatchQuery

    with closing(open_journal(first, write=True)) as journal:
        assert list(journal.batch_ids(BatchQuery(text="pressure"))) == [902]


def test_only_a_lot_without_a_batch_and_with_a_printed_date_was_bought(first: Path) -> None:
    with closing(open_journal(first, write=True)) as journal:
        found = {lot.id: (lot.origin, lot.in_oil) for lot in journal.where(Lot) if lot.id > 900}
    assert found == {901: ("bought", None), 902: ("home", None), 903: ("home", None)}


def test_a_kind_that_was_preset_answers_nothing(first: Path) -> None:
    with closing(open_journal(first, write=True)) as journal:
        found = {f.slug: f.contains for f in journal.where(OwnFood) if f.id > 900}
    assert found == {"duck": "poultry", "roe": "fish", "curd": "milk", "smoked-something": "", "a-pot": ""}


def test_the_first_journal_is_backed_up_as_it_was_before_anything_is_changed(first: Path) -> None:
    with closing(sqlite3.connect(first)) as database:
        before = list(database.iterdump())
    open_journal(first, write=True).close()
    (kept,) = backups_of(first)
    with closing(sqlite3.connect(kept)) as database:
        assert list(database.iterdump()) == before


@pytest.mark.parametrize("step", ["_cooking", "_origins", "_contents"])
def test_a_step_that_fails_half_way_leaves_the_journal_as_it_was(
    first: Path, step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from dryhouse.journal import revision

    broken = tmp_path / "migrations"
    shutil.copytree(revision.migrations_folder(), broken)
    file = broken / "versions" / "0002_answers.py"
    file.write_text(file.read_text() + f"\n\ndef {step}(journal):\n    raise RuntimeError('no further')\n")
    monkeypatch.setattr(revision, "migrations_folder", lambda: broken)
    with closing(sqlite3.connect(first)) as database:
        before = list(database.iterdump())
    with pytest.raises((RuntimeError, WorldProblem)):
        open_journal(first, write=True)
    with closing(sqlite3.connect(first)) as database:
        assert list(database.iterdump()) == before
    monkeypatch.undo()
    with closing(open_journal(first, write=True)) as journal:
        assert len([b for b in journal.where(Batch) if b.id > 900]) == 5


def test_what_was_titled_for_its_trip_goes_by_its_food_again_and_other_titles_stay(first: Path) -> None:
    with closing(sqlite3.connect(first)) as database:
        database.executescript("""
            INSERT INTO trip (id, name, starts_on, ends_on, people, spoilage_margin_pct) VALUES
                (901, 'Lake circuit', '2027-08-20', '2027-08-28', 4, 0);
            INSERT INTO batch (id, food, state, made_from, title, trip) VALUES
                (911, 'apple', 'planned', 'fresh', 'for Lake circuit', 901),
                (912, 'apple', 'drying', 'fresh', 'apples for Lake circuit', 901),
                (913, 'apple', 'finished', 'fresh', 'for Lake circuit', NULL);
        """)
    with closing(open_journal(first, write=True)) as journal:
        titles = {b.id: b.title for b in journal.where(Batch) if b.id > 910}
    assert titles == {911: "", 912: "apples for Lake circuit", 913: "for Lake circuit"}
