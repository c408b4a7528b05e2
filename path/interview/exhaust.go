package interview

var aboutExhaust = []Question{{
	ID: "exhaust", Place: "{line}", Words: "Does the exhaust spit water?", Why: "Wet: sea water is sprayed into the gas and goes out with it, through rubber hose. Dry: a hot pipe, often up through the roof.",
	Kind: OfChoice, asked: anyBoat, Choices: []Choice{{"wet", "Yes, it is wet", "wet", ""}, {"dry", "No, it is dry", "dry", ""}}, put: putExhaust,
	Source: judged, rivals: these("dry", "wet"), called: "wet or dry exhaust",
}, {
	ID: "line", Place: "{line}", Words: "What does the gas pass, from the engine to the open air?", Why: "Tap the parts in their order. This is a usual row: take out what you don’t have, leave empty what you don’t know.",
	Kind: OfParts, asked: anyBoat, Parts: lineParts, Default: "the row as it stands here", Source: judged, rivals: rivalLines, fill: func(d *draft, v *Interview, rows [][]string) { v.putLine(d, rows) }, called: "parts of the exhaust",
}, {
	ID: "way-out", Place: "{outlet}/pointing", Words: "Where does the gas come out?", Why: "Most of the sound goes where the end of the pipe points.", Kind: OfChoice, asked: anyBoat, put: putWayOut,
	Choices: []Choice{{"aft", "At the stern, near the water", "out-aft", ""}, {"port", "Out of the left side", "out-port", ""}, {"starboard", "Out of the right side", "out-starboard", ""}, {"up", "Upwards, above the roof", "out-up", ""}, {"water", "Under water", "out-water", ""}},
}, {
	ID: "outlet", Place: "{outlet}/at", Words: "Where exactly is that end?", Why: "Twice as far from your ears is 6 dB less. Drag the point, or write three figures.", Kind: OfPlace, asked: ofEngine,
	Default: "where the point is", Source: judged, rivals: these("0 m, 1 m, 0.2 m", "4 m, 0.3 m, 3 m"), called: "place of the pipe’s end",
}}

func putLength(d *draft, v *Interview, value []string) {
	metres, err := lengthOf(value[0])
	switch {
	case err != nil:
		d.err = bareMetres(value[0], err)
	case metres < 2 || metres > 200:
		d.fail("a boat of %s is outside what this works for\nhint: 2 m to 200 m; mind the unit", value[0])
	}
	d.boat = "boat of " + value[0]
	if v.goal == "box" {
		d.boat += " with a generator in a box"
	}
}

// Length of the boat in metres, for the pictures.
func (v *Interview) Length() float64 {
	if metres, err := lengthOf(trimBoat(v.boat)); err == nil {
		return metres
	}
	return usualLength
}

const usualLength = 10 // metres; judgement

// usual rows of an exhaust, wet and dry; of a generator it is thin.
func (v *Interview) usualLine(wet bool) [][]string {
	bore := "76 mm"
	if v.goal == "box" {
		bore = "38 mm"
	}
	if !wet {
		return [][]string{{"pipe", bore, "3 m"}, {"silencer", "", "", "", ""}, {"pipe", bore, "1 m"}}
	}
	return [][]string{{"pipe", bore, "0.3 m"}, {"injection", ""}, {"hose", bore, "1 m"}, {"lift", "", ""}, {"hose", bore, "3 m"}}
}

func putExhaust(d *draft, v *Interview, value []string) {
	wet := value[0] == "wet"
	v.putLine(d, v.usualLine(wet))
	d.list("line", v.usualLine(wet))
	if wet {
		d.set(v.at("{outlet}/at"), "[0 m, 0.6 m, 0.2 m]")
	}
}

// wet tells whether water is sprayed into the exhaust.
func (v *Interview) wet() bool { return v.has("injection") }

// putWayOut sets where the end points, and puts it where such an end usually is until its place is answered.
func putWayOut(d *draft, v *Interview, value []string) {
	long := v.Length()
	out := v.at("{outlet}")
	d.drop(out + "/below_waterline")
	switch value[0] {
	case "up":
		d.set(out+"/at", metres(0.4*long, 0.3, 4))
	case "port":
		d.set(out+"/at", metres(0.1*long, -0.14*long, 0.4))
	case "starboard":
		d.set(out+"/at", metres(0.1*long, 0.14*long, 0.4))
	default:
		d.set(out+"/at", metres(0, 0.06*long, 0.2))
	}
	if value[0] == "water" {
		d.set(out+"/at", metres(0, 0.06*long, -0.1))
		d.set(out+"/below_waterline", "100 mm")
		value[0] = "aft"
	}
	d.set(out+"/pointing", value[0])
}

// rivalLines are the row with its parts of known length shorter, and longer, by half.
func rivalLines(v *Interview) (all []string) {
	for _, by := range []float64{0.5, 2} {
		all = append(all, written(stretched(v.Rows("line"), by)))
	}
	return all
}
