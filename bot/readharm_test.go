package bot

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"yardbell/rules"
	"yardbell/store"
)

// harmNames are those of a crew with two breeders and a batch that stands at 36.
var harmNames = names{builders: []string{"B1", "B2"}, yards: []string{"North"}, breeders: []int{7, 12}, crew: []string{"Wren", "Ash"}, stand: []int{36, 45}}

func lines(s string) (out []string) {
	for _, l := range strings.Split(strings.TrimSpace(s), "\n") {
		out = append(out, strings.TrimSpace(l))
	}
	return out
}

func TestVirginsAmongCellsAreRead(t *testing.T) {
	for _, text := range lines(`
		one virgin is out
		on virgin is out
		a virgn hatched in B1
		virgin out
		VIRGIN OUT B1
		two virgins out in B1
		found a virgin in B1
		a queen hatched in B1
		a virgin hatched in B1 at 7:30
		a virgin emerged early from batch 1
		guys, one virgin is out already
		oh no, a virgin is out
		we have a virgin running around on the bar
		nació una virgen en la B1
		ya nació una virgen
		nacieron 2 vírgenes en la B1
		encontré una virgen en la B1
		hay una virgen afuera
		ay no, dos vírgenes sueltas en B1
		una reina nació en la B1
		emergió una virgen`) {
		r := readMany(text, harmNames).whole
		assert.Equal(t, rules.Virgin, r.step, text)
		assert.True(t, r.clear(), "%s: %q", text, r.rest)
		assert.Equal(t, strings.Contains(text, "B1"), r.builder == "B1", text)
		two := strings.Contains(text, "two") || strings.Contains(text, "2") || strings.Contains(text, "dos")
		assert.Equal(t, map[bool]int{true: 2}[two], deref(r.count), text)
	}
	for _, text := range lines(`
		is one virgin out?
		if a virgin hatches call me
		before the first virgin hatches
		no virgin out yet
		ninguna virgen suelta en B1
		31 virgins out
		the virgins are out flying
		virgins out at North
		put a virgin in B1
		the queen is out of B1
		a queen is out of B1
		introduced a virgin in B1
		caught 3 virgins that were out
		we are out of virgin olive oil
		salió la Virgen del Carmen en procesión
		cuando nazca la primera virgen`) {
		assert.NotEqual(t, rules.Virgin, readMany(text, harmNames).whole.step, text)
	}
	for _, text := range []string{"maybe a virgin is out in B1", "a queen is out in B1", "virgin B1"} {
		r := readMany(text, harmNames).whole
		assert.Equal(t, rules.Virgin, r.step, text)
		assert.True(t, r.hedged, text)
	}
	reply := harmNames
	reply.spoken, reply.hang, reply.ping = true, true, rules.Move
	for _, text := range []string{"one is out", "the first one is out already", "1 out", "ya salió una", "oh no, one hatched"} {
		r := readMany(text, reply).whole
		assert.Equal(t, rules.Virgin, r.step, text)
		assert.True(t, r.clear(), text)
	}
	for _, text := range []string{"one is out", "the first one is out already"} {
		assert.NotEqual(t, rules.Virgin, readMany(text, harmNames).whole.step, text)
	}
}

func TestBreedersGoneAreRead(t *testing.T) {
	for _, text := range lines(`
		7 died
		7 is dead
		7 died last night
		found 7 dead this morning
		breeder 7 died
		queen 7 is dead
		breeder 7 is gone
		lost breeder 7
		retire 7
		retire breeder 7
		murió la 7
		la 7 murió
		se nos murió la madre 7
		la madre 7 está muerta
		amaneció muerta la 7
		perdimos la madre 7
		retirar madre 7`) {
		r := readMany(text, harmNames).whole
		assert.Equal(t, rules.Retire, r.step, text)
		assert.Equal(t, 7, r.breeder, text)
		assert.True(t, r.clear(), "%s: %q", text, r.rest)
	}
	for _, text := range lines(`
		lost 7
		murieron 7
		3 died
		7 dead
		7 died in the cells
		7 of them died
		moved 30, 7 died
		emerged 29, 7 dead
		did 7 die?
		7 never died
		if 7 died we are done`) {
		m := readMany(text, harmNames)
		for _, r := range append([]*reading{m.whole}, readings(m.parts)...) {
			assert.False(t, r.step == rules.Retire && r.clear(), text)
		}
	}
	m := readMany("7 died, confine 12", harmNames)
	if assert.Len(t, m.parts, 2) {
		assert.Equal(t, rules.Retire, m.parts[0].r.step)
		assert.Equal(t, rules.Confine, m.parts[1].r.step)
	}
}

func readings(parts []part) (out []*reading) {
	for _, p := range parts {
		out = append(out, p.r)
	}
	return out
}

// Rogue cells that are there are no search that found none.
func TestRoguesThere(t *testing.T) {
	for _, text := range lines(`
		there are rogue cells in B1
		rogue cells in B1
		B1 has rogue cells
		checked B1, there are rogue cells
		saw rogues in B1
		emergency cells in B1
		hay celdas de emergencia en B1
		B1 tiene celdas de emergencia
		revisé B1 y hay celdas de emergencia
		encontré celdas de emergencia en B1
		hay celdas ajenas en la B1`) {
		r := readMany(text, harmNames).whole
		assert.Equal(t, rules.Rogue, r.step, text)
		assert.True(t, r.found, text)
		assert.False(t, r.clear(), text)
	}
	for _, text := range lines(`
		B1 clear
		B1 looks clean
		no rogue cells in B1
		2 rogue cells in B1
		B1 limpia
		no hay celdas de emergencia en B1
		revisé B1, sin celdas de emergencia`) {
		r := readMany(text, harmNames).whole
		assert.Equal(t, rules.Rogue, r.step, text)
		assert.False(t, r.found, text)
	}
}

// What cannot be logged yet is no step that sounds like it; beside a report of its own
// it does not hide that.
func TestWhatCannotBeLoggedYet(t *testing.T) {
	for kind, texts := range map[string]string{
		aLoss: `
			dropped 5 cells
			dropped a cell
			lost 7 cells
			lost 7
			3 cells got chilled
			2 dead in the cells
			all cells dead
			lost batch 1
			batch 1 is gone
			lost the bar
			se cayeron 5 celdas
			perdimos 7 celdas
			murieron 3 celdas
			2 muertas en las celdas
			se perdió el lote 1`,
		nucState: `
			3 nucs absconded
			6 nucs queenless
			3 laying workers
			nuc 4 has laying workers
			drone layers in 2 nucs
			laying workers in North
			3 nucs at North absconded
			queenless: 6
			5 nucs robbed
			lost 3 nucs
			se fueron 3 núcleos
			6 núcleos huérfanos
			3 obreras ponedoras
			4 núcleos zanganeros
			enjambraron 2 núcleos`,
		inIncubator: `
			moved 36 to the incubator
			moved 36 to the incubator at North
			put 36 in the incubator
			moved batch 1 to the incubator
			batch 1 in the incubator at 34.2
			cells in incubator since 9 last night
			pasé 36 a la incubadora
			metí las celdas en la incubadora
			el lote 1 está en la incubadora`,
	} {
		for _, text := range lines(texts) {
			r := readMany(text, harmNames).whole
			assert.Equal(t, notYet, r.verb, text)
			assert.Equal(t, kind, r.topic, text)
		}
	}
	for text, step := range map[string]rules.Step{
		"moved 36 from the incubator to North": rules.Move, "pasé 36 de la incubadora a North": rules.Move, "dropped off 30 cells at North": rules.Move,
		"nucs 40 ready at North": rules.Nucs, "27 laying at North": rules.Laying, "18 laying, 3 queenless": rules.Laying, "34 moved to North, two dropped": rules.Move,
	} {
		r := readMany(text, harmNames).whole
		assert.Equal(t, doStep, r.verb, text)
		assert.Equal(t, step, r.step, text)
	}
	for _, text := range lines(`
		incubator is in the shed
		turned the incubator on
		is the bar in the incubator?
		no cells in the incubator yet
		we lost the keys
		my phone died
		perdimos las llaves
		did we lose 7 cells?`) {
		assert.NotEqual(t, notYet, readMany(text, harmNames).whole.verb, text)
	}
}

// The alarm goes before all else that waits for the group, and an echo after it.
func TestAlarmGoesFirst(t *testing.T) {
	s := playScene(t, filepath.Join(utterances, "contexts", "ripe.txt"))
	for text, place := range map[string]int{"one virgin is out": store.CriticalPing, "moved 34 to North": store.Echo} {
		o, err := s.try("Wren", text, 0)
		require.NoError(t, err)
		require.Len(t, o.logged, 1, text)
		assert.Equal(t, place, o.place, text)
	}
	o, err := s.try("Wren", "one virgin is out", 0)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(o.text, "ALARM: virgin out, batch 1"), o.text)
	require.NoError(t, s.db.View(context.Background(), s.now, func(tx *store.Tx) error {
		k, found, err := tx.Task(s.crew.ID, rules.TaskKey(rules.BatchSubject(1), rules.Move, ""))
		assert.True(t, found && k.State == rules.Open)
		return err
	}))
}
