-- The log: plans, their pours, what was entered about them, photos.

CREATE TABLE plans (
    id INTEGER PRIMARY KEY,
    hash TEXT NOT NULL UNIQUE CHECK (length(hash) = 64),
    version TEXT NOT NULL,
    job TEXT NOT NULL,
    variant TEXT NOT NULL,
    title TEXT NOT NULL,
    made_utc TEXT NOT NULL CHECK (made_utc GLOB '????-??-??T??:??:??.???Z'),
    document TEXT NOT NULL
) STRICT;

CREATE INDEX plans_of_job ON plans (job, variant, made_utc);

CREATE TABLE pours (
    id INTEGER PRIMARY KEY,
    plan_id INTEGER NOT NULL REFERENCES plans (id),
    casting INTEGER NOT NULL DEFAULT 1 CHECK (casting > 0),
    number INTEGER NOT NULL CHECK (number >= 0),
    kind TEXT NOT NULL,
    begun_utc TEXT CHECK (begun_utc GLOB '????-??-??T??:??:??.???Z'),
    ended_utc TEXT CHECK (ended_utc GLOB '????-??-??T??:??:??.???Z'),
    UNIQUE (plan_id, casting, kind, number)
) STRICT;

CREATE INDEX pours_by_time ON pours (begun_utc);

CREATE TABLE photos (
    hash TEXT PRIMARY KEY CHECK (length(hash) = 64),
    media_type TEXT NOT NULL,
    content BLOB NOT NULL
) STRICT;

CREATE TABLE entries (
    id TEXT PRIMARY KEY CHECK (length(id) = 36),
    pour_id INTEGER NOT NULL REFERENCES pours (id),
    kind TEXT NOT NULL,
    at_utc TEXT NOT NULL CHECK (at_utc GLOB '????-??-??T??:??:??.???Z'),
    written_utc TEXT NOT NULL CHECK (written_utc GLOB '????-??-??T??:??:??.???Z'),
    value REAL,
    sd REAL CHECK (sd >= 0),
    text TEXT NOT NULL DEFAULT '',
    photo_hash TEXT REFERENCES photos (hash),
    source TEXT NOT NULL,
    replaces TEXT REFERENCES entries (id) CHECK (replaces <> id)
) STRICT;

CREATE INDEX entries_of_pour ON entries (pour_id, at_utc, written_utc);
CREATE INDEX entries_by_kind ON entries (kind, at_utc);
CREATE UNIQUE INDEX entries_replaced_once ON entries (replaces) WHERE replaces IS NOT NULL;
