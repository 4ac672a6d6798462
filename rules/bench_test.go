package rules

import "testing"

// A crew's every message plans its subject anew, so these two are the cost of a
// reply. Aim: SafeUntil under 300 µs.
func BenchmarkSafeUntil(b *testing.B) {
	e := usual()
	b.ReportAllocs()
	for b.Loop() {
		e.SafeUntil()
	}
}

func BenchmarkBatchTasks(b *testing.B) {
	s := crew()
	entries := Effective(season().entries)
	b.ReportAllocs()
	for b.Loop() {
		batch, _ := BatchOf(1, entries, nil, s)
		BatchTasks(batch, entries, s)
	}
}

// season is a whole round as a crew logs it.
func season() *book {
	var b book
	s := BatchSubject(1)
	h := func(n float64) with {
		return func(e *Entry) { e.Happened = grafted.Add(Hours(n)); e.Said = e.Happened }
	}
	b.add(Graft, s, grafted, count(45), from(7), into("B2"))
	b.add(Accept, s, grafted, h(24), count(38))
	b.add(Finish, s, grafted, h(25))
	b.add(Capped, s, grafted, h(121), count(36))
	b.add(Nucs, s, grafted, h(200), count(40), into("North"))
	b.add(Move, s, grafted, h(236), count(34), into("North"))
	b.add(Emerge, s, grafted, h(325), count(31))
	b.add(Laying, s, grafted, h(631), count(27))
	b.add(Catch, s, grafted, h(970), count(24), into("North"))
	b.add(Recell, s, grafted, h(990), count(24))
	return &b
}
