-- +goose Up
-- Each line of the logbook carries a hash of the one before, and of its words only a
-- hash with salt, so that the words of somebody who is forgotten can go and the rest
-- stays provable. store/chain.go runs this file: SQL alone cannot compute the hashes.

ALTER TABLE entries ADD COLUMN salt BLOB NOT NULL DEFAULT x'';        -- of the words; empty once they are dropped
ALTER TABLE entries ADD COLUMN words_hash BLOB NOT NULL DEFAULT x'';  -- of salt, raw, and the reason in detail
ALTER TABLE entries ADD COLUMN hash BLOB NOT NULL DEFAULT x'';        -- of the line before and of this one

-- Lines whose words may be dropped, and when that was decided. Never taken back.
CREATE TABLE dropped_words (
    entry      INTEGER PRIMARY KEY REFERENCES entries (id),
    dropped_at INTEGER NOT NULL
);
CREATE TRIGGER dropped_words_no_update BEFORE UPDATE ON dropped_words
BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END;
CREATE TRIGGER dropped_words_no_delete BEFORE DELETE ON dropped_words
BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END;

ALTER TABLE members ADD COLUMN forgotten INTEGER NOT NULL DEFAULT 0;  -- 1 once the name was dropped

DROP TRIGGER entries_no_update;

-- The lines that are there are chained here, before the trigger is back.
-- +yardbell chain

-- The one change that a line allows: its words go, where dropped_words says so.
CREATE TRIGGER entries_no_update BEFORE UPDATE ON entries
WHEN NOT (
    EXISTS (SELECT 1 FROM dropped_words WHERE entry = OLD.id)
    AND NEW.raw = '' AND NEW.salt = x''
    AND NEW.detail IS CASE WHEN json_valid(OLD.detail) THEN json_remove(OLD.detail, '$.reason') ELSE OLD.detail END
    AND NEW.id IS OLD.id AND NEW.crew_id IS OLD.crew_id AND NEW.update_row IS OLD.update_row
    AND NEW.member_id IS OLD.member_id AND NEW.said_at IS OLD.said_at AND NEW.happened_at IS OLD.happened_at
    AND NEW.action IS OLD.action AND NEW.step IS OLD.step
    AND NEW.subject_kind IS OLD.subject_kind AND NEW.subject_key IS OLD.subject_key
    AND NEW.count IS OLD.count AND NEW.of IS OLD.of
    AND NEW.from_breeder IS OLD.from_breeder AND NEW.into_place IS OLD.into_place AND NEW.mark IS OLD.mark
    AND NEW.ref IS OLD.ref AND NEW.message_id IS OLD.message_id
    AND NEW.words_hash IS OLD.words_hash AND NEW.hash IS OLD.hash
)
BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END;

-- +goose Down
DROP TRIGGER entries_no_update;
DROP TABLE dropped_words;
ALTER TABLE members DROP COLUMN forgotten;
ALTER TABLE entries DROP COLUMN hash;
ALTER TABLE entries DROP COLUMN words_hash;
ALTER TABLE entries DROP COLUMN salt;
CREATE TRIGGER entries_no_update BEFORE UPDATE ON entries
BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END;
