package rules

import (
	"encoding/json"
	"fmt"
	"strings"
)

// Describe writes down all that a crew gives out, for comparing two.
func (c *Crew) Describe() string {
	var b strings.Builder
	out := json.NewEncoder(&b)
	put := func(v any) {
		if err := out.Encode(v); err != nil {
			panic(err) // only plain structs of ours come here
		}
	}
	s := c.Settings()
	fmt.Fprintf(&b, "%d lines to %d\n%v %v %v %v %v %v %v %v %v %v %v %v %v %v %v %v %v %v\n", c.Len(), c.Last(), s.Zone, s.Lang, s.Evening, s.Morning, s.QuietFrom, s.QuietTo,
		s.Wake, s.Pin, s.Checks, s.CheckAt, s.WorkFrom, s.WorkTo, s.DaysOff, s.MoveAt, s.SigmaBatch, s.SigmaCell, s.Incubator, s.Own)
	put(s.Leaves)
	put(s.Table.Rows)
	for _, kind := range []Kind{OrderKind, IncubatorKind, BreederKind, BatchKind, BuilderKind, YardKind, NucKind, StockKind, MemberKind, ReminderKind} {
		for _, subject := range c.Subjects(kind) {
			fmt.Fprintln(&b, subject)
			put(c.Effective(subject))
			put(c.Tasks(subject))
			if kind == BreederKind {
				put(c.Combs(subject.Number()))
			}
		}
	}
	for _, list := range []any{c.Breeders(), c.Batches(), c.Builders(), c.Yards(), c.Boards(), c.Booked()} {
		put(list)
	}
	return b.String()
}
