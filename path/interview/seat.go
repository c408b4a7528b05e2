package interview

import (
	"hushwake/path/boatfile/quantity"
)

// Walls are common ones (common practice, no source). Gaps are judgement: 2 mm all round a door or hatch of 5 m without a seal, a twentieth
// of that with one; a sheet of A4; a leaf that stands open as wide as a hand and a half.
var aboutSeat = []Question{{
	ID: "seat", Place: "/listeners/seat/in", Words: "Where is it too loud?", Why: "The level is worked out at this seat. More seats can be added later.", Kind: OfChoice, asked: anyBoat, put: putSeat,
	Choices: []Choice{{"cabin", "In the cabin, at the pillow or table", "seat-cabin", ""}, {"helm", "At a helm indoors", "seat-helm", ""}, {"cockpit", "In the open: cockpit, deck or open helm", "seat-cockpit", ""}},
	Default: "in the cabin", Source: judged, rivals: these("cabin", "cockpit"), called: "which seat",
}, {
	ID: "ear", Place: "/listeners/seat/at", Words: "Where exactly are your ears?", Why: "Drag the point, or write three figures.", Kind: OfPlace, asked: anyBoat,
	Default: "where the point is", Source: judged, rivals: rivalEars, called: "place of the seat",
}, {
	ID: "wall", Place: "/partitions/0/build_up", Words: "What is between the engine and that seat?", Why: "The wall, floor or lid over the engine. A heavy or double one keeps far more in than a board.", Kind: OfWalls, asked: anyBoat, Choices: []Choice{
		{"thin", "A thin board, about 9 mm", "wall-thin", "[9 mm plywood]"}, {"board", "A thick board, about 18 mm", "wall-board", "[18 mm plywood]"},
		{"insulated", "A board with a heavy mat on foam", "wall-insulated", "[18 mm plywood, 25 mm foam, 5 kg/m2 limp mat]"}, {"grp", "Plastic, about 8 mm", "wall-thin", "[8 mm grp]"},
		{"aluminium", "Aluminium, about 5 mm", "wall-steel", "[5 mm aluminium]"}, {"steel", "Steel, about 5 mm", "wall-steel", "[5 mm steel]"},
		{"double", "Two boards with wool between", "wall-double", "[12 mm plywood, 50 mm mineral wool, 12 mm plywood]"}},
}, {
	ID: "door", Place: "/partitions/0/open_area", Words: "Is there a door, hatch or hole in it?", Why: "Sound goes through a gap as water does. A gap all round a door undoes a heavy wall.", Kind: OfChoice, asked: anyBoat, Choices: []Choice{
		{"none", "No, it is tight", "door-none", "0 cm2"}, {"sealed", "A door or hatch with a rubber seal", "door-sealed", "5 cm2"}, {"gaps", "A door or hatch without a seal", "door-gaps", "100 cm2"},
		{"vent", "Air slots, together like a sheet of paper", "door-vent", "600 cm2"}, {"open", "It stands open", "door-open", "0.3 m2"}},
}, {
	ID: "lining", Place: "/spaces/{room}/lining", Words: "What are the walls round the engine like inside?", Why: "Soft walls take sound away before it gets out.", Kind: OfChoice, asked: ofEngine, Choices: []Choice{
		{"bare", "Bare metal, plastic or wood", "lining-bare", "hard surfaces"}, {"foam", "Foam, about 25 mm", "lining-foam", "25 mm foam"}, {"wool", "Mineral wool, about 50 mm", "lining-wool", "50 mm mineral wool"}},
}}

// putSeat sits the listener down; in the open, what is between is the lid over the engine, and no cabin takes part.
func putSeat(d *draft, v *Interview, value []string) {
	room, long := v.at("{room}"), v.Length()
	d.drop("/partitions/0/facing")
	if value[0] == "cockpit" {
		d.set("/listeners/seat/in", "outside")
		d.set("/partitions/0/between", "["+room+", outside]")
		d.set("/partitions/0/facing", "up")
		d.drop("/spaces/cabin")
		d.set("/listeners/seat/at", metres(0.2*long, 0, 1.8))
		return
	}
	d.set("/spaces/cabin/lining", "unknown")
	d.set("/partitions/0/between", "["+room+", cabin]")
	d.set("/listeners/seat/in", "cabin")
	if value[0] == "helm" {
		d.set("/listeners/seat/at", metres(0.5*long, 0, 2))
	} else {
		d.set("/listeners/seat/at", metres(0.6*long, 0, 0.6))
	}
}

// rivalEars are a seat further aft and further forward.
func rivalEars(v *Interview) []string {
	at, ok := v.point("/listeners/seat/at")
	if !ok {
		return nil
	}
	move := 0.2 * v.Length()
	aft, forward := metres(at[0]-move, at[1], at[2]), metres(at[0]+move, at[1], at[2])
	return []string{aft, forward}
}

var aboutMeasured = []Question{{
	ID: "level", Place: "/readings", Words: "Have you measured how loud it is there?", Why: "Hold a phone at ear height for half a minute, engine at its usual speed, doors as always. One reading takes more doubt away than all else.",
	Kind: OfQuantity, asked: anyBoat, Fields: []Field{{Words: "Level", Example: "78 dBA"}, {Words: "Measured with", Choices: meters}, {Words: "With the engine off", Example: "45 dBA"}}, put: putLevel,
	Default: "nothing; the doubt stays as it is", free: true, skip: func(d *draft, v *Interview) {
		v.putReading(d, "level", "")
		d.unknown("/listeners/seat/background")
	},
}}

// What instruments err by, as `survey` takes it: an app of a telephone, a meter of class 2.
var meters = []Choice{{"phone", "A phone", "", "plus_minus: 3 dB, instrument: phone"}, {"meter", "A sound level meter", "", "plus_minus: 1.5 dB, instrument: meter"}}

func putLevel(d *draft, v *Interview, value []string) {
	with := meters[0].YAML
	if value := field(value, 1); value != "" {
		with = d.chosen(meters, value)
	}
	item := filled("{listener: seat, layout: as is, level: %s, weighting: A, ", value[0]) + with
	d.unknown("/listeners/seat/background")
	if off := field(value, 2); off != "" {
		item += ", background: " + scalar(off)
		d.set("/listeners/seat/background", "{level: "+scalar(off)+"}")
	}
	v.putReading(d, "level", item+"}")
}

// putReading writes all readings with one of a question; "" = none.
func (v *Interview) putReading(d *draft, id, item string) {
	d.unknown("/readings")
	for _, of := range []string{"box-warm", "level"} {
		was := ""
		if rows := v.Rows("reading of " + of); len(rows) > 0 {
			was = rows[0][0]
		}
		if of == id {
			was = item
			d.list("reading of "+of, [][]string{{item}})
		}
		if was != "" {
			d.add("/readings", was)
		}
	}
}

// point is a place of the file in metres.
func (v *Interview) point(at string) (p [3]float64, ok bool) {
	for i := range p {
		value, found := get(v.text, at, i)
		q, err := quantity.Parse(value, quantity.Length)
		if !found || err != nil {
			return p, false
		}
		p[i] = q.Value
	}
	return p, true
}

// Placed is the place that a question asks for, as the file has it; ok is false where the file doesn't say, and p is then where such
// a thing usually is (judgement).
func (v *Interview) Placed(id string) (p [3]float64, ok bool) {
	for i := range table {
		if table[i].ID == id {
			p, ok = v.point(v.at(table[i].Place))
		}
	}
	if !ok {
		p = [3]float64{0.3 * v.Length(), 0, 0.1}
	}
	return p, ok
}
