-- A book as version 1 left it: two pours of an invented lamp, one entry corrected.
PRAGMA application_id = 1886352754;
PRAGMA user_version = 1;
CREATE TABLE plans (id INTEGER PRIMARY KEY, hash TEXT NOT NULL UNIQUE CHECK (length(hash) = 64), version TEXT NOT NULL, job TEXT NOT NULL, variant TEXT NOT NULL, title TEXT NOT NULL, made_utc TEXT NOT NULL CHECK (made_utc GLOB '????-??-??T??:??:??.???Z'), document TEXT NOT NULL) STRICT;
CREATE INDEX plans_of_job ON plans (job, variant, made_utc);
CREATE TABLE pours (id INTEGER PRIMARY KEY, plan_id INTEGER NOT NULL REFERENCES plans (id), casting INTEGER NOT NULL DEFAULT 1 CHECK (casting > 0), number INTEGER NOT NULL CHECK (number >= 0), kind TEXT NOT NULL, begun_utc TEXT CHECK (begun_utc GLOB '????-??-??T??:??:??.???Z'), ended_utc TEXT CHECK (ended_utc GLOB '????-??-??T??:??:??.???Z'), UNIQUE (plan_id, casting, kind, number)) STRICT;
CREATE INDEX pours_by_time ON pours (begun_utc);
CREATE TABLE photos (hash TEXT PRIMARY KEY CHECK (length(hash) = 64), media_type TEXT NOT NULL, content BLOB NOT NULL) STRICT;
CREATE TABLE entries (id TEXT PRIMARY KEY CHECK (length(id) = 36), pour_id INTEGER NOT NULL REFERENCES pours (id), kind TEXT NOT NULL, at_utc TEXT NOT NULL CHECK (at_utc GLOB '????-??-??T??:??:??.???Z'), written_utc TEXT NOT NULL CHECK (written_utc GLOB '????-??-??T??:??:??.???Z'), value REAL, sd REAL CHECK (sd >= 0), text TEXT NOT NULL DEFAULT '', photo_hash TEXT REFERENCES photos (hash), source TEXT NOT NULL, replaces TEXT REFERENCES entries (id) CHECK (replaces <> id)) STRICT;
CREATE INDEX entries_of_pour ON entries (pour_id, at_utc, written_utc);
CREATE INDEX entries_by_kind ON entries (kind, at_utc);
CREATE UNIQUE INDEX entries_replaced_once ON entries (replaces) WHERE replaces IS NOT NULL;
INSERT INTO plans VALUES (1, 'c0ffee00c0ffee00c0ffee00c0ffee00c0ffee00c0ffee00c0ffee00c0ffee00', '0.1.0', 'lamp', 'main', 'Table lamp', '2026-11-28T08:00:00.000Z', '{"schema":"pourwright-plan/1.6"}');
INSERT INTO pours VALUES (1, 1, 1, 1, 'resin', '2026-11-28T09:00:00.000Z', '2026-11-28T09:20:00.000Z');
INSERT INTO pours VALUES (2, 1, 1, 2, 'resin', '2026-11-29T09:00:00.000Z', NULL);
INSERT INTO entries VALUES ('11111111-1111-4111-8111-111111111111', 1, 'poured', '2026-11-28T09:10:00.000Z', '2026-11-28T09:11:00.000Z', 2.1, NULL, '', NULL, 'terminal', NULL);
INSERT INTO entries VALUES ('22222222-2222-4222-8222-222222222222', 1, 'poured', '2026-11-28T09:10:00.000Z', '2026-11-28T09:15:00.000Z', 1.2, NULL, 'read the scale wrong', NULL, 'terminal', '11111111-1111-4111-8111-111111111111');
INSERT INTO entries VALUES ('33333333-3333-4333-8333-333333333333', 2, 'level', '2026-11-29T09:30:00.000Z', '2026-11-29T09:30:00.000Z', 0.08, 0.001, '', NULL, 'bench', NULL);
