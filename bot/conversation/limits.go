package conversation

import "yardbell/rules"

// What one crew may have on its lists. They are far above any crew's own, and keep a
// list, a plan and a message about them within what is worked out in a moment.
const (
	mostBreeders   = 500
	mostBuilders   = 200
	mostYards      = 100
	mostOpenOrders = 50
	mostLinePhotos = 20 // kept with one line of the logbook
)

// full refuses what would make a list too long. adds are those about to be added.
func (sc *Scene) full(adds ...rules.Subject) (Answer, bool, error) {
	var ans Answer
	fresh := map[rules.Kind]int{}
	for _, s := range adds {
		fresh[s.Kind]++
	}
	for kind, n := range fresh {
		have, most := 0, 0
		switch kind {
		case rules.BreederKind:
			list := sc.model.Breeders()
			have, most = len(list), mostBreeders
		case rules.BuilderKind:
			list := sc.model.Builders()
			have, most = len(list), mostBuilders
		case rules.YardKind:
			list := sc.model.Yards()
			have, most = len(list), mostYards
		default:
			continue
		}
		if have+n > most {
			ans.Fail(sc.Voice, "list_full", "Count", have, "Most", most)
			return ans, true, nil
		}
	}
	return ans, false, nil
}
