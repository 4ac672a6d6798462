package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"yardbell/store"
)

// outFile gives where a command writes: the file that --out names, which only its
// owner may read, or standard output.
func outFile(e env, path string) (w io.Writer, done func() error, err error) {
	if path == "" {
		return e.out, func() error { return nil }, nil
	}
	file, err := os.OpenFile(path, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return nil, nil, fmt.Errorf("file %s cannot be written", path)
	}
	return file, file.Close, nil
}

// writeOut writes a whole file to where a command writes.
func writeOut(e env, path string, file []byte) error {
	w, done, err := outFile(e, path)
	if err != nil {
		return err
	}
	_, err = w.Write(file)
	return errors.Join(err, done())
}

// theCrew picks the crew that --crew names. Where there is one crew, nobody need
// name it.
func theCrew(tx *store.Tx, number int64) (store.Crew, error) {
	crews, err := tx.Crews()
	if err != nil {
		return store.Crew{}, err
	}
	var there []string
	for _, c := range crews {
		if c.ID == number || number == 0 && len(crews) == 1 {
			return c, nil
		}
		there = append(there, fmt.Sprint(c.ID))
	}
	switch {
	case len(crews) == 0:
		return store.Crew{}, fmt.Errorf("there is no crew in the database yet")
	case number == 0:
		return store.Crew{}, usage("several crews are in the database; name one of them with --crew: %s", strings.Join(there, ", "))
	}
	return store.Crew{}, usage("there is no crew %d in the database, only %s", number, strings.Join(there, ", "))
}
