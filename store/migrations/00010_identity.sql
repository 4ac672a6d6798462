-- +goose Up
-- What tells this database from every other, whatever their files are called. Its
-- backups carry it, and only what carries it is ever removed.

CREATE TABLE identity (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    id  TEXT NOT NULL
);
INSERT INTO identity (one, id) VALUES (1, lower(hex(randomblob(16))));

-- +goose Down
DROP TABLE identity;
