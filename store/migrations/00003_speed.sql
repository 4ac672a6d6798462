-- +goose Up
-- What every message asks for must not cost more as the logbook grows: the lines
-- about the honey flow, those of one chat message, those about one line.

CREATE INDEX entries_flow ON entries (crew_id, id) WHERE step IN ('dearth', 'flow');
CREATE INDEX entries_message ON entries (crew_id, message_id) WHERE message_id <> 0;
CREATE INDEX entries_ref ON entries (ref) WHERE ref IS NOT NULL;

-- +goose Down
DROP INDEX entries_ref;
DROP INDEX entries_message;
DROP INDEX entries_flow;
