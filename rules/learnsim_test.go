package rules

import (
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// hatched are the hours after the graft at which the queens of a batch come out: of as many
// cells, in a crew whose mean is shift hours from the books. Some never do.
func hatched(rng *rand.Rand, cells int, shift, dead float64) (out []float64) {
	batch := shift + SigmaBatch*rng.NormFloat64()
	for range cells {
		age := 12 + 12*rng.Float64()
		if at := EggToQueen - HatchAfter - age + batch + SigmaCell*rng.NormFloat64(); rng.Float64() >= dead {
			out = append(out, at)
		}
	}
	return out
}

func outBy(hours []float64, at float64) (n int) {
	for _, h := range hours {
		if h <= at {
			n++
		}
	}
	return n
}

// playedRounds is a crew that grafts a round when the one before was counted: how often a
// virgin was out before the close of its last, and how many hours that close was before the
// table's.
func playedRounds(rng *rand.Rand, rounds int, shift, dead float64) (virgin bool, lost float64) {
	const cells = 40
	s := crew()
	c := NewCrew(s)
	var id int64
	at := when("2031-04-01 10:00")
	log := func(n int, step Step, when time.Time, opts ...with) {
		id++
		e := Entry{ID: id, Said: when, Happened: when, By: "Wren", Action: Did, Step: step, Subject: BatchSubject(n)}
		for _, o := range opts {
			o(&e)
		}
		c.Apply(e)
	}
	for n := 1; n <= rounds; n++ {
		hours := hatched(rng, cells, shift, dead)
		log(n, Graft, at, count(cells))
		log(n, Capped, at.Add(Hours(120)), count(cells))
		c.Settle()
		move, _ := c.Task(TaskKey(BatchSubject(n), Move, ""))
		closes := hoursAfter(at, move.Latest)
		virgin, lost = outBy(hours, closes) > 0, 240-closes
		moved := hoursAfter(at, move.Ideal)
		out := outBy(hours, moved)
		if out > 0 {
			log(n, Virgin, at.Add(Hours(moved)), count(out))
		}
		log(n, Move, at.Add(Hours(moved)), count(cells-out), into("North"))
		look := 288 + 12*rng.Float64()
		seen := outBy(hours, look) - out
		log(n, Emerge, at.Add(Hours(look)), count(seen), detail(Detail{NoneYet: seen == 0}))
		at = at.Add(14 * 24 * time.Hour)
	}
	return virgin, lost
}

// A crew whose stock comes out a day sooner, and one whose stock does as published, each
// with a round after five: 10,000 such batches where YARDBELL_TESTS=longest, 4,000 with all, else 500 in all.
func TestFiveRoundsTeach(t *testing.T) {
	n := 250
	switch os.Getenv("YARDBELL_TESTS") {
	case "longest":
		n = 10000
	case "all":
		n = 2000
	}
	for _, dead := range []float64{0, 0.15} {
		rng := rand.New(rand.NewPCG(16, 24))
		virgins, first, lost, sum := 0, 0, 0.0, 0.0
		for range n {
			if v, _ := playedRounds(rng, 1, -24, dead); v {
				first++
			}
			v, l := playedRounds(rng, 6, -24, dead)
			if v {
				virgins++
			}
			sum += l
			_, l = playedRounds(rng, 6, 0, dead)
			lost += l
		}
		share := float64(virgins) / float64(n)
		t.Logf("%g dead cells: a day sooner, a virgin before the close in %.2f %% of the first rounds, %.2f %% of the sixth (closed %.1f h sooner); as published %.2f h lost",
			dead, 100*float64(first)/float64(n), 100*share, sum/float64(n), lost/float64(n))
		assert.LessOrEqual(t, share, 0.02)
		assert.Less(t, lost/float64(n), 4.0)
	}
}
