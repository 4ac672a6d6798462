package store

import "sync/atomic"

// Work is what a database was asked to do since it was opened. It grows with what is
// to be done and must not grow with what is in the file: tests count it, since times
// tell of the machine.
type Work struct {
	Statements int64 // run, reading and writing
	Rows       int64 // read
	Commits    int64 // of transactions that may write, each of which waits for the disk once
}

type work struct{ statements, rows, commits atomic.Int64 }

// Work so far.
func (d *DB) Work() Work {
	return Work{d.work.statements.Load(), d.work.rows.Load(), d.work.commits.Load()}
}

// Less is the work since an earlier count.
func (w Work) Less(before Work) Work {
	return Work{w.Statements - before.Statements, w.Rows - before.Rows, w.Commits - before.Commits}
}
