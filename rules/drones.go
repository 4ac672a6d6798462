package rules

import "time"

// Drones, in days.
const (
	// DroneToFlight is from the egg to a drone at the congregation area: 38 ± 5 d,
	// common practice: 24 d to emergence (Harris & Sheridan, Mississippi AFES) and
	// two weeks to maturity, where Rhodes 2002, NSW Agriculture Agnote DAI/112, has
	// about 16 d.
	DroneToFlight = 38
	// DroneDrawing is how many days a comb is in before it is laid: foundation has to be
	// drawn first, and the queen comes to it late; common practice.
	DroneDrawing = 7
	// DroneEvery is how often another comb goes in while virgins are to fly: sperm
	// is best at about 20 d of age and falls after 30 d (Metz & Tarpy 2019, Insects
	// 10(1):11, abstract), so one comb's drones serve about two weeks; derived.
	DroneEvery = 14
)

// FirstFlights is when the virgins of a graft begin to fly, by the step table.
func FirstFlights(emerges time.Time, s *Settings) time.Time {
	return emerges.Add(Hours(s.Table.Row(Flights, "").Earliest))
}

// DroneTasks are the reminders to put drone comb into the drone colonies of a
// yard, from the grafts that are logged or planned: one for the first graft, by
// the hours of steps.csv before it, and another every two weeks while later
// grafts still need drones. Grafts need not be in order. Occ counts from 1.
func DroneTasks(yard string, grafts []time.Time, s *Settings) []Task {
	if len(grafts) == 0 {
		return nil
	}
	first, last := grafts[0], grafts[0]
	for _, g := range grafts {
		first, last = earlier(first, g), later(last, g)
	}
	row := s.Table.Row(Drones, "")
	var out []Task
	for i := 0; ; i++ {
		anchor := Shift{Days: i * DroneEvery}.Apply(first, s.Zone)
		// A comb serves the grafts of two weeks from its anchor.
		if i > 0 && anchor.After(last) {
			return out
		}
		t := Task{Subject: YardSubject(yard), Occ: Occ(int64(i + 1)), State: Open, Reason: "planned", Anchor: anchor, Into: yard}.with(row)
		t.Earliest, t.Ideal, t.Latest = row.Window(anchor)
		t.fit(s)
		out = append(out, t)
	}
}
