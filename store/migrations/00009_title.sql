-- +goose Up
-- What a group is called, to tell two crews apart where somebody is on both.

ALTER TABLE crews ADD COLUMN title TEXT NOT NULL DEFAULT '';

-- +goose Down
ALTER TABLE crews DROP COLUMN title;
