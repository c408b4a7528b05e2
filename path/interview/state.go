package interview

import (
	"slices"
	"strings"
)

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

// Text is the file as it stands; it loads without errors after every answer.
func (v *Interview) Text() []byte { return slices.Clone(v.text) }

func (v *Interview) asks(q *Question) bool { return q.asked == nil || q.asked(v) }

// at puts the names of the file into a place.
func (v *Interview) at(place string) string {
	engine, room := "main", "engine room"
	if v.goal == "box" {
		engine, room = "set", "locker"
	}
	return strings.NewReplacer("{engine}", engine, "{room}", room, "{line}", "/layouts/0/exhausts/"+engine+"/line", "{outlet}", "/layouts/0/exhausts/"+engine+"/outlet").Replace(place)
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
