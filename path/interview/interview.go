package interview

import (
	"bytes"
	"cmp"
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile"
	"hushwake/path/boatfile/edit"
	"hushwake/path/boatfile/spelling"
)

// Goals are what somebody may want to know, with the words of the start screen.
var Goals = []Choice{
	{Value: "too-loud", Words: "My exhaust is too loud", Picture: "loud"},
	{Value: "quotes", Words: "Someone quoted me silencers", Picture: "quotes"},
	{Value: "box", Words: "My generator box", Picture: "box"},
	{Value: "file", Words: "I have a boat file", Picture: "file"},
}

//go:embed main.yaml
var mainFile []byte

//go:embed set.yaml
var setFile []byte

// state is all that an answer changes; none of its slices is written to once it stands.
type state struct {
	goal  string
	text  []byte
	done  []string // ids in the order in which they were answered
	known []string // those of them that were not "I don't know"
	boat  string   // what the file says the boat is
	lists map[string][][]string
}

// Interview is a conversation about one boat: the text of its file, what was asked, and a stack for Back.
type Interview struct {
	state
	before []state
	tried  [2]string // question and answer that wouldn't do
	costs  costs
}

// Begin starts an interview for one of the Goals.
func Begin(goal string) (*Interview, error) {
	if _, ok := find(Goals, goal); !ok {
		var all []string
		for _, g := range Goals {
			all = append(all, g.Value)
		}
		return nil, fmt.Errorf("no goal %q to begin with\nhint: one of %s", spelling.Clip(goal), strings.Join(all, ", "))
	}
	v := &Interview{state: state{goal: goal, text: mainFile}}
	if goal == "box" {
		v.text = setFile
	}
	return v, nil
}

// Text is the file as it stands; it loads without errors after every answer.
func (v *Interview) Text() []byte { return slices.Clone(v.text) }

// at puts the names of the file into a place.
func (v *Interview) at(place string) string {
	engine, room := "main", "engine room"
	if v.goal == "box" {
		engine, room = "set", "locker"
	}
	return strings.NewReplacer("{engine}", engine, "{room}", room, "{line}", "/layouts/0/exhausts/"+engine+"/line", "{outlet}", "/layouts/0/exhausts/"+engine+"/outlet").Replace(place)
}

// Tried is the last answer to a question line by line, where it wouldn't do: somebody wants to mend it, not to write it again.
func (v *Interview) Tried(id string) []string {
	if v.tried[0] != id {
		return nil
	}
	return strings.Split(v.tried[1], "\n")
}

// trial is a copy with which answers can be tried.
func (v *Interview) trial() *Interview { return &Interview{state: v.state} }

// keep makes a state the present one if its file loads.
func (v *Interview) keep(next state, d *draft) error {
	next.goal, next.boat, next.lists = cmp.Or(d.goal, next.goal), cmp.Or(d.boat, next.boat), merged(v.lists, d.lists)
	if next.goal != "file" {
		d.set("/boat", described(next.boat))
	}
	if d.err != nil {
		return d.err
	}
	if _, err := boatfile.Load("boat.yaml", d.text); err != nil {
		return plainly(err)
	}
	v.before = append(v.before, v.state)
	next.text = d.text
	v.state = next
	return nil
}

// described is what the file says the boat is.
func described(boat string) string {
	if boat == "" {
		return "unknown"
	}
	return edit.Quote(boat)
}

// Back takes the last answer back, text and all; false at the beginning.
func (v *Interview) Back() bool {
	n := len(v.before)
	if n == 0 {
		return false
	}
	v.state, v.before = v.before[n-1], v.before[:n-1]
	return true
}

// Adopt takes over a text that was changed elsewhere.
func (v *Interview) Adopt(text []byte) {
	if bytes.Equal(text, v.text) {
		return
	}
	v.before = append(v.before, v.state)
	v.text = slices.Clone(text)
}

// Asked tells whether a question was answered, and whether by more than "I don't know".
func (v *Interview) Asked(id string) (done, known bool) {
	return slices.Contains(v.done, id), slices.Contains(v.known, id)
}

func (v *Interview) marked(id string) []string {
	return append(without(v.done, id), id)
}

func with(all []string, s string) []string { return append(without(all, s), s) }

// without is a copy that lacks one.
func without(all []string, s string) (out []string) {
	for _, a := range all {
		if a != s {
			out = append(out, a)
		}
	}
	return out
}
