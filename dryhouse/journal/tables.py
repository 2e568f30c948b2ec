"""The journal's tables: one for each kind of record, named and numbered as it is.

A quantity is two columns, the value in its stored unit and what was typed. Moments are whole microseconds
since 1970 in UTC, days are ISO text, yes and no are 1 and 0. Numbers are never used again. Foreign keys
are checked when a transaction ends and nothing cascades: an act names everything it removes, so that undo
can bring it back.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import INTEGER, REAL, TEXT, Column, ForeignKey, Index, MetaData, Table, UniqueConstraint, text

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)

C = Column[Any]


def _words(name: str) -> C:
    return Column(name, TEXT, nullable=False, server_default="")


def _whole(name: str, *, needed: bool = False) -> C:
    return Column(name, INTEGER, nullable=not needed)


def _number(name: str, *, needed: bool = False) -> C:
    return Column(name, REAL, nullable=not needed)


_moment = _whole


def _day(name: str, *, needed: bool = False) -> C:
    return Column(name, TEXT, nullable=not needed)


def _yes_no(name: str, *, needed: bool = False) -> C:
    return Column(name, INTEGER, nullable=not needed)


def _quantity(name: str, unit: str, needed: bool) -> tuple[C, C]:
    return Column(f"{name}_{unit}", REAL, nullable=not needed), Column(f"{name}_typed", TEXT, nullable=not needed)


def _mass(name: str, *, needed: bool = False) -> tuple[C, C]:
    return _quantity(name, "g", needed)


def _volume(name: str) -> tuple[C, C]:
    return _quantity(name, "ml", False)


def _length(name: str) -> tuple[C, C]:
    return _quantity(name, "mm", False)


def _area(name: str) -> tuple[C, C]:
    return _quantity(name, "cm2", False)


def _temperature(name: str, *, needed: bool = False) -> tuple[C, C]:
    return _quantity(name, "c", needed)


def _duration(name: str) -> tuple[C, C]:
    return _quantity(name, "s", False)


def _of(target: str, *, name: str = "", needed: bool = True) -> C:
    key = ForeignKey(f"{target}.id", deferrable=True, initially="DEFERRED")
    return Column(name or target, INTEGER, key, nullable=not needed)


def _table(name: str, *parts: Any) -> Table:
    number = Column("id", INTEGER, primary_key=True)
    return Table(name, metadata, number, *parts, sqlite_autoincrement=True, sqlite_strict=True)


preference = _table("preference", _words("key"), _words("value"), UniqueConstraint("key"))

own_food = _table(
    "own_food",
    *map(_words, ("slug", "name", "category", "other_names", "like", "contains")),
    UniqueConstraint("slug"),
)

own_figure = _table(
    "own_figure",
    *map(_words, ("food", "name")),
    _number("value", needed=True),
    *map(_words, ("unit", "typed", "note")),
    UniqueConstraint("food", "name"),
)

dryer = _table(
    "dryer",
    _words("name"),
    _whole("trays", needed=True),
    *_area("tray_area"),
    _number("watts"),
    *_temperature("temperature_low"),
    *_temperature("temperature_high"),
    _yes_no("retired", needed=True),
)

place = _table("place", _words("name"))

place_temperature = _table(
    "place_temperature",
    _of("place"),
    _moment("since", needed=True),
    *_temperature("temperature", needed=True),
    _number("humidity_pct"),
    Index(None, "place", "since"),
)

batch = _table(
    "batch",
    *map(_words, ("food", "state", "title", "form")),
    *_length("thickness"),
    _words("made_from"),
    *_mass("purchased_mass"),
    *_mass("prepared_mass"),
    *_volume("prepared_volume"),
    *map(_words, ("pretreatment", "precook_method")),
    *_temperature("precook_temperature"),
    _words("precook_measured"),
    *_duration("precook_held"),
    *_temperature("finish_temperature"),
    *_duration("finish_held"),
    _words("identified"),
    *_mass("cooked_mass_in"),
    *_mass("cooked_mass_out"),
    *_mass("drained_fat"),
    *_mass("drained_liquid"),
    _of("dryer", needed=False),
    _whole("trays"),
    *_temperature("set_temperature"),
    _moment("started"),
    _moment("ended"),
    *_temperature("kitchen_temperature"),
    _number("kitchen_humidity_pct"),
    _number("start_moisture_pct"),
    _number("target_moisture_pct"),
    *_mass("dried_mass"),
    *_volume("dried_volume"),
    _number("energy_kwh"),
    _words("notes"),
    _whole("rating"),
    _of("trip", needed=False),
    Index("ix_batch_filter", "started", "food", "dryer", "state"),
    Index(None, "started"),
    Index(None, "food", "started"),
    Index(None, "dryer", "started"),
    Index(None, "state", "started"),
    Index(None, "prepared_mass_g"),
    Index(None, "dried_mass_g"),
    Index("ix_batch_yield", text("dried_mass_g / prepared_mass_g")),
    Index(None, "rating"),
    Index(None, "trip"),
)

batch_part = _table(
    "batch_part",
    _of("batch"),
    _whole("position", needed=True),
    _words("food"),
    *_mass("mass", needed=True),
    _number("moisture_pct"),
    Index(None, "batch"),
)

weighing = _table(
    "weighing",
    _of("batch"),
    _moment("at", needed=True),
    *_mass("gross", needed=True),
    *_mass("tare"),
    _words("scope"),
    *_temperature("dryer_temperature"),
    _words("note"),
    Index(None, "batch"),
)

batch_event = _table(
    "batch_event",
    _of("batch"),
    _moment("at", needed=True),
    _words("kind"),
    *_temperature("temperature"),
    _words("note"),
    Index(None, "batch"),
)

lot = _table(
    "lot",
    _words("food"),
    _day("packed_on", needed=True),
    _words("name"),
    _of("batch", needed=False),
    _words("package"),
    _yes_no("sealed", needed=True),
    *_mass("mass"),
    *_volume("volume"),
    _day("conditioned_from"),
    _day("conditioned_to"),
    _words("pasteurised"),
    _day("opened_on"),
    _day("bought_keep_by"),
    _day("redried_on"),
    _words("origin"),
    _yes_no("in_oil"),
    _words("notes"),
    Index(None, "batch"),
    Index(None, "food"),
)

lot_move = _table(
    "lot_move",
    _of("lot"),
    _of("place"),
    _moment("at", needed=True),
    Index(None, "lot"),
    Index(None, "place"),
)

lot_draw = _table(
    "lot_draw",
    _of("lot"),
    _day("on", needed=True),
    _words("purpose"),
    *_mass("mass"),
    _of("meal", needed=False),
    _words("note"),
    Index(None, "lot"),
    Index(None, "meal"),
)

lot_check = _table(
    "lot_check",
    _of("lot"),
    _day("on", needed=True),
    *_mass("mass"),
    _yes_no("moist"),
    _yes_no("mould"),
    *map(_words, ("smell", "note")),
    Index(None, "lot"),
)

meal = _table(
    "meal",
    _words("name"),
    _number("servings", needed=True),
    *map(_words, ("cooking", "liquid")),
    _number("cook_minutes"),
    *_length("pot_diameter"),
    _number("boil_off_ml_per_min"),
    *map(_words, ("method", "notes")),
)

meal_part = _table(
    "meal_part",
    _of("meal"),
    _whole("position", needed=True),
    *map(_words, ("name", "food", "staple")),
    _of("lot", needed=False),
    *_mass("mass"),
    *_volume("volume"),
    *_mass("portion"),
    *map(
        _number,
        (
            "label_energy_kcal",
            "label_protein_g",
            "label_fat_g",
            "label_carbohydrate_g",
            "label_sodium_mg",
        ),
    ),
    *_volume("label_water"),
    _number("label_minutes"),
    Index(None, "meal"),
    Index(None, "lot"),
)

trip = _table(
    "trip",
    _words("name"),
    _day("starts_on", needed=True),
    _day("ends_on", needed=True),
    _whole("people", needed=True),
    _number("energy_kcal_per_person_day"),
    *_temperature("temperature"),
    *_length("altitude"),
    _number("spoilage_margin_pct", needed=True),
    _words("notes"),
)

trip_meal = _table(
    "trip_meal",
    _of("trip"),
    _of("meal"),
    _day("on", needed=True),
    _words("slot"),
    _number("servings"),
    Index(None, "trip"),
    Index(None, "meal"),
)

cooking_note = _table(
    "cooking_note",
    _of("meal"),
    _day("on", needed=True),
    _number("servings", needed=True),
    *_volume("water"),
    _number("soak_minutes"),
    _number("cook_minutes"),
    *_length("altitude"),
    *map(_words, ("came_back", "change")),
    _whole("rating"),
    Index(None, "meal"),
)

cooking_note_part = _table(
    "cooking_note_part",
    _of("cooking_note", name="note"),
    *map(_words, ("name", "came_back", "food")),
    Index(None, "note"),
)

WORDS = (
    """CREATE VIRTUAL TABLE batch_words USING fts5(
    food, title, form, pretreatment, notes,
    content='batch', content_rowid='id', columnsize=0, detail=none,
    tokenize='unicode61 remove_diacritics 2', prefix='1 2 3'
)""",
    """CREATE TRIGGER batch_words_came AFTER INSERT ON batch BEGIN
    INSERT INTO batch_words (rowid, food, title, form, pretreatment, notes)
    VALUES (new.id, new.food, new.title, new.form, new.pretreatment, new.notes);
END""",
    """CREATE TRIGGER batch_words_went AFTER DELETE ON batch BEGIN
    INSERT INTO batch_words (batch_words, rowid, food, title, form, pretreatment, notes)
    VALUES ('delete', old.id, old.food, old.title, old.form, old.pretreatment, old.notes);
END""",
    """CREATE TRIGGER batch_words_changed AFTER UPDATE OF food, title, form, pretreatment, notes ON batch BEGIN
    INSERT INTO batch_words (batch_words, rowid, food, title, form, pretreatment, notes)
    VALUES ('delete', old.id, old.food, old.title, old.form, old.pretreatment, old.notes);
    INSERT INTO batch_words (rowid, food, title, form, pretreatment, notes)
    VALUES (new.id, new.food, new.title, new.form, new.pretreatment, new.notes);
END""",
)
"""The index of words in batches, and what keeps it true. SQLite writes it; no record lives in it."""
