package main

import (
	"encoding/csv"
	"encoding/json"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

// eachField gives a copy of the zero value for every field of a type, with that field
// alone set; structs are gone into. What export makes of each must differ from what it
// makes of nothing, or the field would be lost in it.
func eachField[T any](t *testing.T, try func(name string, v T)) {
	t.Helper()
	var walk func(name string, at []int, of reflect.Type)
	walk = func(name string, at []int, of reflect.Type) {
		for i := range of.NumField() {
			f := of.Field(i)
			path := append(at[:len(at):len(at)], i)
			inside := f.Type.Kind() == reflect.Struct && f.Type != reflect.TypeFor[time.Time]() && f.Type != reflect.TypeFor[rules.Subject]()
			if inside {
				walk(name+f.Name+".", path, f.Type)
				continue
			}
			var v T
			set(t, name+f.Name, reflect.ValueOf(&v).Elem().FieldByIndex(path))
			try(name+f.Name, v)
		}
	}
	walk("", nil, reflect.TypeFor[T]())
}

func set(t *testing.T, name string, v reflect.Value) {
	t.Helper()
	switch v.Interface().(type) {
	case time.Time:
		v.Set(reflect.ValueOf(time.Date(2031, 5, 4, 10, 0, 0, 0, time.UTC)))
		return
	case rules.Subject:
		v.Set(reflect.ValueOf(rules.BatchSubject(4)))
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
	case reflect.String:
		v.SetString("x")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int64:
		v.SetInt(1)
	case reflect.Float64:
		v.SetFloat(1.5)
	default:
		require.FailNow(t, "say here how it is set", "%s is a %s", name, v.Type())
	}
}

// Every field of a line of the logbook, and of a task, comes out in both forms.
func TestExportHasEveryField(t *testing.T) {
	differs := func(name string, x, none any) {
		text, err := json.Marshal(x)
		require.NoError(t, err)
		blank, err := json.Marshal(none)
		require.NoError(t, err)
		assert.NotEqual(t, string(blank), string(text), "%s is not in the JSON", name)
		assert.NotEqual(t, cells(none, false), cells(x, false), "%s is not in the sheet", name)
		assert.Len(t, cells(x, false), len(cells(x, true)))
	}
	fields := 0
	eachField(t, func(name string, l store.Line) {
		fields++
		differs(name, asExport(l, time.UTC), asExport(store.Line{}, time.UTC))
	})
	assert.Greater(t, fields, 30)
	eachField(t, func(name string, task rules.Task) {
		differs(name, asExportTask(task, 0, time.UTC, time.Time{}), asExportTask(rules.Task{}, 0, time.UTC, time.Time{}))
	})
	differs("Crew", asExportTask(rules.Task{}, 1, time.UTC, time.Time{}), asExportTask(rules.Task{}, 0, time.UTC, time.Time{}))
}

// What a crew said of litres and of the age of its larvae is in the export, as said.
func TestExportOfDetails(t *testing.T) {
	db := crewFile(t, "Wren: add breeder 7\nWren: add builder B1\nWren: add yard North 40 nucs\nWren: confine 7 red, bees in\n@ +4d\nWren: graft 45 from 7 into B1, 20 h old\nWren: fed B1 1.1 l\nWren: fed North 0.2 l to each nuc\n")
	r := call("", "export", "--db", db, "--json")
	require.Zero(t, r.code, r.err)
	assert.Equal(t, r.out, call("", "export", "--db", db).out, "JSON is what it writes by itself")
	for _, want := range []string{`"bees_in":true`, `"age_from":20,"age_to":20`, `"litres":1.1,"each":false`, `"litres":0.2,"each":true`} {
		assert.Contains(t, r.out, want)
	}
	sheet := call("", "export", "--db", db, "--format", "csv")
	require.Zero(t, sheet.code, sheet.err)
	rows, err := csv.NewReader(strings.NewReader(sheet.out)).ReadAll()
	require.NoError(t, err)
	column := func(name string) (list []string) {
		at := -1
		for i, head := range rows[0] {
			if head == name {
				at = i
			}
		}
		require.GreaterOrEqual(t, at, 0, name)
		for _, row := range rows[1:] {
			if row[at] != "" && row[at] != "false" {
				list = append(list, row[at])
			}
		}
		return list
	}
	assert.Equal(t, []string{"1.1", "0.2"}, column("litres"))
	assert.Equal(t, []string{"20"}, column("age_from"))
	assert.Equal(t, []string{"true"}, column("each"))
	assert.Equal(t, []string{"id", "said", "happened", "by", "action", "step", "subject", "count", "of", "from", "into", "mark", "ref", "setting", "value", "text"}, rows[0][:16],
		"new columns come after those that sheets are made of already")
}
