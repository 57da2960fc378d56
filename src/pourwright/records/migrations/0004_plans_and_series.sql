-- Two jobs may have the very same plan: it is one plan for each of them. A series that was attached to the
-- wrong pour is taken back and kept.

-- rows of other tables refer to these by number, and find them again before the step is over
PRAGMA defer_foreign_keys = ON;

CREATE TABLE plans_before AS SELECT * FROM plans;

DROP TABLE plans;

CREATE TABLE plans (
    id INTEGER PRIMARY KEY,
    hash TEXT NOT NULL CHECK (length(hash) = 64),
    version TEXT NOT NULL,
    job TEXT NOT NULL,
    variant TEXT NOT NULL,
    title TEXT NOT NULL,
    made_utc TEXT NOT NULL CHECK (made_utc GLOB '????-??-??T??:??:??.???Z'),
    document TEXT NOT NULL,
    UNIQUE (hash, job, variant)
) STRICT;

INSERT INTO plans (id, hash, version, job, variant, title, made_utc, document)
SELECT id, hash, version, job, variant, title, made_utc, document FROM plans_before;

DROP TABLE plans_before;

CREATE INDEX plans_of_job ON plans (job, variant, made_utc);

ALTER TABLE series
ADD COLUMN taken_back_utc TEXT CHECK (taken_back_utc GLOB '????-??-??T??:??:??.???Z');
