package reading

import (
	"fmt"
	"math/rand"
	"os"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	// leastKept is how many readings of a hundred stay where a word is swapped.
	leastKept = 99
	// mostSwaps is how many words of a concept a normal run puts in the place of one.
	mostSwaps = 2
)

// swapper finds words that may stand for each other.
type swapper struct {
	r     *Reader
	alike map[string][]string // single words that have the same senses, sorted
}

// signature spells senses: concept, form, value and language of each.
func signature(list []sense) string {
	var out []string
	for _, s := range list {
		out = append(out, fmt.Sprint(s))
	}
	sort.Strings(out)
	return strings.Join(out, " ")
}

func newSwapper(r *Reader) *swapper {
	s := &swapper{r: r, alike: map[string][]string{}}
	for w, p := range r.lex.single {
		if letters(w) && len(r.lex.same[w]) == 0 {
			k := signature(p.senses)
			s.alike[k] = append(s.alike[k], w)
		}
	}
	for _, list := range s.alike {
		sort.Strings(list)
	}
	return s
}

// swapped gives every message in which one word of a text is another of the same concept,
// form, value and language. Where the other word makes a phrase or an entity with its
// neighbours the lexicon binds it, and it says something else: it is left out. At most
// most of each word, drawn by rng.
func (s *swapper) swapped(text string, k *Known, most int, rng *rand.Rand) (out []string) {
	l := s.r.newLattice(text, k)
	items := l.readings()[0]
	for i, it := range items {
		t := l.toks[it.from]
		if !it.word() || it.slip || it.to != it.from+1 || len(it.senses) == 0 || fold(text[t.from:t.to]) != t.text {
			continue
		}
		list := s.alike[signature(it.senses)]
		n := 0
		for _, x := range rng.Perm(len(list)) {
			w := list[x]
			if w == t.text {
				continue
			}
			if n == most {
				break
			}
			other := text[:t.from] + w + text[t.to:]
			if now := s.r.newLattice(other, k).readings()[0]; len(now) == len(items) && now[i].text == w && signature(now[i].senses) == signature(it.senses) {
				out = append(out, other)
				n++
			}
		}
	}
	return out
}

// TestSwaps holds that a word stands for its concept: another one of the same sense in its
// place leaves the reading of a line as it is.
func TestSwaps(t *testing.T) {
	r, err := Load(Data())
	require.NoError(t, err)
	s := newSwapper(r)
	most := mostSwaps
	if os.Getenv("YARDBELL_SWAPS") == "all" {
		most = 1 << 20
	}
	total, kept, wrong := 0, 0, 0
	lost := map[string]int{}
	for i, l := range allLines(t) {
		if !allTests && i%3 != 0 {
			continue
		}
		was := r.Read(l.text, l.known)
		if verdict(l, was) != "right" || was.Outcome != Log || commandAct(was.Acts[0]) {
			continue
		}
		for _, text := range s.swapped(l.text, &l.known, most, rand.New(rand.NewSource(int64(i)))) {
			total++
			res := r.Read(text, l.known)
			switch v := verdict(l, res); v {
			case "right":
				kept++
			case "wrong", "maybe":
				wrong++
				t.Logf("wrong: %s %q of %q: %s", l.at, text, l.text, spellActs(res.Acts))
			default:
				lost[v]++
				t.Logf("%s: %s %q of %q: %v %v", v, l.at, text, l.text, res.Doubts, res.Unread)
			}
		}
	}
	t.Logf("%d swaps: %d kept, %d wrong, others %v", total, kept, wrong, lost)
	require.Greater(t, total, 1000)
	require.GreaterOrEqual(t, kept*100, total*leastKept)
	require.Zero(t, wrong)
}
