-- The shop: loggers, stock and molds, finished pieces, what was learnt.

CREATE TABLE series (
    id INTEGER PRIMARY KEY,
    pour_id INTEGER NOT NULL REFERENCES pours (id),
    name TEXT NOT NULL,
    place TEXT NOT NULL DEFAULT '',
    file_hash TEXT NOT NULL CHECK (length(file_hash) = 64),
    UNIQUE (pour_id, file_hash, name)
) STRICT;

CREATE TABLE readings (
    series_id INTEGER NOT NULL REFERENCES series (id),
    at_utc TEXT NOT NULL CHECK (at_utc GLOB '????-??-??T??:??:??.???Z'),
    value REAL NOT NULL,
    PRIMARY KEY (series_id, at_utc)
) STRICT, WITHOUT ROWID;

CREATE TABLE lots (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL,
    material TEXT NOT NULL,
    colour TEXT NOT NULL DEFAULT '',
    grade TEXT NOT NULL DEFAULT '',
    name TEXT NOT NULL,
    bought_utc TEXT CHECK (bought_utc GLOB '????-??-??T??:??:??.???Z'),
    opened_utc TEXT CHECK (opened_utc GLOB '????-??-??T??:??:??.???Z'),
    expires_utc TEXT CHECK (expires_utc GLOB '????-??-??T??:??:??.???Z'),
    unit TEXT NOT NULL,
    note TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE INDEX lots_by_material ON lots (kind, material, colour, grade, expires_utc);

CREATE TABLE moves (
    id TEXT PRIMARY KEY CHECK (length(id) = 36),
    lot_id INTEGER NOT NULL REFERENCES lots (id),
    at_utc TEXT NOT NULL CHECK (at_utc GLOB '????-??-??T??:??:??.???Z'),
    change REAL NOT NULL,
    why TEXT NOT NULL,
    plan_id INTEGER REFERENCES plans (id),
    pour_id INTEGER REFERENCES pours (id)
) STRICT;

CREATE INDEX moves_of_lot ON moves (lot_id, at_utc, change);
CREATE INDEX moves_of_plan ON moves (plan_id) WHERE plan_id IS NOT NULL;
CREATE INDEX moves_of_pour ON moves (pour_id) WHERE pour_id IS NOT NULL;

CREATE TABLE pieces (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    title TEXT NOT NULL,
    plan_id INTEGER NOT NULL REFERENCES plans (id),
    casting INTEGER NOT NULL DEFAULT 1 CHECK (casting > 0),
    mold_id INTEGER REFERENCES lots (id),
    finished_utc TEXT NOT NULL CHECK (finished_utc GLOB '????-??-??T??:??:??.???Z'),
    mass_kg REAL CHECK (mass_kg > 0),
    photo_hash TEXT REFERENCES photos (hash),
    note TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE INDEX pieces_of_plan ON pieces (plan_id, casting);

CREATE TABLE learned (
    id INTEGER PRIMARY KEY,
    quantity TEXT NOT NULL,
    subject TEXT NOT NULL,
    prior_mean REAL NOT NULL,
    prior_sd REAL NOT NULL CHECK (prior_sd >= 0),
    mean REAL NOT NULL,
    sd REAL NOT NULL CHECK (sd >= 0),
    records INTEGER NOT NULL CHECK (records >= 0),
    made_utc TEXT NOT NULL CHECK (made_utc GLOB '????-??-??T??:??:??.???Z'),
    undone INTEGER NOT NULL DEFAULT 0 CHECK (undone IN (0, 1))
) STRICT;

CREATE INDEX learned_of_subject ON learned (quantity, subject, undone, id);
