package report

import "hushwake/path"

// structureMatters is how far below the sum at a seat the way through mounts and hull is still spoken of, dB(A).
const structureMatters = 15.0

// Help is what an engine sends through mounts and hull to a seat, and what would help.
type Help struct {
	Engine   string       `json:"engine"`
	Listener string       `json:"listener"`
	LevelDBA Number       `json:"level_dba"`
	LevelDBC Number       `json:"level_dbc"`
	Text     string       `json:"text"`
	Changes  []HelpChange `json:"changes"`
}

// HelpChange is one change: what it does to the route through mounts and hull, and to the seat.
type HelpChange struct {
	Change   string `json:"change"`
	RouteDBA Number `json:"route_dba"`
	RouteDBC Number `json:"route_dbc"`
	SeatDBA  Number `json:"seat_dba"`
	SeatDBC  Number `json:"seat_dbc"`
}

func helpsOf(all []path.StructureBorne, seat string) []Help {
	return each(all, func(s path.StructureBorne) Help {
		return Help{Engine: s.Engine, Listener: seat, LevelDBA: level(s.Level.DBA()), LevelDBC: level(s.Level.DBC()), Text: s.Text,
			Changes: each(s.Helps, func(h path.Help) HelpChange {
				return HelpChange{h.Change, num(h.RouteDBA), num(h.RouteDBC), num(h.SeatDBA), num(h.SeatDBC)}
			})}
	})
}

// sayHelps says what would help against sound through mounts and hull.
func sayHelps(t *Text, s path.StructureBorne, seat string, u Units) {
	t.blank()
	t.say("", "Through mounts and hull %s brings %.1f dB(A), %.1f dB(C) to %s. What one change would do there, by this route alone and with all routes together:",
		s.Engine, s.Level.DBA(), s.Level.DBC(), seat)
	t.blank()
	changes := newTable("change", ">route dB(A)", ">route dB(C)", ">seat dB(A)", ">seat dB(C)")
	for _, h := range s.Helps {
		changes.add(u.local(h.Change), signed(h.RouteDBA), signed(h.RouteDBC), signed(h.SeatDBA), signed(h.SeatDBC))
	}
	t.table(changes)
	if s.Text != "" {
		t.blank()
		t.say("", "%s", sentence(u.local(s.Text)))
	}
}
