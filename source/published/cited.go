package published

// Cited is where a figure comes from: the formula, who published it, and how far it may be believed.
type Cited struct {
	Formula string `json:"formula"`
	Source  string `json:"source"`
	Mark    string `json:"mark"` // one of Marks
}

// Marks are all that a row of a table may say of how far it may be believed.
var Marks = []string{"read", "read (transcription)", "measured", "derived", "from memory", "common practice", "judgement"}

// By cites a formula of a source.
func By(formula, source, mark string) Cited { return Cited{formula, source, mark} }

// Marked is the same citation, believed otherwise.
func (c Cited) Marked(mark string) Cited { return Cited{c.Formula, c.Source, mark} }

// Saying is another formula of the same source.
func (c Cited) Saying(formula string) Cited { return Cited{formula, c.Source, c.Mark} }

// And adds a formula of another source; the mark stays.
func (c Cited) And(formula, source string) Cited {
	return Cited{c.Formula + "; " + formula, c.Source + "; " + source, c.Mark}
}
