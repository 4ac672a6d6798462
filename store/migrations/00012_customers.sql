-- +goose Up
-- Who gets queens and cells. Lines of the logbook have the number alone, so that a name can
-- go when it is asked to, and the chain still proves.

CREATE TABLE customers (
    crew_id   INTEGER NOT NULL REFERENCES crews (id),
    number    INTEGER NOT NULL CHECK (number > 0),
    name      TEXT    NOT NULL,               -- what stands for it once it is forgotten
    forgotten INTEGER NOT NULL DEFAULT 0,
    PRIMARY KEY (crew_id, number)
) WITHOUT ROWID;

-- +goose Down
DROP TABLE customers;
