package store

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
)

// This file brings a file of every earlier schema forward. The files are kept in
// testdata as the statements that make them. A schema that was released never changes,
// so that its file is written once, when the next one comes:
//
//	YARDBELL_SCHEMA=7 go test ./store -run TestWriteSchema

// newestSchema is what this version writes.
func newestSchema(t *testing.T) int {
	list, err := filepath.Glob("migrations/*.sql")
	require.NoError(t, err)
	return len(list)
}

// season is what a crew of that time had logged, in the columns of the first schema.
const season = `
INSERT INTO crews (id, source, chat_id, created_at) VALUES (1, 'telegram', -1001, 1934802000000), (2, 'console', 1, 1934802000000);
INSERT INTO members (id, crew_id, user_key, name) VALUES (1, 1, '', 'Yardbell'), (2, 1, '1001', 'Wren'), (3, 1, '1002', 'Ash'), (4, 2, 'rowan', 'Rowan');
INSERT INTO updates (id, source, update_id, crew_id, member_id, kind, message_id, text, said_at, read_at, outcome) VALUES
 (1, 'telegram/start', -1001, 1, 1, 'message', 0, '', 1934802000000, 1934802000000, ''),
 (2, 'telegram', 41, 1, 2, 'message', 11, 'add breeder 7', 1934802000000, 1934802001000, 'logged'),
 (3, 'telegram', 42, 1, 2, 'message', 12, 'confine 7 red pin, bees in', 1934805600000, 1934805601000, 'logged'),
 (4, 'telegram', 43, 1, 3, 'message', 13, 'graft 45 from 7 into B2', 1935151200000, 1935151201000, 'logged'),
 (5, 'telegram', 44, 1, 3, 'message', 14, 'not 45, 54', 1935151260000, 1935151261000, 'logged'),
 (6, 'telegram', 45, 1, 2, 'message', 15, 'skip, too wet', 1935237600000, 1935237601000, 'logged'),
 (7, 'telegram', 46, 1, 2, 'message', 16, 'good morning all', 1935237660000, 1935237661000, 'silent'),
 (8, 'console', 1, 2, 4, 'message', -1, 'add breeder 12', 1935237660000, 1935237661000, 'logged');
INSERT INTO offsets VALUES ('telegram', 47);
INSERT INTO entries (id, crew_id, update_row, member_id, said_at, happened_at, action, step, subject_kind, subject_key, count, of, from_breeder, into_place, mark, detail, ref, raw, message_id) VALUES
 (1, 1, 1, 1, 1934802000000, 1934802000000, 'set', '', '', '', NULL, NULL, 0, '', '', '{"key":"zone","value":"America/Chicago"}', NULL, '', 0),
 (2, 1, 2, 2, 1934802000000, 1934802000000, 'did', 'add', 'breeder', '7', NULL, NULL, 0, '', '', '{}', NULL, 'add breeder 7', 11),
 (3, 1, 3, 2, 1934805600000, 1934805600000, 'did', 'confine', 'breeder', '7', NULL, NULL, 0, '', 'red', '{"bees":true}', NULL, 'confine 7 red pin, bees in', 12),
 (4, 1, 4, 3, 1935151200000, 1935151200000, 'did', 'graft', 'batch', '1', 45, NULL, 7, 'B2', '', '{}', NULL, 'graft 45 from 7 into B2', 13),
 (5, 1, 5, 3, 1935151260000, 1935151200000, 'amend', 'graft', 'batch', '1', 54, NULL, 7, 'B2', '', '{}', 4, 'not 45, 54', 14),
 (6, 1, 6, 2, 1935237600000, 1935237600000, 'skip', 'accept', 'batch', '1', NULL, NULL, 0, '', '', '{"reason":"too wet"}', NULL, 'skip, too wet', 15),
 (7, 2, 8, 4, 1935237660000, 1935237660000, 'did', 'add', 'breeder', '12', NULL, NULL, 0, '', '', '{}', NULL, 'add breeder 12', -1);
INSERT INTO outbox (crew_id, key, kind, fire_at, due_at, priority, state, text, buttons, message_id, sent_at) VALUES
 (1, 'answer/2', 'reply', 1934802001000, 1934802001000, 0, 'sent', 'Breeder 7 is on the list.', '[]', 9, 1934802001000);`

// sinceThen is what later schemas have room for.
var sinceThen = map[int]string{
	2: `UPDATE members SET lead = 1 WHERE id = 2; INSERT INTO set_aside VALUES ('telegram', 40, 1934802000000, '{');
	    INSERT INTO join_codes VALUES ('00ff', 1934802000000, 1934802000001);`,
	4: `UPDATE crews SET rights = 'admin pin', hears = 'all' WHERE id = 1; UPDATE members SET private_id = 1001 WHERE id = 2;
	    INSERT INTO notes (crew_id, key, words, what, made_at) VALUES (1, 'twin/2031-04-24', 'g_note_twin', '', 1934802000000);`,
	5: `INSERT INTO calendar_events VALUES (1, 'batch 1/move', 2, 0, 1935151261000, 1936000000000, 'move');
	    INSERT INTO calendar_links VALUES (1, 'ff00', 1935151261000);`,
	9:  `UPDATE crews SET title = 'Yard' WHERE id = 1;`,
	12: `INSERT INTO customers VALUES (1, 1, 'Haskett', 0);`,
}

// migrateTo brings a file to a schema that need not be the newest.
func migrateTo(t *testing.T, path string, version int) {
	t.Helper()
	require.NoError(t, claimFile(ctx, path))
	db, err := sql.Open("sqlite", dsn(path, "&_pragma=journal_mode(WAL)&_txlock=immediate"))
	require.NoError(t, err)
	db.SetMaxOpenConns(1)
	p, err := provider(db)
	require.NoError(t, err)
	_, err = p.UpTo(context.Background(), int64(version))
	require.NoError(t, err)
	require.NoError(t, db.Close())
}

// TestWriteSchema writes the file of a schema: its migrations and no later one, the
// lines in at the first schema as they would have been.
func TestWriteSchema(t *testing.T) {
	var version int
	if n, _ := fmt.Sscan(os.Getenv("YARDBELL_SCHEMA"), &version); n == 0 {
		t.Skip("writes testdata/schemaN.sql for YARDBELL_SCHEMA=N")
	}
	path := filepath.Join(t.TempDir(), "crew.db")
	migrateTo(t, path, 1)
	raw(t, path, season)
	for v := 2; v <= version; v++ {
		migrateTo(t, path, v)
		raw(t, path, sinceThen[v])
	}
	text := fmt.Sprintf("-- A database of schema %d, as that version left it.\nPRAGMA application_id = %d;\nPRAGMA journal_mode = WAL;\n", version, applicationID)
	require.NoError(t, os.WriteFile(fmt.Sprintf("testdata/schema%d.sql", version), []byte(text+statements(t, path)), 0o644))
}

// statements are those that make a file as it is, rows before triggers.
func statements(t *testing.T, path string) string {
	db, err := sql.Open("sqlite", "file:"+path)
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	list := func(q string, args ...any) (out []string) {
		rows, err := db.Query(q, args...)
		require.NoError(t, err)
		defer func() { _ = rows.Close() }()
		for rows.Next() {
			var s string
			require.NoError(t, rows.Scan(&s))
			out = append(out, s)
		}
		require.NoError(t, rows.Err())
		return out
	}
	var b strings.Builder
	for _, q := range list(`SELECT sql FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY rowid`) {
		b.WriteString(q + ";\n")
	}
	for _, table := range list(`SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'sqlite_sequence' ORDER BY rowid`) {
		columns := list(`SELECT name FROM pragma_table_info(?) WHERE name <> 'tstamp'`, table)
		var quoted []string
		for _, c := range columns {
			quoted = append(quoted, `quote("`+c+`")`)
		}
		for _, row := range list(`SELECT ` + strings.Join(quoted, ` || ', ' || `) + ` FROM ` + table) {
			fmt.Fprintf(&b, "INSERT INTO %s (%s) VALUES (%s);\n", table, strings.Join(columns, ", "), row)
		}
	}
	for _, q := range list(`SELECT sql FROM sqlite_schema WHERE type IN ('index', 'trigger') AND sql IS NOT NULL ORDER BY rowid`) {
		b.WriteString(q + ";\n")
	}
	return b.String()
}

// A file of any schema comes to the schema of a new one, its logbook with it, chained;
// a copy of it as it was stays beside it.
func TestEverySchemaIsBroughtForward(t *testing.T) {
	newest := newestSchema(t)
	files, err := filepath.Glob("testdata/schema*.sql")
	require.NoError(t, err)
	var have []string
	for v := 1; v < newest; v++ {
		have = append(have, fmt.Sprintf("testdata/schema%d.sql", v))
	}
	for _, f := range have {
		require.True(t, slices.Contains(files, f), "%s is missing; see TestWriteSchema", f)
	}
	want := schema(t, fresh(t))
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			t.Parallel()
			text, err := os.ReadFile(f)
			require.NoError(t, err)
			var version int
			_, err = fmt.Sscanf(filepath.Base(f), "schema%d.sql", &version)
			require.NoError(t, err)
			dir := t.TempDir()
			path := filepath.Join(dir, "crew.db")
			raw(t, path, string(text))
			before := rowsOf(t, path)
			require.NotEmpty(t, before["entries"])

			db := openFile(t, path)
			assert.Equal(t, want, schema(t, db))
			d := &diary{t: t, db: db, now: start}
			c := d.chain()
			assert.Empty(t, c.Broken)
			assert.Equal(t, len(before["entries"]), c.Lines)
			assert.NotEmpty(t, c.Head)
			d.rebuild()
			d.do(func(tx *Tx) error {
				crews, err := tx.Crews()
				require.NoError(t, err)
				d.crew = crews[0]
				return err
			})
			d.update = 900
			d.log(rules.Entry{Step: rules.Add, Subject: rules.BreederSubject(99)})
			assert.Empty(t, d.chain().Broken, "after another line")
			require.NoError(t, db.Close())

			after := rowsOf(t, path)
			for table, rows := range before {
				if slices.Contains([]string{"breeders", "combs", "batches", "builders", "yards", "tasks", "goose_db_version"}, table) {
					continue
				}
				for _, row := range rows {
					assert.True(t, slices.ContainsFunc(after[table], func(s string) bool { return strings.HasPrefix(s, row) }), "%s: %s", table, row)
				}
			}
			kept := fmt.Sprintf("%s.before-v%d", path, newest)
			if version == newest {
				assert.NoFileExists(t, kept)
				return
			}
			assert.Equal(t, before, rowsOf(t, kept), "the copy from before")
		})
	}
}

// rowsOf are the rows of a file by table. A column that a later schema adds comes last.
func rowsOf(t *testing.T, path string) map[string][]string {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+path)
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	out := map[string][]string{}
	var tables []string
	rows, err := db.Query(`SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`)
	require.NoError(t, err)
	for rows.Next() {
		var s string
		require.NoError(t, rows.Scan(&s))
		tables = append(tables, s)
	}
	require.NoError(t, rows.Close())
	for _, table := range tables {
		rows, err := db.Query(`SELECT * FROM ` + table)
		require.NoError(t, err)
		columns, err := rows.Columns()
		require.NoError(t, err)
		for rows.Next() {
			v, into := make([]any, len(columns)), make([]any, len(columns))
			for i := range v {
				into[i] = &v[i]
			}
			require.NoError(t, rows.Scan(into...))
			s := ""
			for _, x := range v {
				s += fmt.Sprintf("%v|", x)
			}
			out[table] = append(out[table], s)
		}
		require.NoError(t, rows.Close())
	}
	return out
}
