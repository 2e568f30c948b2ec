"""The first journal: every table, its indexes, and the index of words in batches.

The statements are frozen: whatever changes later is a migration of its own.
"""

from __future__ import annotations

from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

STATEMENTS = (
    """CREATE TABLE preference (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "key" TEXT DEFAULT '' NOT NULL,
    value TEXT DEFAULT '' NOT NULL,
    CONSTRAINT uq_preference_key UNIQUE ("key")
) STRICT""",
    """CREATE TABLE own_food (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    slug TEXT DEFAULT '' NOT NULL,
    name TEXT DEFAULT '' NOT NULL,
    category TEXT DEFAULT '' NOT NULL,
    other_names TEXT DEFAULT '' NOT NULL,
    "like" TEXT DEFAULT '' NOT NULL,
    CONSTRAINT uq_own_food_slug UNIQUE (slug)
) STRICT""",
    """CREATE TABLE own_figure (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    food TEXT DEFAULT '' NOT NULL,
    name TEXT DEFAULT '' NOT NULL,
    value REAL NOT NULL,
    unit TEXT DEFAULT '' NOT NULL,
    typed TEXT DEFAULT '' NOT NULL,
    note TEXT DEFAULT '' NOT NULL,
    CONSTRAINT uq_own_figure_food_name UNIQUE (food, name)
) STRICT""",
    """CREATE TABLE dryer (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    trays INTEGER NOT NULL,
    tray_area_cm2 REAL,
    tray_area_typed TEXT,
    watts REAL,
    temperature_low_c REAL,
    temperature_low_typed TEXT,
    temperature_high_c REAL,
    temperature_high_typed TEXT,
    retired INTEGER NOT NULL
) STRICT""",
    """CREATE TABLE place (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL
) STRICT""",
    """CREATE TABLE meal (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    servings REAL NOT NULL,
    cooking TEXT DEFAULT '' NOT NULL,
    liquid TEXT DEFAULT '' NOT NULL,
    cook_minutes REAL,
    pot_diameter_mm REAL,
    pot_diameter_typed TEXT,
    boil_off_ml_per_min REAL,
    method TEXT DEFAULT '' NOT NULL,
    notes TEXT DEFAULT '' NOT NULL
) STRICT""",
    """CREATE TABLE trip (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    name TEXT DEFAULT '' NOT NULL,
    starts_on TEXT NOT NULL,
    ends_on TEXT NOT NULL,
    people INTEGER NOT NULL,
    energy_kcal_per_person_day REAL,
    temperature_c REAL,
    temperature_typed TEXT,
    altitude_mm REAL,
    altitude_typed TEXT,
    spoilage_margin_pct REAL NOT NULL,
    notes TEXT DEFAULT '' NOT NULL
) STRICT""",
    """CREATE TABLE place_temperature (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    place INTEGER NOT NULL,
    since INTEGER NOT NULL,
    temperature_c REAL NOT NULL,
    temperature_typed TEXT NOT NULL,
    humidity_pct REAL,
    CONSTRAINT fk_place_temperature_place FOREIGN KEY(place) REFERENCES place (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_place_temperature_place_since ON place_temperature (place, since)",
    """CREATE TABLE batch (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    food TEXT DEFAULT '' NOT NULL,
    state TEXT DEFAULT '' NOT NULL,
    title TEXT DEFAULT '' NOT NULL,
    form TEXT DEFAULT '' NOT NULL,
    thickness_mm REAL,
    thickness_typed TEXT,
    made_from TEXT DEFAULT '' NOT NULL,
    purchased_mass_g REAL,
    purchased_mass_typed TEXT,
    prepared_mass_g REAL,
    prepared_mass_typed TEXT,
    prepared_volume_ml REAL,
    prepared_volume_typed TEXT,
    pretreatment TEXT DEFAULT '' NOT NULL,
    precook_method TEXT DEFAULT '' NOT NULL,
    precook_temperature_c REAL,
    precook_temperature_typed TEXT,
    precook_measured TEXT DEFAULT '' NOT NULL,
    cooked_mass_in_g REAL,
    cooked_mass_in_typed TEXT,
    cooked_mass_out_g REAL,
    cooked_mass_out_typed TEXT,
    drained_fat_g REAL,
    drained_fat_typed TEXT,
    drained_liquid_g REAL,
    drained_liquid_typed TEXT,
    dryer INTEGER,
    trays INTEGER,
    set_temperature_c REAL,
    set_temperature_typed TEXT,
    started INTEGER,
    ended INTEGER,
    kitchen_temperature_c REAL,
    kitchen_temperature_typed TEXT,
    kitchen_humidity_pct REAL,
    start_moisture_pct REAL,
    target_moisture_pct REAL,
    dried_mass_g REAL,
    dried_mass_typed TEXT,
    dried_volume_ml REAL,
    dried_volume_typed TEXT,
    energy_kwh REAL,
    notes TEXT DEFAULT '' NOT NULL,
    rating INTEGER,
    trip INTEGER,
    CONSTRAINT fk_batch_dryer FOREIGN KEY(dryer) REFERENCES dryer (id) DEFERRABLE INITIALLY DEFERRED,
    CONSTRAINT fk_batch_trip FOREIGN KEY(trip) REFERENCES trip (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_batch_filter ON batch (started, food, dryer, state)",
    "CREATE INDEX ix_batch_prepared_mass_g ON batch (prepared_mass_g)",
    "CREATE INDEX ix_batch_started ON batch (started)",
    "CREATE INDEX ix_batch_food_started ON batch (food, started)",
    "CREATE INDEX ix_batch_yield ON batch (dried_mass_g / prepared_mass_g)",
    "CREATE INDEX ix_batch_trip ON batch (trip)",
    "CREATE INDEX ix_batch_dried_mass_g ON batch (dried_mass_g)",
    "CREATE INDEX ix_batch_dryer_started ON batch (dryer, started)",
    "CREATE INDEX ix_batch_rating ON batch (rating)",
    "CREATE INDEX ix_batch_state_started ON batch (state, started)",
    """CREATE TABLE trip_meal (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    trip INTEGER NOT NULL,
    meal INTEGER NOT NULL,
    "on" TEXT NOT NULL,
    slot TEXT DEFAULT '' NOT NULL,
    servings REAL,
    CONSTRAINT fk_trip_meal_trip FOREIGN KEY(trip) REFERENCES trip (id) DEFERRABLE INITIALLY DEFERRED,
    CONSTRAINT fk_trip_meal_meal FOREIGN KEY(meal) REFERENCES meal (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_trip_meal_meal ON trip_meal (meal)",
    "CREATE INDEX ix_trip_meal_trip ON trip_meal (trip)",
    """CREATE TABLE cooking_note (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    meal INTEGER NOT NULL,
    "on" TEXT NOT NULL,
    servings REAL NOT NULL,
    water_ml REAL,
    water_typed TEXT,
    soak_minutes REAL,
    cook_minutes REAL,
    altitude_mm REAL,
    altitude_typed TEXT,
    came_back TEXT DEFAULT '' NOT NULL,
    change TEXT DEFAULT '' NOT NULL,
    rating INTEGER,
    CONSTRAINT fk_cooking_note_meal FOREIGN KEY(meal) REFERENCES meal (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_cooking_note_meal ON cooking_note (meal)",
    """CREATE TABLE batch_part (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    batch INTEGER NOT NULL,
    position INTEGER NOT NULL,
    food TEXT DEFAULT '' NOT NULL,
    mass_g REAL NOT NULL,
    mass_typed TEXT NOT NULL,
    moisture_pct REAL,
    CONSTRAINT fk_batch_part_batch FOREIGN KEY(batch) REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_batch_part_batch ON batch_part (batch)",
    """CREATE TABLE weighing (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    batch INTEGER NOT NULL,
    at INTEGER NOT NULL,
    gross_g REAL NOT NULL,
    gross_typed TEXT NOT NULL,
    tare_g REAL,
    tare_typed TEXT,
    scope TEXT DEFAULT '' NOT NULL,
    dryer_temperature_c REAL,
    dryer_temperature_typed TEXT,
    note TEXT DEFAULT '' NOT NULL,
    CONSTRAINT fk_weighing_batch FOREIGN KEY(batch) REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_weighing_batch ON weighing (batch)",
    """CREATE TABLE batch_event (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    batch INTEGER NOT NULL,
    at INTEGER NOT NULL,
    kind TEXT DEFAULT '' NOT NULL,
    temperature_c REAL,
    temperature_typed TEXT,
    note TEXT DEFAULT '' NOT NULL,
    CONSTRAINT fk_batch_event_batch FOREIGN KEY(batch) REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_batch_event_batch ON batch_event (batch)",
    """CREATE TABLE lot (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    food TEXT DEFAULT '' NOT NULL,
    packed_on TEXT NOT NULL,
    name TEXT DEFAULT '' NOT NULL,
    batch INTEGER,
    package TEXT DEFAULT '' NOT NULL,
    sealed INTEGER NOT NULL,
    mass_g REAL,
    mass_typed TEXT,
    volume_ml REAL,
    volume_typed TEXT,
    conditioned_from TEXT,
    conditioned_to TEXT,
    pasteurised TEXT DEFAULT '' NOT NULL,
    opened_on TEXT,
    bought_keep_by TEXT,
    redried_on TEXT,
    notes TEXT DEFAULT '' NOT NULL,
    CONSTRAINT fk_lot_batch FOREIGN KEY(batch) REFERENCES batch (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_lot_food ON lot (food)",
    "CREATE INDEX ix_lot_batch ON lot (batch)",
    """CREATE TABLE cooking_note_part (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    note INTEGER NOT NULL,
    name TEXT DEFAULT '' NOT NULL,
    came_back TEXT DEFAULT '' NOT NULL,
    food TEXT DEFAULT '' NOT NULL,
    CONSTRAINT fk_cooking_note_part_note FOREIGN KEY(note)
        REFERENCES cooking_note (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_cooking_note_part_note ON cooking_note_part (note)",
    """CREATE TABLE lot_move (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    lot INTEGER NOT NULL,
    place INTEGER NOT NULL,
    at INTEGER NOT NULL,
    CONSTRAINT fk_lot_move_lot FOREIGN KEY(lot) REFERENCES lot (id) DEFERRABLE INITIALLY DEFERRED,
    CONSTRAINT fk_lot_move_place FOREIGN KEY(place) REFERENCES place (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_lot_move_place ON lot_move (place)",
    "CREATE INDEX ix_lot_move_lot ON lot_move (lot)",
    """CREATE TABLE lot_draw (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    lot INTEGER NOT NULL,
    "on" TEXT NOT NULL,
    purpose TEXT DEFAULT '' NOT NULL,
    mass_g REAL,
    mass_typed TEXT,
    meal INTEGER,
    note TEXT DEFAULT '' NOT NULL,
    CONSTRAINT fk_lot_draw_lot FOREIGN KEY(lot) REFERENCES lot (id) DEFERRABLE INITIALLY DEFERRED,
    CONSTRAINT fk_lot_draw_meal FOREIGN KEY(meal) REFERENCES meal (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_lot_draw_lot ON lot_draw (lot)",
    "CREATE INDEX ix_lot_draw_meal ON lot_draw (meal)",
    """CREATE TABLE lot_check (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    lot INTEGER NOT NULL,
    "on" TEXT NOT NULL,
    mass_g REAL,
    mass_typed TEXT,
    moist INTEGER,
    mould INTEGER,
    smell TEXT DEFAULT '' NOT NULL,
    note TEXT DEFAULT '' NOT NULL,
    CONSTRAINT fk_lot_check_lot FOREIGN KEY(lot) REFERENCES lot (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_lot_check_lot ON lot_check (lot)",
    """CREATE TABLE meal_part (
    id INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    meal INTEGER NOT NULL,
    position INTEGER NOT NULL,
    name TEXT DEFAULT '' NOT NULL,
    food TEXT DEFAULT '' NOT NULL,
    staple TEXT DEFAULT '' NOT NULL,
    lot INTEGER,
    mass_g REAL,
    mass_typed TEXT,
    volume_ml REAL,
    volume_typed TEXT,
    portion_g REAL,
    portion_typed TEXT,
    label_energy_kcal REAL,
    label_protein_g REAL,
    label_fat_g REAL,
    label_carbohydrate_g REAL,
    label_sodium_mg REAL,
    label_water_ml REAL,
    label_water_typed TEXT,
    label_minutes REAL,
    CONSTRAINT fk_meal_part_meal FOREIGN KEY(meal) REFERENCES meal (id) DEFERRABLE INITIALLY DEFERRED,
    CONSTRAINT fk_meal_part_lot FOREIGN KEY(lot) REFERENCES lot (id) DEFERRABLE INITIALLY DEFERRED
) STRICT""",
    "CREATE INDEX ix_meal_part_lot ON meal_part (lot)",
    "CREATE INDEX ix_meal_part_meal ON meal_part (meal)",
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


def upgrade() -> None:
    """Make everything in an empty file."""
    for statement in STATEMENTS:
        op.get_bind().exec_driver_sql(statement)
