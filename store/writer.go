package store

import (
	"context"
	"database/sql"
	"errors"
)

// writer is the one connection that writes. It is held for as long as the file is open,
// so that every statement is compiled once, and runs its transactions by plain
// statements: those of database/sql start and end a goroutine for every query, and
// compile BEGIN and COMMIT anew each time.
type writer struct {
	pool  *sql.DB
	turn  chan struct{} // one transaction at a time
	conn  *sql.Conn
	stmts map[string]*sql.Stmt

	version int64     // SQLite's count of changes by others, as last seen
	counts  *sql.Conn // whose count that is: every connection has its own
}

func newWriter(pool *sql.DB) *writer { return &writer{pool: pool, turn: make(chan struct{}, 1)} }

// open takes the connection, again where the driver gave it up. Where there is none, the
// one that was given up stays, and is found so by the next transaction.
func (w *writer) open(ctx context.Context) error {
	conn, err := w.pool.Conn(ctx)
	if err == nil {
		w.conn, w.stmts = conn, map[string]*sql.Stmt{}
	}
	return err
}

// Close closes the connection. A transaction at work ends first.
func (w *writer) Close() error {
	w.turn <- struct{}{}
	var errs []error
	if w.conn != nil {
		for _, stmt := range w.stmts {
			errs = append(errs, stmt.Close())
		}
		errs = append(errs, w.conn.Close())
	}
	<-w.turn
	return errors.Join(append(errs, w.pool.Close())...)
}

// take waits for the transaction at work to end; nothing is to be done where the context
// ends before.
func (w *writer) take(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	select {
	case w.turn <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (w *writer) give() { <-w.turn }

// statement is a query, compiled when it is first met.
func (w *writer) statement(ctx context.Context, query string) (*sql.Stmt, error) {
	if stmt := w.stmts[query]; stmt != nil {
		return stmt, nil
	}
	stmt, err := w.conn.PrepareContext(ctx, query)
	if err == nil {
		w.stmts[query] = stmt
	}
	return stmt, err
}

func (w *writer) exec(ctx context.Context, query string) error {
	stmt, err := w.statement(ctx, query)
	if err != nil {
		return err
	}
	_, err = stmt.ExecContext(ctx)
	return err
}

// begin begins a transaction that may write from its start: one that began by reading
// would fail where another program writes before it does.
func (w *writer) begin(ctx context.Context) error {
	const query = `BEGIN IMMEDIATE`
	err := w.exec(ctx, query)
	if errors.Is(err, sql.ErrConnDone) { // the driver gave the connection up
		if err := w.open(ctx); err != nil {
			return err
		}
		err = w.exec(ctx, query)
	}
	return err
}

// commit waits for the disk. What could not be committed is to be rolled back.
func (w *writer) commit(ctx context.Context) error { return w.exec(ctx, `COMMIT`) }

// rollback ends a transaction that comes to nothing. SQLite has ended it already after
// some errors of the disk, and says so.
func (w *writer) rollback(ctx context.Context) { _ = w.exec(ctx, `ROLLBACK`) }
