package store

import "strings"

// mostAtOnce is how many rows one statement writes: a statement is compiled for each
// number of rows and kept.
const mostAtOnce = 16

// manyRows writes rows of so many columns, several by one statement: what a statement
// costs is mostly paid once, however many rows it writes.
func manyRows[T any](list []T, columns int, row func(T) []any, write func(values string, args []any) error) error {
	for len(list) > 0 {
		n := min(len(list), mostAtOnce)
		args := make([]any, 0, n*columns)
		for _, v := range list[:n] {
			args = append(args, row(v)...)
		}
		one := "(" + places(columns) + ")"
		if err := write(one+strings.Repeat(", "+one, n-1), args); err != nil {
			return err
		}
		list = list[n:]
	}
	return nil
}

// places are so many question marks.
func places(n int) string { return "?" + strings.Repeat(", ?", n-1) }
