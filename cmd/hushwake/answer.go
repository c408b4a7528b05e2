package main

import (
	"hushwake/path/study/advice"
	"hushwake/path/study/draws"
)

// answer is what the owner should know, in two or three plain sentences.
func (w *worked) answer() []string {
	r := advice.Rank(w.predictions, w.spread)[w.listener]
	var terms []draws.Share
	if len(r.Rows) > 0 {
		terms = w.model.Matters(w.model.Prior(), r.Rows[0].Layout, r.Listener)
	}
	out := advice.Answer(r, terms)
	return append(out, "To the ear 3 dB is barely a difference; 10 dB less is about half as loud.")
}
