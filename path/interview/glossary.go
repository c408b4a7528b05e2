package interview

import (
	"regexp"
	"strings"
)

// Term is a word of the trade and what it means.
type Term struct{ Word, Means string }

// glossary are the words of the trade that questions use, in plain words. A question explains those it uses on its screen.
var glossary = []Term{
	{"back pressure", "how hard the engine has to push its gas out; too much of it costs power and heats the engine"},
	{"dB", "the step in which sound is counted: 3 is just heard, 10 is twice as loud"},
	{"dBA", "level of a sound as the ear weighs it; a phone app shows it as dB(A)"},
	{"four-stroke", "each cylinder fires every second turn"},
	{"fibreglass", "glass mats in resin, grp"},
	{"kPa", "a hundredth of the pressure of the air; 1 kPa is 10 cm of water"},
	{"limp mat", "a heavy rubber-like sheet that bends under its own weight"},
	{"mineral wool", "stone or glass wool, as in house walls"},
	{"rated power", "the most that the engine may give for long, on its plate"},
	{"rated speed", "the turns a minute at which it gives that, on its plate"},
	{"rpm", "turns a minute"},
	{"separator", "a box in which exhaust gas and water part"},
	{"silencer", "a can in the exhaust that takes sound out; also called muffler"},
	{"stern", "the back end of the boat"},
	{"turbocharger", "a snail-shaped housing that the exhaust goes through; it blows air into the engine"},
	{"two-stroke", "each cylinder fires every turn"},
	{"water box", "a closed box with water in it that the gas bubbles through; also called lift chamber or waterlock"},
}

var searched = func() (all []*regexp.Regexp) {
	for _, t := range glossary {
		all = append(all, regexp.MustCompile(`(?i)\b`+regexp.QuoteMeta(t.Word)+`s?\b`))
	}
	return all
}()

// Terms are the words of the trade that a question uses, with what they mean.
func (q *Question) Terms() (out []Term) {
	said := q.Said()
	for i, t := range glossary {
		if searched[i].MatchString(said) && !strings.Contains(q.Why, t.Word+" is ") {
			out = append(out, t)
		}
	}
	return out
}
