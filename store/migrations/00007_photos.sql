-- +goose Up
-- Photos that came with what was done. The chat keeps the pictures; here stands how to
-- ask for one, and the lines of the logbook that it goes with. Nothing is derived from
-- them.

CREATE TABLE photos (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    crew_id  INTEGER NOT NULL REFERENCES crews (id),
    update_row INTEGER NOT NULL UNIQUE REFERENCES updates (id),   -- which brought it
    about_id INTEGER NOT NULL,                -- chat message whose lines it goes with, 0 for none to come
    album    TEXT    NOT NULL,                -- of photos sent together, '' for one alone
    file     TEXT    NOT NULL                 -- the chat's name for it
);
CREATE INDEX photos_about ON photos (crew_id, about_id);
CREATE INDEX photos_album ON photos (crew_id, album) WHERE album <> '';

CREATE TABLE photo_lines (
    photo_id INTEGER NOT NULL REFERENCES photos (id),
    entry_id INTEGER NOT NULL REFERENCES entries (id),
    PRIMARY KEY (photo_id, entry_id)
) WITHOUT ROWID;
CREATE INDEX photo_lines_entry ON photo_lines (entry_id);

-- +goose Down
DROP TABLE photo_lines;
DROP TABLE photos;
