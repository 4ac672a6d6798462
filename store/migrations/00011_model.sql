-- +goose Up
-- What a crew's logbook leads to is folded into its model in memory; of derived rows those
-- of tasks stay, which the tick reads.
DROP TABLE breeders;
DROP TABLE combs;
DROP TABLE batches;
DROP TABLE builders;
DROP TABLE yards;
