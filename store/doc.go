// Package store keeps a crew's logbook in one SQLite file and everything that
// follows from it beside it.
//
// The logbook (table entries) is the truth and is only ever appended to.
// Breeders, combs, batches, builders, yards and tasks are derived: on each entry
// the pure planner of package rules runs over the subjects it touches, in the
// same transaction. Rebuild derives everything anew and must come to the same
// rows. The outbox holds every message on its way out; store/outbox.go draws its
// states.
//
// It never decides when anything is due, never says a sentence to the crew, and
// never asks the clock: each unit of work is given its time. Instants are stored
// as UTC milliseconds.
//
// Queries say "crew_id = 0 + ?" and not "= ?": SQLite looks at a bare parameter while it
// plans, and then compiles the query anew each time another crew is bound to it.
package store
