package parts

import (
	"hushwake/path/report/form"
	"hushwake/path/scene"
)

// StructureMatters is how far below the sum at a seat the way through mounts and hull is still spoken of, dB(A).
const StructureMatters = 15.0

// Help is what an engine sends through mounts and hull to a seat, and what would help.
type Help struct {
	Engine   string       `json:"engine"`
	Listener string       `json:"listener"`
	LevelDBA form.Number  `json:"level_dba"`
	LevelDBC form.Number  `json:"level_dbc"`
	Text     string       `json:"text"`
	Changes  []HelpChange `json:"changes"`
}

// HelpChange is one change: what it does to the route through mounts and hull, and to the seat.
type HelpChange struct {
	Change   string      `json:"change"`
	RouteDBA form.Number `json:"route_dba"`
	RouteDBC form.Number `json:"route_dbc"`
	SeatDBA  form.Number `json:"seat_dba"`
	SeatDBC  form.Number `json:"seat_dbc"`
}

// HelpsOf are what would help at a seat, engine by engine.
func HelpsOf(all []scene.StructureBorne, seat string) []Help {
	return form.Each(all, func(s scene.StructureBorne) Help {
		return Help{Engine: s.Engine, Listener: seat, LevelDBA: form.Level(s.Level.DBA()), LevelDBC: form.Level(s.Level.DBC()), Text: s.Text,
			Changes: form.Each(s.Helps, func(h scene.Help) HelpChange {
				return HelpChange{h.Change, form.Num(h.RouteDBA), form.Num(h.RouteDBC), form.Num(h.SeatDBA), form.Num(h.SeatDBC)}
			})}
	})
}

// SayHelps says what would help against sound through mounts and hull.
func SayHelps(t *form.Text, s scene.StructureBorne, seat string, u form.Units) {
	t.Blank()
	t.Say("", "Through mounts and hull %s brings %.1f dB(A), %.1f dB(C) to %s. What one change would do there, by this route alone and with all routes together:",
		s.Engine, s.Level.DBA(), s.Level.DBC(), seat)
	t.Blank()
	changes := form.NewTable("change", ">route dB(A)", ">route dB(C)", ">seat dB(A)", ">seat dB(C)")
	for _, h := range s.Helps {
		changes.Add(u.Local(h.Change), form.Signed(h.RouteDBA), form.Signed(h.RouteDBC), form.Signed(h.SeatDBA), form.Signed(h.SeatDBC))
	}
	t.Table(changes)
	if s.Text != "" {
		t.Blank()
		t.Say("", "%s", form.Sentence(u.Local(s.Text)))
	}
}
