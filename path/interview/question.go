package interview

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/spelling"
)

// Kind is how a question is answered.
type Kind string

// Kinds of questions.
const (
	OfChoice   Kind = "choice"   // one of Choices
	OfQuantity Kind = "quantity" // Fields, each a figure with its unit as people write it, or one of its choices
	OfText     Kind = "text"     // any text
	OfParts    Kind = "parts"    // a list of Parts in order, each with its fields
	OfPlace    Kind = "place"    // three figures: forward from the transom, to starboard of the middle, up from the waterline
	OfWalls    Kind = "walls"    // one of Choices, each with the picture of a wall
	OfIdeas    Kind = "ideas"    // any of the Ideas
)

// Question is one row of the table.
type Question struct {
	ID      string
	Place   string // JSON pointer (RFC 6901) into the file
	Words   string
	Why     string
	Kind    Kind
	Choices []Choice
	Fields  []Field
	Parts   []Part
	Default string // what is taken when it isn't known, where the file has to state it; "" = what the check says
	Source  string // of the default

	asked  func(v *Interview) bool                       // nil = always
	write  string                                        // the YAML value with %s for the answer; "" = the answer itself
	put    func(d *draft, v *Interview, value []string)  // instead of setting Place
	fill   func(d *draft, v *Interview, rows [][]string) // of a list
	skip   func(d *draft, v *Interview)                  // what "I don't know" does beside leaving the text as it is
	rivals func(v *Interview) []string                   // answers it might have, where one has to be taken: what not knowing it costs is predicted from them
	free   bool                                          // not knowing it changes no level
	called string                                        // what the file says is guessed
}

// Choice is one answer that can be chosen.
type Choice struct {
	Value   string // as the answer
	Words   string
	Picture string // name of a picture; "" = none
	YAML    string // what is written; "" = Value
}

// Field is one control of a question or part.
type Field struct {
	Words   string
	Example string
	Choices []Choice // nil = a figure
	asNew   string   // the choice of a part that is new; "" = any
}

// find is the choice of a value.
func find(all []Choice, value string) (Choice, bool) {
	for _, c := range all {
		if c.Value == value {
			return c, true
		}
	}
	return Choice{}, false
}

func (c Choice) yaml() string {
	if c.YAML == "" {
		return c.Value
	}
	return c.YAML
}

// Required tells whether the file has to state it, so that a value is taken and named as guessed when it isn't known.
func (q *Question) Required() bool { return q.rivals != nil }

// lines parts an answer of several controls, one a line.
func lines(value string) []string {
	value = strings.TrimSpace(value)
	if value == "" {
		return nil
	}
	out := strings.Split(strings.ReplaceAll(value, "\r\n", "\n"), "\n")
	for i := range out {
		out[i] = strings.TrimSpace(out[i])
	}
	return out
}

// Said are all words of a question as they are read on its screen.
func (q *Question) Said() string {
	all := []string{q.Words, q.Why, q.Default}
	for _, c := range q.Choices {
		all = append(all, c.Words)
	}
	for _, f := range q.Fields {
		all = append(all, f.said()...)
	}
	for _, p := range q.Parts {
		all = append(all, p.Words)
		for _, f := range p.Fields {
			all = append(all, f.said()...)
		}
	}
	return strings.Join(all, "\n")
}

func (f Field) said() []string {
	all := []string{f.Words}
	for _, c := range f.Choices {
		all = append(all, c.Words)
	}
	return all
}

// leave changes nothing.
func leave(*draft, *Interview) {}

// these are rivals that are the same for every boat.
func these(all ...string) func(*Interview) []string {
	return func(*Interview) []string { return all }
}

// Part is one kind of row of a list that is tapped together.
type Part struct {
	Kind, Words, Picture string
	Fields               []Field
	usual                []string // what its fields begin with
	needs                int      // how many of them, from the first, the file has to state
	write                string   // as it stands in the file, %s for its name where it has one, and for each field
	tube                 bool     // its first two fields are a bore, which goes on to the tube behind it, and a length
	named                bool     // by its kind in the file, so that it can be replaced
	twice                string   // why there is no second one; "" = there may be
}

// partOf is the part of a kind.
func partOf(parts []Part, kind string) (none Part) {
	if i := slices.IndexFunc(parts, func(p Part) bool { return p.Kind == kind }); i >= 0 {
		return parts[i]
	}
	return none
}

func unlisted(value string, all []Choice) error {
	var words []string
	for _, c := range all {
		words = append(words, c.Value)
	}
	hint := spelling.DidYouMean(value, words)
	if hint == "" || len(value) < 3 {
		hint = "one of " + strings.Join(words, ", ")
	}
	return fmt.Errorf("%q is none of the choices\nhint: %s", spelling.Clip(value), hint)
}

const judged = "judgement"

// whenever is a condition on the goal.
func whenever(goals ...string) func(v *Interview) bool {
	return func(v *Interview) bool { return slices.Contains(goals, v.goal) }
}

// anyBoat is asked for every goal but a file that stands.
var anyBoat = whenever("too-loud", "quotes", "box")

// ofEngine is what is asked about an engine that drives the boat; sets are four-strokes without a turbocharger nearly always.
var ofEngine = whenever("too-loud", "quotes")
