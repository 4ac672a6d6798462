package rules

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stockSeason writes the lines of a crew that catches queens.
type stockSeason struct {
	lines []Entry
	at    time.Time
}

func newStockSeason(batches int) *stockSeason {
	s := &stockSeason{at: time.Date(2031, 5, 1, 8, 0, 0, 0, time.UTC)}
	for n := 1; n <= batches; n++ {
		s.say(Entry{Step: Graft, Subject: BatchSubject(n), Count: stockN(40), From: 7, Into: "B1"})
	}
	s.at = s.at.Add(40 * 24 * time.Hour)
	return s
}

func stockN(n int) *int { return &n }

func (s *stockSeason) say(e Entry) int64 {
	s.at = s.at.Add(time.Hour)
	e.ID, e.Said = int64(len(s.lines)+1), s.at
	if e.Action == "" {
		e.Action = Did
	}
	if e.Happened.IsZero() {
		e.Happened = s.at
	}
	s.lines = append(s.lines, e)
	return e.ID
}

func (s *stockSeason) stock() Stock { return Fold(DefaultSettings(), s.lines).Stock() }

func queensOf(batch, n int, yard string) Entry {
	return Entry{Step: Catch, Subject: BatchSubject(batch), Count: stockN(n), Into: yard}
}

func ofStock(step Step, n int, d Detail) Entry {
	return Entry{Step: step, Subject: StockSubject(), Count: stockN(n), Detail: d}
}

func TestStockOfABankWithOneDead(t *testing.T) {
	s := newStockSeason(1)
	s.say(queensOf(1, 24, "North"))
	s.say(Entry{Step: Marked, Subject: BatchSubject(1), Count: stockN(24), Mark: "white", Detail: Detail{Tags: "1-24"}})
	s.say(Entry{Step: Banked, Subject: BatchSubject(1), Count: stockN(24), Into: "B2"})
	s.say(Entry{Step: Lose, Subject: StockSubject(), Count: stockN(1), Into: "B2"})
	s.say(ofStock(Handed, 6, Detail{Customer: 1, Tags: "1-6"}))
	s.say(ofStock(Handed, 2, Detail{Customer: 1, Back: true}))
	s.say(Entry{Step: Lose, Subject: StockSubject(), Count: stockN(1), Detail: Detail{Customer: 1, Cause: CauseArrival}})
	s.say(Entry{Step: Introduced, Subject: StockSubject(), Count: stockN(4), Into: "Creek", Detail: Detail{Out: "B2"}})

	k := s.stock()
	n, _ := k.Bank("B2")
	assert.Equal(t, 24-1-6-4, n)
	assert.Equal(t, 2, k.Count(InHand), "what came back is in hand")
	assert.Equal(t, CustomerTally{Customer: 1, Got: 6, Back: 2, Dead: 1, Last: k.Customers[0].Last}, k.Customer(1))
	assert.Equal(t, 3, k.Count(AtCustomer))
	assert.Equal(t, 2, k.Count(DeadQueen))
	assert.Equal(t, 4, k.Count(InColony))
	assert.Zero(t, k.Untold)

	// Tag 17 never went by name: she is in the bank, dead or at Creek, and from batch 1.
	where := map[Standing]bool{}
	for _, l := range k.Tagged(17, 0) {
		assert.Equal(t, 1, l.Batch)
		assert.Equal(t, "North", l.Yard)
		where[l.Is] = true
	}
	assert.Equal(t, map[Standing]bool{InBank: true, DeadQueen: true, InColony: true}, where)
	for _, l := range k.Tagged(3, 2031) {
		assert.NotEqual(t, InBank, l.Is, "1 to 6 were taken out of it by number")
	}
	assert.Empty(t, k.Tagged(25, 0))
	assert.Empty(t, k.Tagged(3, 2030), "numbers begin anew each year")
}

func TestStockTakesTheLongestBankedFirst(t *testing.T) {
	s := newStockSeason(2)
	s.say(queensOf(1, 10, "North"))
	s.say(ofStock(Banked, 10, Detail{}))
	s.at = s.at.Add(20 * 24 * time.Hour)
	s.say(queensOf(2, 5, "Creek"))
	s.say(Entry{Step: Banked, Subject: BatchSubject(2), Count: stockN(5), Into: "B2"})
	s.say(ofStock(Handed, 12, Detail{Customer: 3}))
	byBatch := map[int]int{}
	k := s.stock()
	for _, l := range k.Lots {
		if l.Is == AtCustomer {
			byBatch[l.Batch] += l.Count
		}
	}
	assert.Equal(t, map[int]int{1: 10, 2: 2}, byBatch)
	assert.Equal(t, []string{"B2"}, k.Banks())
}

func TestStockOfMoreThanThereWere(t *testing.T) {
	s := newStockSeason(1)
	s.say(queensOf(1, 5, "North"))
	hand := s.say(ofStock(Handed, 8, Detail{Customer: 1}))
	k := s.stock()
	assert.Equal(t, 3, k.Untold)
	assert.Equal(t, 8, k.Count(AtCustomer))
	// The catch that was told too late fills the gap.
	late := queensOf(1, 3, "North")
	late.Happened = s.at.Add(-90 * time.Minute)
	s.say(late)
	assert.Zero(t, s.stock().Untold)
	s.say(Entry{Action: Void, Ref: hand, Subject: StockSubject(), Step: Handed})
	k = s.stock()
	assert.Equal(t, 8, k.Count(InHand))
	assert.Zero(t, k.Customer(1).Got)
}

func TestStockOfOldLogbooks(t *testing.T) {
	s := newStockSeason(1)
	s.say(queensOf(1, 30, "North"))
	k := s.stock()
	later := s.at.Add(LongestInHand + time.Hour)
	assert.Equal(t, 30, k.Free(s.at))
	assert.Zero(t, k.Free(later), "nothing more was told of them")
	assert.Equal(t, 30, k.Forgotten(later))
	assert.Empty(t, Fold(DefaultSettings(), s.lines).Tasks(StockSubject()), "no line before hand-overs were logged asks for anything")
}

func TestTags(t *testing.T) {
	for in, want := range map[string]string{"1-24": "1-24", "3,1-2, 9": "1-3,9", "17": "17", "1–3": "", "4-2": "", "2,2": "", "0-3": "", "99999": "", "": ""} {
		got, ok := ParseTags(in)
		assert.Equal(t, want != "", ok, in)
		assert.Equal(t, want, got.String(), in)
	}
	for year, want := range map[int]string{2026: "white", 2031: "white", 2027: "yellow", 2033: "red", 2029: "green", 2030: "blue", 2025: "blue"} {
		assert.Equal(t, want, MarkColour(year), year)
	}
}

// recount goes over the lines with nothing but a number for each place: an account of its own
// of how many are where.
func recount(lines []Entry) (where map[string]int, untold int) {
	where = map[string]int{}
	list := slices.Clone(Effective(lines))
	take := func(n int, places ...string) {
		for _, p := range places {
			k := min(n, where[p])
			where[p] -= k
			n -= k
		}
		untold += n
	}
	for _, e := range list {
		if e.Action != Did {
			continue
		}
		switch n := *e.Count; {
		case e.Step == Catch:
			where["hand"] += n
			where["caught"] += n
		case e.Step == Banked:
			take(n, "hand")
			where["B"] += n
		case e.Step == Introduced:
			take(n, "hand", "B")
			where["colony"] += n
		case e.Step == Lose && e.Detail.Cause == CauseArrival:
			take(n, fmt.Sprint("customer", e.Detail.Customer))
			where["dead"] += n
		case e.Step == Lose && e.Into != "":
			take(n, "B")
			where["dead"] += n
		case e.Step == Lose:
			take(n, "hand", "B")
			where["dead"] += n
		case e.Step == Handed && e.Detail.Back:
			take(n, fmt.Sprint("customer", e.Detail.Customer))
			where["hand"] += n
		case e.Step == Handed:
			take(n, "hand", "B")
			where[fmt.Sprint("customer", e.Detail.Customer)] += n
		}
	}
	return where, untold
}

// TestStockConserves plays random seasons with lines told late, taken back and put right, and
// holds the sums against a count of its own; a crew folded step by step comes to the same.
func TestStockConserves(t *testing.T) {
	seasons := 60
	if os.Getenv("YARDBELL_TESTS") == "all" {
		seasons = 3000
	}
	for seed := range seasons {
		rng := rand.New(rand.NewPCG(uint64(seed), 17))
		s := newStockSeason(3)
		grafts := len(s.lines)
		steps := NewCrew(DefaultSettings())
		for _, e := range s.lines {
			steps.Apply(e)
		}
		open := []int64{}
		tagged := seed%2 == 1 // by number they are taken from where they are, which a count of places cannot know
		for range 5 + rng.IntN(40) {
			n := 1 + rng.IntN(12)
			d := Detail{Customer: 1 + rng.IntN(3)}
			var e Entry
			switch rng.IntN(10) {
			case 0, 1, 2:
				e = queensOf(1+rng.IntN(3), n+6, "North")
			case 3:
				e = ofStock(Marked, n, Detail{Tags: fmt.Sprintf("%d-%d", 1+rng.IntN(50), 60+rng.IntN(9))})
				e.Mark = "white"
			case 4:
				e = ofStock(Banked, n, Detail{})
				e.Into = "B"
			case 5, 6:
				if tagged && rng.IntN(2) == 0 {
					d.Tags = fmt.Sprintf("%d-%d", 1+rng.IntN(30), 30+rng.IntN(30))
				}
				e = ofStock(Handed, n, d)
			case 7:
				d.Back = true
				e = ofStock(Handed, n, d)
			case 8:
				e = ofStock(Lose, n, Detail{})
				if rng.IntN(2) == 0 {
					e.Into = "B"
				} else if rng.IntN(2) == 0 {
					e.Detail = Detail{Customer: d.Customer, Cause: CauseArrival}
				}
			case 9:
				e = ofStock(Introduced, n, Detail{})
				e.Into = "Creek"
			}
			if len(open) > 0 && rng.IntN(6) == 0 {
				old := s.lines[open[rng.IntN(len(open))]-1]
				e = old
				e.Action, e.Ref, e.Count = []Action{Void, Amend}[rng.IntN(2)], old.ID, stockN(n)
			} else if rng.IntN(4) == 0 {
				e.Happened = s.at.Add(-time.Duration(rng.IntN(72)) * time.Hour)
			}
			id := s.say(e)
			if e.Ref == 0 {
				open = append(open, id)
			}
			steps.Apply(s.lines[id-1])
			steps.Settle()
		}
		got := s.stock()
		require.Equal(t, got, steps.Stock(), "seed %d: step by step", seed)
		require.Equal(t, got.Caught+got.Untold, got.Count(InHand)+got.Count(InBank)+got.Count(AtCustomer)+got.Count(InColony)+got.Count(DeadQueen), "seed %d", seed)
		where, untold := recount(s.lines[grafts:])
		banked, _ := got.Bank("B")
		sold := 0
		for _, c := range got.Customers {
			n := 0
			for _, l := range got.Lots {
				if l.Is == AtCustomer && l.Who == c.Customer {
					n += l.Count
				}
			}
			require.Equal(t, where[fmt.Sprint("customer", c.Customer)], n, "seed %d customer %d", seed, c.Customer)
			sold += n
		}
		hand := got.Count(InHand)
		if tagged {
			hand, banked = where["hand"], where["B"] // the sum above holds them
		} else {
			require.Equal(t, untold, got.Untold, "seed %d", seed)
		}
		require.Equal(t, []int{where["caught"], where["hand"], where["B"], where["dead"], where["colony"]},
			[]int{got.Caught, hand, banked, got.Count(DeadQueen), got.Count(InColony)}, "seed %d", seed)
		require.Equal(t, sold, got.Count(AtCustomer))
		for _, l := range got.Lots {
			require.Positive(t, l.Count, "seed %d", seed)
			require.True(t, slices.IsSorted(l.Tags), "seed %d: %v", seed, l.Tags)
		}
	}
}

// stockRefusal is a line about caught queens and what is asked of it.
type stockRefusal struct {
	e    Entry
	want string
	had  any
	got  *Refusal
}

func stockRefusals(*testing.T) []stockRefusal {
	s := newStockSeason(2)
	s.say(queensOf(1, 10, "North"))
	s.say(Entry{Step: Marked, Subject: BatchSubject(1), Count: stockN(4), Mark: "white", Detail: Detail{Tags: "1-4"}})
	s.say(Entry{Step: Banked, Subject: StockSubject(), Count: stockN(6), Into: "B2"})
	s.say(ofStock(Handed, 2, Detail{Customer: 1}))
	k := s.stock()
	list := []stockRefusal{
		{ofStock(Handed, 8, Detail{Customer: 2}), "", nil, nil},
		{ofStock(Handed, 9, Detail{Customer: 2}), "more_than_stock", 8, nil},
		{ofStock(Handed, 3, Detail{Customer: 1, Back: true}), "more_than_got", 2, nil},
		{ofStock(Handed, 1, Detail{Customer: 2, Back: true}), "more_than_got", 0, nil},
		{Entry{Step: Lose, Subject: StockSubject(), Count: stockN(7), Into: "B2"}, "more_than_bank", 6, nil},
		{ofStock(Banked, 3, Detail{}), "more_than_hand", 2, nil},
		{Entry{Step: Handed, Subject: BatchSubject(2), Count: stockN(1)}, "more_than_stock", 0, nil},
		{Entry{Step: Marked, Subject: StockSubject(), Count: stockN(2), Mark: "blue"}, "mark_colour", nil, nil},
		{Entry{Step: Marked, Subject: StockSubject(), Count: stockN(2), Mark: "white", Detail: Detail{Tags: "5-9"}}, "tags_count", nil, nil},
		{Entry{Step: Marked, Subject: StockSubject(), Count: stockN(2), Mark: "white", Detail: Detail{Tags: "4-5"}}, "tag_taken", nil, nil},
		{Entry{Step: Marked, Subject: StockSubject(), Count: stockN(2), Mark: "white", Detail: Detail{Tags: "5-6"}}, "", nil, nil},
	}
	for i := range list {
		list[i].e.Happened = s.at
		list[i].got = CheckStock(list[i].e, k, time.UTC)
	}
	return list
}

func TestCheckStock(t *testing.T) {
	for _, c := range stockRefusals(t) {
		if c.want == "" {
			assert.Nil(t, c.got, "%v", c.e)
			continue
		}
		require.NotNil(t, c.got, c.want)
		assert.Equal(t, c.want, c.got.Code)
		if c.had != nil {
			assert.Equal(t, c.had, c.got.Args["Had"], c.want)
		}
	}
	zone := time.UTC
	s := newStockSeason(1)
	s.say(queensOf(1, 10, "North"))
	s.say(Entry{Step: Banked, Subject: StockSubject(), Count: stockN(6), Into: "B2"})
	k := s.stock()
	assert.Equal(t, 6, k.TooLongBanked(s.at.Add(LongestBank+2*time.Hour)))
	assert.Zero(t, k.TooLongBanked(s.at.Add(LongestBank-time.Hour)))
	friday := time.Date(2031, 6, 13, 12, 0, 0, 0, zone)
	assert.True(t, OverWeekend(friday, zone))
	assert.False(t, OverWeekend(friday.Add(-3*24*time.Hour), zone))
}
