-- +goose Up
-- Every index is a page or more that each message writes. Tasks and their pings are found
-- by their keys, which begin with the subject; a crew's batches are read together.

DROP INDEX tasks_subject;
DROP INDEX outbox_task;
DROP INDEX batches_breeder;
DROP INDEX batches_builder;

-- +goose Down
CREATE INDEX tasks_subject ON tasks (crew_id, subject_kind, subject_key);
CREATE INDEX outbox_task ON outbox (crew_id, task_key) WHERE task_key <> '';
CREATE INDEX batches_breeder ON batches (crew_id, breeder);
CREATE INDEX batches_builder ON batches (crew_id, builder);
