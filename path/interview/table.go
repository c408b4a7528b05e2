package interview

import (
	"slices"

	"hushwake/path/structure"
)

// table are all questions in the order in which they are asked.
var table = slices.Concat(aboutFile, aboutBoat, aboutEngine, aboutExhaust, aboutBox, aboutOffers, aboutSeat, aboutMeasured, aboutIdeas)

var aboutFile = []Question{{
	ID: "file", Words: "Which file?", Why: "Choose it, or paste its text. Nothing leaves this machine.", Kind: OfText, asked: whenever("file"),
	Default: "a new file, from the questions that follow", Source: judged, free: true,
	put:  func(d *draft, _ *Interview, value []string) { d.text = []byte(value[0]) },
	skip: func(d *draft, _ *Interview) { d.goal = "too-loud" },
}}

var aboutBoat = []Question{{
	ID: "length", Place: "/boat", Words: "How long is your boat?", Why: "The pictures on which you place the seat are drawn to its scale. It changes no level by itself.",
	Kind: OfQuantity, Fields: []Field{{Words: "Length", Example: "10 m"}}, asked: anyBoat, put: putLength, Default: "10 m for the pictures", free: true, skip: leave,
}, {
	ID: "hull", Place: "/hull", Words: "What is the hull made of?", Why: "Steel and aluminium carry the engine’s shaking further than plastic or wood.", Kind: OfChoice, asked: anyBoat, Choices: hulls(),
}}

var aboutEngine = []Question{{
	ID: "cycle", Place: "/engines/{engine}/cycle", Words: "Is the engine a four-stroke or a two-stroke?", Why: "It sets the pitch of the drone. Nearly every diesel of today is a four-stroke.",
	Kind: OfChoice, asked: ofEngine, Choices: []Choice{{"four-stroke", "Four-stroke", "cycle-4", ""}, {"two-stroke", "Two-stroke", "cycle-2", ""}},
	Source: "common practice, no source", rivals: these("four-stroke", "two-stroke"), called: "four-stroke or two-stroke",
}, {
	ID: "cylinders", Place: "/engines/{engine}/cylinders", Words: "How many cylinders has it?", Why: "Count the injectors, or the pipes that leave the side of the engine. It sets the pitch too.",
	Kind: OfChoice, asked: anyBoat, Choices: counted("1", "2", "3", "4", "5", "6", "8", "12"),
	Source: judged, rivals: these("2", "3", "4", "6"), called: "how many cylinders",
}, {
	ID: "power", Place: "/engines/{engine}/rated/power", Words: "How strong is it?", Why: "The plate on the engine says so: its rated power, in kW or hp. A stronger engine is louder.",
	Kind: OfQuantity, asked: ofEngine, Fields: []Field{{Words: "Rated power", Example: "40 kW"}},
	Source: "judgement: eight of ten boats lie between 15 and 150 kW", rivals: these("15 kW", "150 kW"), called: "rated power",
}, {
	ID: "set-power", Place: "/engines/{engine}/rated/power", Words: "How strong is the engine of the set?", Why: "At the shaft: about 1.2 times what the generator gives. A 6.5 kW generator has an engine of about 8 kW.",
	Kind: OfQuantity, asked: whenever("box"), Fields: []Field{{Words: "Rated power", Example: "8 kW"}},
	Source: "judgement: eight of ten sets on small boats lie between 4 and 20 kW", rivals: these("4 kW", "20 kW"), called: "rated power",
}, {
	ID: "speed", Place: "/engines/{engine}/rated/speed", Words: "What is its highest speed?", Why: "The plate gives it beside the power, in turns a minute.",
	Kind: OfQuantity, asked: ofEngine, Fields: []Field{{Words: "Rated speed", Example: "3000 rpm"}},
	Source: "judgement: eight of ten lie between 2200 and 3800 rpm", rivals: these("2200 rpm", "3800 rpm"), called: "rated speed",
}, {
	ID: "set-speed", Place: "/engines/{engine}/rated/speed", Words: "At which speed does the set run?", Why: "It runs at one speed. Small loud ones turn fast, big quiet ones slowly.",
	Kind: OfChoice, asked: whenever("box"), Choices: []Choice{
		{"1500", "1500 rpm: 50 Hz, slow", "", "1500 rpm"}, {"3000", "3000 rpm: 50 Hz, fast", "", "3000 rpm"}, {"1800", "1800 rpm: 60 Hz, slow", "", "1800 rpm"}, {"3600", "3600 rpm: 60 Hz, fast", "", "3600 rpm"}},
	Source: judged, rivals: these("1500", "1800", "3000"), called: "speed of the set",
}, {
	ID: "aspiration", Place: "/engines/{engine}/aspiration", Words: "Does it have a turbocharger?", Why: "A turbocharger is a snail-shaped wheel housing in the exhaust. It takes the edge off the noise.",
	Kind: OfChoice, asked: ofEngine, Choices: []Choice{{"natural", "No", "natural", ""}, {"turbocharged", "Yes", "turbo", ""}, {"blower", "A blower driven by belt or gears", "blower", ""}},
}, {
	ID: "running", Place: "/engines/{engine}/running", Words: "At which speed do you mostly run?", Why: "The levels are worked out for this speed.",
	Kind: OfQuantity, asked: ofEngine, Fields: []Field{{Words: "Engine speed", Example: "2200 rpm"}}, write: "{speed: %s}",
}, {
	ID: "limit", Place: "/engines/{engine}/back_pressure_limit", Words: "How much back pressure may the engine have?", Why: "Back pressure is how hard the engine has to push its gas out; the engine’s manual gives the limit. It changes no level, but rules silencers out.",
	Kind: OfQuantity, asked: whenever("quotes"), Fields: []Field{{Words: "Limit at full power", Example: "7 kPa"}}, Default: "no limit; nothing is ruled out by it", free: true,
}, {
	ID: "engine", Place: "/engines/{engine}/at", Words: "Where is the engine?", Why: "The middle of it. Drag the point, or write three figures.", Kind: OfPlace, asked: ofEngine,
}, {
	ID: "mounts", Place: "/engines/{engine}/mounts", Words: "What does the engine stand on?", Why: "What shakes the hull is heard all over the boat, whatever the exhaust does.", Kind: OfChoice, asked: anyBoat, Choices: mounts(),
}}

// hulls are the materials of hulls that the model knows, as far as they have words to ask for them.
func hulls() (all []Choice) {
	for _, name := range structure.MaterialNames() {
		if m, _ := structure.MaterialNamed(name); m.Words != "" {
			all = append(all, Choice{name, m.Words, "hull-" + name, "{material: " + scalar(name) + "}"})
		}
	}
	return all
}

// mounts are the kinds of mounts that the model knows, as far as they have words to ask for them.
func mounts() (all []Choice) {
	for _, name := range structure.Kinds {
		if words := structure.Kind(name).Words(); words != "" {
			all = append(all, Choice{name, words, "mount-" + name, "{kind: " + scalar(name) + "}"})
		}
	}
	return all
}

func counted(all ...string) (out []Choice) {
	for _, a := range all {
		out = append(out, Choice{Value: a, Words: a})
	}
	return out
}
