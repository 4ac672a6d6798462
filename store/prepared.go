package store

import (
	"context"
	"database/sql"
	"sync"
)

// prepared keeps the queries of the reading pool compiled. A query that is met for the
// first time runs as it is and is compiled before the next transaction begins, since
// inside one all of the pool's connections may be taken by others that ask for one too.
type prepared struct {
	db *sql.DB

	mu   sync.Mutex
	done map[string]*sql.Stmt
	met  []string
}

func newPrepared(db *sql.DB) *prepared {
	return &prepared{db: db, done: map[string]*sql.Stmt{}}
}

// compile compiles what was met since.
func (p *prepared) compile(ctx context.Context) error {
	p.mu.Lock()
	met := p.met
	p.met = nil
	p.mu.Unlock()
	for _, query := range met {
		stmt, err := p.db.PrepareContext(ctx, query)
		if err != nil {
			p.mu.Lock()
			delete(p.done, query) // to be met again
			p.mu.Unlock()
			return err
		}
		p.mu.Lock()
		p.done[query] = stmt
		p.mu.Unlock()
	}
	return nil
}

// get is the compiled query, nil where there is none yet.
func (p *prepared) get(query string) *sql.Stmt {
	p.mu.Lock()
	defer p.mu.Unlock()
	stmt, known := p.done[query]
	if !known {
		p.done[query] = nil
		p.met = append(p.met, query)
	}
	return stmt
}

// reading is a reading transaction.
type reading struct {
	tx   *sql.Tx
	p    *prepared
	used map[string]*sql.Stmt
}

func (r *reading) statement(ctx context.Context, query string) (*sql.Stmt, error) {
	if stmt := r.used[query]; stmt != nil {
		return stmt, nil
	}
	var stmt *sql.Stmt
	if done := r.p.get(query); done != nil {
		stmt = r.tx.StmtContext(ctx, done)
	} else {
		var err error
		if stmt, err = r.tx.PrepareContext(ctx, query); err != nil {
			return nil, err
		}
	}
	if r.used == nil {
		r.used = map[string]*sql.Stmt{}
	}
	r.used[query] = stmt
	return stmt, nil
}
