// Package gloss explains the words of the trade that a page uses, each in one line.
package gloss

import "strings"

// Term is a word of the trade, explained on tap.
type Term struct{ Name, Means string }

// glossary explains each in one line.
var glossary = map[string]string{
	"dB(A)":               "A level as the ear weighs it, low notes less. 3 dB is barely a difference, 10 dB sounds half or twice as loud.",
	"band":                "Eight of ten such boats lie in it: from the 10th to the 90th percentile. The mark is the middle.",
	"bellows":             "A pleated piece of pipe that gives way as the line grows hot and as the engine shakes.",
	"lagging":             "The insulation round a hot part; a jacket is one that can be taken off.",
	"lift chamber":        "A closed box with water in its foot; the gas lifts the water out of it and up the riser.",
	"riser":               "The pipe or hose that leads up, so that no water runs back to the engine.",
	"anti siphon":         "A loop with a vent over the waterline: the sea can't be sucked in once the engine stands.",
	"separator":           "A box in which exhaust gas and water part.",
	"trunk":               "The casing in which the exhaust rises through the boat.",
	"limit":               "What the boat file states for this place: the owner's wish or a rule. It is compared with the middle of the band.",
	"routes":              "A way is how sound leaves (the pipe's end, the walls of the line, air, mounts); a route is one way through one wall or opening.",
	"octave":              "A step of the scale in which the frequency doubles: 63, 125, 250 Hz and so on.",
	"insertion loss":      "By how much it gets quieter with the part than with a plain pipe in its place.",
	"transmission loss":   "What the part itself lets through of the sound that enters it, whatever stands before and behind.",
	"back pressure":       "How hard the line holds the exhaust back, measured at the engine. Too much costs power, fuel and valves.",
	"noise rating":        "The highest of a family of equally annoying spectra that the sound touches.",
	"middle of the draws": "A level here is the middle of thousands of draws of all that is not known for sure; by so much it differs from one reckoned with the likeliest values.",
	"order":               "A tone that comes a fixed number of times per turn of the crankshaft; the firing order is the strongest.",
	"boom":                "A speed at which an order meets a frequency that line, room or mount lets through.",
	"front":               "The layouts that no other beats in everything at once.",
	"growth":              "How much longer the part gets from cold to hot; bellows or bends have to take it.",
	"Schroeder frequency": "Below it a room answers tone by tone, so that the level changes from seat to seat; above it, it is much the same everywhere.",
	"verify":              "Published values computed with the code that made this page.",
}

// Spoken are those of names that a text says.
func Spoken(text string, names ...string) (all []Term) {
	for _, n := range names {
		if strings.Contains(text, n) {
			all = append(all, Of(n)...)
		}
	}
	return all
}

// Of explains words; one that is not known is without a meaning.
func Of(names ...string) (all []Term) {
	for _, n := range names {
		all = append(all, Term{n, glossary[n]})
	}
	return all
}
