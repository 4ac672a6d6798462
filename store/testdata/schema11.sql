-- A database of schema 11, as that version left it.
PRAGMA application_id = 1497525356;
PRAGMA journal_mode = WAL;
CREATE TABLE goose_db_version (
		id INTEGER PRIMARY KEY AUTOINCREMENT,
		version_id INTEGER NOT NULL,
		is_applied INTEGER NOT NULL,
		tstamp TIMESTAMP DEFAULT (datetime('now'))
	);
CREATE TABLE crews (
    id         INTEGER PRIMARY KEY,
    source     TEXT    NOT NULL,             -- which transport the chat is on
    chat_id    INTEGER NOT NULL,
    created_at INTEGER NOT NULL, standing TEXT NOT NULL DEFAULT 'open', thread_id INTEGER NOT NULL DEFAULT 0, rights TEXT NOT NULL DEFAULT '', hears TEXT NOT NULL DEFAULT '', title TEXT NOT NULL DEFAULT '',
    UNIQUE (source, chat_id)
);
CREATE TABLE members (
    id       INTEGER PRIMARY KEY,
    crew_id  INTEGER NOT NULL REFERENCES crews (id),
    user_key TEXT    NOT NULL,               -- the transport's own name for the person
    name     TEXT    NOT NULL, lead INTEGER NOT NULL DEFAULT 0, gone INTEGER NOT NULL DEFAULT 0, private_id INTEGER NOT NULL DEFAULT 0, forgotten INTEGER NOT NULL DEFAULT 0,
    UNIQUE (crew_id, user_key)
);
CREATE TABLE updates (
    id         INTEGER PRIMARY KEY,
    source     TEXT    NOT NULL,
    update_id  INTEGER NOT NULL,
    crew_id    INTEGER NOT NULL REFERENCES crews (id),
    member_id  INTEGER NOT NULL REFERENCES members (id),
    kind       TEXT    NOT NULL CHECK (kind IN ('message', 'edit', 'press')),
    message_id INTEGER NOT NULL,
    reply_to   INTEGER NOT NULL DEFAULT 0,
    text       TEXT    NOT NULL DEFAULT '',
    said_at    INTEGER NOT NULL,
    read_at    INTEGER NOT NULL,
    outcome    TEXT    NOT NULL DEFAULT '',
    UNIQUE (source, update_id)
);
CREATE TABLE offsets (
    source TEXT    PRIMARY KEY,
    next   INTEGER NOT NULL
);
CREATE TABLE entries (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    crew_id      INTEGER NOT NULL REFERENCES crews (id),
    update_row   INTEGER NOT NULL REFERENCES updates (id),
    member_id    INTEGER NOT NULL REFERENCES members (id),
    said_at      INTEGER NOT NULL,
    happened_at  INTEGER NOT NULL,
    action       TEXT    NOT NULL CHECK (action IN ('did', 'mine', 'later', 'skip', 'void', 'amend', 'set')),
    step         TEXT    NOT NULL,
    subject_kind TEXT    NOT NULL,
    subject_key  TEXT    NOT NULL,
    count        INTEGER CHECK (count >= 0),
    of           INTEGER CHECK (of >= 0),
    from_breeder INTEGER NOT NULL DEFAULT 0,
    into_place   TEXT    NOT NULL DEFAULT '',
    mark         TEXT    NOT NULL DEFAULT '',
    detail       TEXT    NOT NULL DEFAULT '{}',
    ref          INTEGER REFERENCES entries (id),
    raw          TEXT    NOT NULL,
    message_id   INTEGER NOT NULL, salt BLOB NOT NULL DEFAULT x'', words_hash BLOB NOT NULL DEFAULT x'', hash BLOB NOT NULL DEFAULT x'',
    CHECK ((action IN ('void', 'amend')) = (ref IS NOT NULL))
);
CREATE TABLE tasks (
    crew_id      INTEGER NOT NULL,
    key          TEXT    NOT NULL,
    subject_kind TEXT    NOT NULL,
    subject_key  TEXT    NOT NULL,
    step         TEXT    NOT NULL,
    occ          TEXT    NOT NULL,
    earliest     INTEGER NOT NULL,
    best         INTEGER NOT NULL,
    latest       INTEGER NOT NULL,
    ideal        INTEGER NOT NULL,
    weight       INTEGER NOT NULL,
    guard        INTEGER NOT NULL,
    state        TEXT    NOT NULL CHECK (state IN ('open', 'done', 'skipped', 'passed')),
    claimed_by   TEXT    NOT NULL,
    snoozed      INTEGER NOT NULL,
    reason       TEXT    NOT NULL CHECK (reason <> ''),
    anchor       INTEGER NOT NULL,
    batch        INTEGER NOT NULL,
    breeder      INTEGER NOT NULL,
    count        INTEGER,
    from_place   TEXT    NOT NULL,
    into_place   TEXT    NOT NULL,
    mark         TEXT    NOT NULL,
    unfit        INTEGER NOT NULL,
    stake        TEXT    NOT NULL,
    source       TEXT    NOT NULL,
    PRIMARY KEY (crew_id, key),
    CHECK (earliest <= best AND best <= latest)
) WITHOUT ROWID;
CREATE TABLE outbox (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    crew_id    INTEGER NOT NULL REFERENCES crews (id),
    key        TEXT    NOT NULL,
    kind       TEXT    NOT NULL CHECK (kind IN ('reply', 'ask', 'error', 'ping', 'digest')),
    ping       TEXT    NOT NULL DEFAULT '',
    task_key   TEXT    NOT NULL DEFAULT '',
    step       TEXT    NOT NULL DEFAULT '',
    subject    TEXT    NOT NULL DEFAULT '',
    day        TEXT    NOT NULL DEFAULT '',
    fire_at    INTEGER NOT NULL,             -- when it was meant to go
    due_at     INTEGER NOT NULL,             -- when it may go: later by a hold or a retry
    priority   INTEGER NOT NULL,
    state      TEXT    NOT NULL CHECK (state IN ('queued', 'claimed', 'sent', 'dropped', 'cancelled', 'failed')),
    attempt    INTEGER NOT NULL DEFAULT 0,
    lease_until INTEGER NOT NULL DEFAULT 0,
    reply_to   INTEGER NOT NULL DEFAULT 0,
    update_row INTEGER NOT NULL DEFAULT 0,   -- the update it answers
    text       TEXT    NOT NULL DEFAULT '',
    buttons    TEXT    NOT NULL DEFAULT '[]',
    message_id INTEGER NOT NULL DEFAULT 0,
    sent_at    INTEGER NOT NULL DEFAULT 0,
    answered   INTEGER NOT NULL DEFAULT 0,   -- the update that answered its question
    reason     TEXT    NOT NULL DEFAULT '', chat_id INTEGER NOT NULL DEFAULT 0, answers INTEGER NOT NULL DEFAULT 0, edits INTEGER NOT NULL DEFAULT 0, attach TEXT NOT NULL DEFAULT '',
    UNIQUE (crew_id, key)
);
CREATE TABLE join_codes (
    code_hash TEXT    PRIMARY KEY,
    made_at   INTEGER NOT NULL,
    used_at   INTEGER NOT NULL DEFAULT 0
) WITHOUT ROWID;
CREATE TABLE set_aside (
    source    TEXT    NOT NULL,
    update_id INTEGER NOT NULL,
    read_at   INTEGER NOT NULL,
    raw       TEXT    NOT NULL,
    PRIMARY KEY (source, update_id)
);
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
CREATE TABLE calendar_links (
    crew_id   INTEGER PRIMARY KEY REFERENCES crews (id),
    link_hash TEXT    NOT NULL UNIQUE,
    made_at   INTEGER NOT NULL
);
CREATE TABLE dropped_words (
    entry      INTEGER PRIMARY KEY REFERENCES entries (id),
    dropped_at INTEGER NOT NULL
);
CREATE TABLE photos (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    crew_id  INTEGER NOT NULL REFERENCES crews (id),
    update_row INTEGER NOT NULL UNIQUE REFERENCES updates (id),   -- which brought it
    about_id INTEGER NOT NULL,                -- chat message whose lines it goes with, 0 for none to come
    album    TEXT    NOT NULL,                -- of photos sent together, '' for one alone
    file     TEXT    NOT NULL                 -- the chat's name for it
);
CREATE TABLE photo_lines (
    photo_id INTEGER NOT NULL REFERENCES photos (id),
    entry_id INTEGER NOT NULL REFERENCES entries (id),
    PRIMARY KEY (photo_id, entry_id)
) WITHOUT ROWID;
CREATE TABLE identity (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    id  TEXT NOT NULL
);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (1, 0, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (2, 1, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (3, 2, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (4, 3, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (5, 4, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (6, 5, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (7, 6, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (8, 7, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (9, 8, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (10, 9, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (11, 10, 1);
INSERT INTO goose_db_version (id, version_id, is_applied) VALUES (12, 11, 1);
INSERT INTO crews (id, source, chat_id, created_at, standing, thread_id, rights, hears, title) VALUES (1, 'telegram', -1001, 1934802000000, 'open', 0, 'admin pin', 'all', 'Yard');
INSERT INTO crews (id, source, chat_id, created_at, standing, thread_id, rights, hears, title) VALUES (2, 'console', 1, 1934802000000, 'open', 0, '', '', '');
INSERT INTO members (id, crew_id, user_key, name, lead, gone, private_id, forgotten) VALUES (1, 1, '', 'Yardbell', 0, 0, 0, 0);
INSERT INTO members (id, crew_id, user_key, name, lead, gone, private_id, forgotten) VALUES (2, 1, '1001', 'Wren', 1, 0, 1001, 0);
INSERT INTO members (id, crew_id, user_key, name, lead, gone, private_id, forgotten) VALUES (3, 1, '1002', 'Ash', 0, 0, 0, 0);
INSERT INTO members (id, crew_id, user_key, name, lead, gone, private_id, forgotten) VALUES (4, 2, 'rowan', 'Rowan', 0, 0, 0, 0);
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome) VALUES (1, 'telegram/start', -1001, 1, 1, 'message', 0, 0, '', 1934802000000, 1934802000000, '');
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome) VALUES (2, 'telegram', 41, 1, 2, 'message', 11, 0, 'add breeder 7', 1934802000000, 1934802001000, 'logged');
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome) VALUES (3, 'telegram', 42, 1, 2, 'message', 12, 0, 'confine 7 red pin, bees in', 1934805600000, 1934805601000, 'logged');
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome) VALUES (4, 'telegram', 43, 1, 3, 'message', 13, 0, 'graft 45 from 7 into B2', 1935151200000, 1935151201000, 'logged');
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome) VALUES (5, 'telegram', 44, 1, 3, 'message', 14, 0, 'not 45, 54', 1935151260000, 1935151261000, 'logged');
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome) VALUES (6, 'telegram', 45, 1, 2, 'message', 15, 0, 'skip, too wet', 1935237600000, 1935237601000, 'logged');
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome) VALUES (7, 'telegram', 46, 1, 2, 'message', 16, 0, 'good morning all', 1935237660000, 1935237661000, 'silent');
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, reply_to, text, said_at, read_at, outcome) VALUES (8, 'console', 1, 2, 4, 'message', -1, 0, 'add breeder 12', 1935237660000, 1935237661000, 'logged');
INSERT INTO offsets (source, next) VALUES ('telegram', 47);
INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id, salt, words_hash, hash) VALUES (1, 1, 1, 1, 1934802000000, 1934802000000, 'set', '', '', '', NULL, NULL, 0, '', '', '{"key":"zone","value":"America/Chicago"}', NULL, '', 0, X'E26E31BA8A9FDEBE456793BEAF52EAF3', X'3EB6540EA49C409BD361F48730BD5E40BC06212C4EC25268C8E550479038CCFE', X'1915FE2F2B76203C2160E061AA33E9BAC9C4A4D0DE29EAA732AA226DACB852E3');
INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id, salt, words_hash, hash) VALUES (2, 1, 2, 2, 1934802000000, 1934802000000, 'did', 'add', 'breeder', '7', NULL, NULL, 0, '', '', '{}', NULL, 'add breeder 7', 11, X'35A0F6E58D81864896DF888DBCB9C48F', X'67E7CB3291389F178F59B9890594725C348F4461ED9BFC2D5F6EB9EC6690B3DF', X'2E5CA04E60DCF398EE05EDFFC2543ED60A967A21D2F0D3F039DA14BC5A2217F6');
INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id, salt, words_hash, hash) VALUES (3, 1, 3, 2, 1934805600000, 1934805600000, 'did', 'confine', 'breeder', '7', NULL, NULL, 0, '', 'red', '{"bees":true}', NULL, 'confine 7 red pin, bees in', 12, X'2C1C210C050257CFDC6EB05349F7EBEF', X'D51D8CB52A4AD782A4325628FE313639C7FB70CD7E86A173759DFB4356BA3D61', X'3E42D8ECAF592B472CC1E0DFD2A5A8AAA2523E75FF48B99468BF2A8013C8B998');
INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id, salt, words_hash, hash) VALUES (4, 1, 4, 3, 1935151200000, 1935151200000, 'did', 'graft', 'batch', '1', 45, NULL, 7, 'B2', '', '{}', NULL, 'graft 45 from 7 into B2', 13, X'8AD30835D27CDA9529F394E4EB44D0E0', X'97F22810BC220587D623A74432999B2E4A9EF9E3F57F2FDF74CCF9FEE48623B5', X'610ACF71FBC571A2603A655E2393DF0CDA7409A8A2477526483F9497336E71B0');
INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id, salt, words_hash, hash) VALUES (5, 1, 5, 3, 1935151260000, 1935151200000, 'amend', 'graft', 'batch', '1', 54, NULL, 7, 'B2', '', '{}', 4, 'not 45, 54', 14, X'57D0ADF90929729D4054B147D9971B2D', X'13A4E2E93A28226344D04CAA6F988F7DB7513AAF46020DEF6BAEA1E41000E63D', X'944D45E3B892E5A467FF6FCF9B110D488C1EAA8282B706E3303D0120859DA4C1');
INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id, salt, words_hash, hash) VALUES (6, 1, 6, 2, 1935237600000, 1935237600000, 'skip', 'accept', 'batch', '1', NULL, NULL, 0, '', '', '{"reason":"too wet"}', NULL, 'skip, too wet', 15, X'2FE4D4D5FD0924686DA4F9147C39A6A5', X'0C3D7FB204862C54515F3F8E8531FC705DD2988152ACE4887553D25E15E9B50B', X'459F0AEB47BE541038E3FCD4CB355174CBFE3C5BCDC171C92041B96C7D741982');
INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id, salt, words_hash, hash) VALUES (7, 2, 8, 4, 1935237660000, 1935237660000, 'did', 'add', 'breeder', '12', NULL, NULL, 0, '', '', '{}', NULL, 'add breeder 12', -1, X'52B834B5F1B087C759A06F58F77BA777', X'0FC15766DBD06A57380D016CCEC23DD42A8BF3BA52FA2F2DACA7CCDD5A34B24A', X'CACC5BA1A31D101DC6FDAD49E485A1D49E82AAD3FAB1F1ED864AC3536CD11759');
INSERT INTO outbox (id, crew_id, key, kind, ping, task_key, step, subject, day, fire_at, due_at, priority, state, attempt, lease_until, reply_to, update_row, text, buttons, message_id, sent_at, answered, reason, chat_id, answers, edits, attach) VALUES (1, 1, 'answer/2', 'reply', '', '', '', '', '', 1934802001000, 1934802001000, 0, 'sent', 0, 0, 0, 0, 'Breeder 7 is on the list.', '[]', 9, 1934802001000, 0, '', 0, 0, 0, '');
INSERT INTO join_codes (code_hash, made_at, used_at) VALUES ('00ff', 1934802000000, 1934802000001);
INSERT INTO set_aside (source, update_id, read_at, raw) VALUES ('telegram', 40, 1934802000000, '{');
INSERT INTO notes (id, crew_id, key, words, what, made_at, told) VALUES (1, 1, 'twin/2031-04-24', 'g_note_twin', '', 1934802000000, 0);
INSERT INTO calendar_events (crew_id, key, sequence, cancelled, changed_at, end_at, body) VALUES (1, 'batch 1/move', 2, 0, 1935151261000, 1936000000000, 'move');
INSERT INTO calendar_links (crew_id, link_hash, made_at) VALUES (1, 'ff00', 1935151261000);
INSERT INTO identity (one, id) VALUES (1, '46e1c1bdc942ea82fdc177e08e008048');
CREATE INDEX updates_message ON updates (crew_id, message_id);
CREATE INDEX entries_subject ON entries (crew_id, subject_kind, subject_key, id);
CREATE INDEX entries_update ON entries (update_row);
CREATE INDEX entries_member ON entries (crew_id, member_id, id);
CREATE INDEX entries_set ON entries (crew_id, id) WHERE subject_kind = '';
CREATE TRIGGER entries_no_delete BEFORE DELETE ON entries
BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END;
CREATE INDEX tasks_open ON tasks (crew_id, best) WHERE state = 'open';
CREATE INDEX outbox_due ON outbox (due_at, priority, id) WHERE state = 'queued';
CREATE INDEX outbox_lease ON outbox (lease_until) WHERE state = 'claimed';
CREATE INDEX outbox_message ON outbox (crew_id, message_id) WHERE message_id <> 0;
CREATE INDEX entries_flow ON entries (crew_id, id) WHERE step IN ('dearth', 'flow');
CREATE INDEX entries_message ON entries (crew_id, message_id) WHERE message_id <> 0;
CREATE INDEX entries_ref ON entries (ref) WHERE ref IS NOT NULL;
CREATE INDEX notes_kept ON notes (crew_id) WHERE told = 0;
CREATE TRIGGER dropped_words_no_update BEFORE UPDATE ON dropped_words
BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END;
CREATE TRIGGER dropped_words_no_delete BEFORE DELETE ON dropped_words
BEGIN SELECT RAISE(ABORT, 'the logbook is append-only'); END;
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
CREATE INDEX photos_about ON photos (crew_id, about_id);
CREATE INDEX photos_album ON photos (crew_id, album) WHERE album <> '';
CREATE INDEX photo_lines_entry ON photo_lines (entry_id);
