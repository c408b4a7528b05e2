package main

import (
	"fmt"

	"hushwake/path"
)

// structureMatters is how far below the sum at a seat the way through mounts and hull is still spoken of, dB(A).
const structureMatters = 15.0

type helpDoc struct {
	Engine   string       `json:"engine"`
	Listener string       `json:"listener"`
	LevelDBA number       `json:"level_dba"`
	LevelDBC number       `json:"level_dbc"`
	Text     string       `json:"text"`
	Changes  []helpChange `json:"changes"`
}

// helpChange is one change: what it does to the route through mounts and hull, and to the seat.
type helpChange struct {
	Change   string `json:"change"`
	RouteDBA number `json:"route_dba"`
	RouteDBC number `json:"route_dbc"`
	SeatDBA  number `json:"seat_dba"`
	SeatDBC  number `json:"seat_dbc"`
}

func helpDocs(all []path.StructureBorne, seat string) []helpDoc {
	out := []helpDoc{}
	for _, s := range all {
		d := helpDoc{Engine: s.Engine, Listener: seat, LevelDBA: level(s.Level.DBA()), LevelDBC: level(s.Level.DBC()), Text: s.Text, Changes: []helpChange{}}
		for _, h := range s.Helps {
			d.Changes = append(d.Changes, helpChange{h.Change, num(h.RouteDBA), num(h.RouteDBC), num(h.SeatDBA), num(h.SeatDBC)})
		}
		out = append(out, d)
	}
	return out
}

// helps prints what would help against sound through mounts and hull.
func (c *common) helps(s path.StructureBorne, seat string) {
	fmt.Fprintln(c.out)
	paragraph(c.out, "", fmt.Sprintf("Through mounts and hull %s brings %.1f dB(A), %.1f dB(C) to %s. What one change would do there, by this route alone and with all routes together:",
		s.Engine, s.Level.DBA(), s.Level.DBC(), seat))
	fmt.Fprintln(c.out)
	t := table{head: []string{"change", "route dB(A)", "route dB(C)", "seat dB(A)", "seat dB(C)"}, right: []bool{false, true, true, true, true}}
	for _, h := range s.Helps {
		t.add(c.local(h.Change), signed(h.RouteDBA), signed(h.RouteDBC), signed(h.SeatDBA), signed(h.SeatDBC))
	}
	t.print(c.out)
	if s.Text != "" {
		fmt.Fprintln(c.out)
		paragraph(c.out, "", sentence(c.local(s.Text)))
	}
}

// signed prints a difference without a minus zero.
func signed(db float64) string {
	if text := fmt.Sprintf("%+.1f", db); text != "-0.0" && text != "+0.0" {
		return text
	}
	return "0.0"
}
