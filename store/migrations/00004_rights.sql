-- +goose Up
-- What the bot may do in a group, what the crew was told of its hearing, and what is
-- kept for the leads until they can be told in private.

ALTER TABLE crews ADD COLUMN rights TEXT NOT NULL DEFAULT '';          -- '' not known; member; admin [pin] [delete]
ALTER TABLE crews ADD COLUMN hears TEXT NOT NULL DEFAULT '';           -- last told: '' nothing, all, some
ALTER TABLE members ADD COLUMN private_id INTEGER NOT NULL DEFAULT 0;  -- private chat that is open, 0 for none

CREATE TABLE notes (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    crew_id INTEGER NOT NULL REFERENCES crews (id),
    key     TEXT    NOT NULL,             -- what it is about; each is told once
    words   TEXT    NOT NULL,             -- id of the sentence
    what    TEXT    NOT NULL,
    made_at INTEGER NOT NULL,
    told    INTEGER NOT NULL DEFAULT 0,   -- 1 once it is in the outbox
    UNIQUE (crew_id, key)
);
CREATE INDEX notes_kept ON notes (crew_id) WHERE told = 0;

-- +goose Down
DROP TABLE notes;
ALTER TABLE members DROP COLUMN private_id;
ALTER TABLE crews DROP COLUMN hears;
ALTER TABLE crews DROP COLUMN rights;
