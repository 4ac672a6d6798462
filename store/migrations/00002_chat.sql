-- +goose Up
-- What a real group chat needs: who leads, whether the bot may write, topics,
-- private chats, join codes, updates set aside.

ALTER TABLE crews ADD COLUMN standing TEXT NOT NULL DEFAULT 'open';    -- open, muted, gone
ALTER TABLE crews ADD COLUMN thread_id INTEGER NOT NULL DEFAULT 0;     -- topic of a forum
ALTER TABLE members ADD COLUMN lead INTEGER NOT NULL DEFAULT 0;
ALTER TABLE members ADD COLUMN gone INTEGER NOT NULL DEFAULT 0;        -- taken off the crew
ALTER TABLE outbox ADD COLUMN chat_id INTEGER NOT NULL DEFAULT 0;      -- a private chat; 0 for the crew's group
ALTER TABLE outbox ADD COLUMN answers INTEGER NOT NULL DEFAULT 0;      -- the person's message it answers
ALTER TABLE outbox ADD COLUMN edits INTEGER NOT NULL DEFAULT 0;        -- the bot's message it changes in place

-- Join codes are kept as hashes: a copied file opens no group.
CREATE TABLE join_codes (
    code_hash TEXT    PRIMARY KEY,
    made_at   INTEGER NOT NULL,
    used_at   INTEGER NOT NULL DEFAULT 0
) WITHOUT ROWID;

-- Updates that could not be read, for a later version to look at.
CREATE TABLE set_aside (
    source    TEXT    NOT NULL,
    update_id INTEGER NOT NULL,
    read_at   INTEGER NOT NULL,
    raw       TEXT    NOT NULL,
    PRIMARY KEY (source, update_id)
);

-- +goose Down
DROP TABLE set_aside;
DROP TABLE join_codes;
ALTER TABLE outbox DROP COLUMN edits;
ALTER TABLE outbox DROP COLUMN answers;
ALTER TABLE outbox DROP COLUMN chat_id;
ALTER TABLE members DROP COLUMN gone;
ALTER TABLE members DROP COLUMN lead;
ALTER TABLE crews DROP COLUMN thread_id;
ALTER TABLE crews DROP COLUMN standing;
