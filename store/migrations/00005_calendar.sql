-- +goose Up
-- What the crew's calendar showed last, so that a change raises the number that
-- calendars compare and what went away is cancelled instead of staying for ever. It is
-- about what was given out, like the outbox, and not derived from the logbook.

CREATE TABLE calendar_events (
    crew_id    INTEGER NOT NULL REFERENCES crews (id),
    key        TEXT    NOT NULL,             -- of the task
    sequence   INTEGER NOT NULL,
    cancelled  INTEGER NOT NULL,
    changed_at INTEGER NOT NULL,
    end_at     INTEGER NOT NULL,
    body       TEXT    NOT NULL,             -- as it was shown
    PRIMARY KEY (crew_id, key)
) WITHOUT ROWID;

-- The address under which a crew's calendar can be read, kept as its hash alone. A new
-- one closes the old.
CREATE TABLE calendar_links (
    crew_id   INTEGER PRIMARY KEY REFERENCES crews (id),
    link_hash TEXT    NOT NULL UNIQUE,
    made_at   INTEGER NOT NULL
);

-- A file that goes out with a message: what is asked for, since it is made when the
-- message goes.
ALTER TABLE outbox ADD COLUMN attach TEXT NOT NULL DEFAULT '';

-- +goose Down
ALTER TABLE outbox DROP COLUMN attach;
DROP TABLE calendar_links;
DROP TABLE calendar_events;
