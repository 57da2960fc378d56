-- What a piece that is to be cast keeps for itself: its plan says how much of what.

CREATE TABLE reservations (
    plan_id INTEGER NOT NULL REFERENCES plans (id),
    casting INTEGER NOT NULL CHECK (casting > 0),
    made_utc TEXT NOT NULL CHECK (made_utc GLOB '????-??-??T??:??:??.???Z'),
    freed_utc TEXT CHECK (freed_utc GLOB '????-??-??T??:??:??.???Z'),
    PRIMARY KEY (plan_id, casting)
) STRICT, WITHOUT ROWID;
