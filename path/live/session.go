// Package live is a session over the text of one boat file: edits by place, undo, and the figures of what changed. It knows
// no browser, no network and no HTML; a host hands it messages and draws its answers.
//
// The text is the truth. A text that loads is predicted, in the quick form at once and in the full form when asked; the full
// figures are those that `compare` prints for the same text, to the bit. Figures carry the stamp of the text they belong to,
// so that those of one text are never shown as those of another.
package live

import (
	"fmt"
	"slices"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/controls"
	"hushwake/path/boatfile/edit"
	"hushwake/path/interview"
	"hushwake/path/report"
	"hushwake/path/study/readings"
	"hushwake/source"
)

// Message is what a host asks of a session. Which fields count hangs on Op:
//
//	show                              what stands there; with Form "full" like full
//	set, unknown, remove   At [To]    at a JSON pointer
//	add, insert            At, To     To is one YAML value; add appends to the list at At, insert puts it before At
//	copy-layout            Layout, To the name of the copy
//	note                   To, PlusMinus, Layout, Listener  a level that was read; chosen ones where not named
//	undo, redo, saved
//	full                              the same text in the full form; further: one step of that, see Answer.Left
//	layout, listener       To         chooses
//	replace-text           To         the whole text, edited by hand or changed on disk
//	diff                              against what was saved
//	begin, answer, dont-know, back, idea, finish   the interview: To a goal or a value, ID a question or an idea
//	ask                    ID         a question once more
//
// Stamp, where given, is of the text that the message was made for: an edit made for a text whose parts have moved since is
// not done.
type Message struct {
	Op        string `json:"op"`
	At        string `json:"at"`
	To        string `json:"to"`
	ID        string `json:"id"`
	Layout    string `json:"layout"`
	Listener  string `json:"listener"`
	Form      string `json:"form"`
	Stamp     string `json:"stamp"`
	PlusMinus string `json:"plus_minus"`
}

// The forms of figures.
const (
	Quick = "quick" // few draws, plane waves, only what changed
	Full  = "full"  // as compare prints them
)

// Answer is what stands after a message.
type Answer struct {
	Stamp    string             // of Text
	Text     []byte             // must not be changed
	Errors   []Slip             // why the text does not load, or why the message was not done
	Figures  *Figures           // the last good ones, nil = none yet; Fresh tells whether they are of Text
	Left     int                // steps of "further" to the full form of Text; 0 = there, or not to be had
	Controls []controls.Control // what can be changed in Text
	Layout   string             // the chosen one
	Listener string             // the chosen one
	Dirty    bool               // Text differs from what was saved
	CanUndo  bool
	CanRedo  bool
	Diff     []edit.Line // of a diff

	Interview *interview.Interview // nil = none was begun; read only
	Wrong     error                // with the answer to its question
}

// Fresh tells whether the figures belong to the text.
func (a Answer) Fresh() bool { return a.Figures != nil && a.Figures.Stamp == a.Stamp }

// Figures are those of one text.
type Figures struct {
	Stamp      string // of the text they belong to: the SHA-256 of its bytes
	Form       string // Quick or Full
	Comparison *report.Comparison
	Waiting    []string // layouts that are not in a quick comparison because they have yet to be worked out

	seat  string // the listener that orders the comparison
	known *readings.Known
	plane map[int]path.Prediction // layouts that are known in full, by plane waves
}

// Session is the state of one file that is being changed. It is not safe for use by several goroutines.
type Session struct {
	name             string
	saved            string // stamp
	savedText        []byte
	layout, listener string // chosen
	touched          string // the layout in which the last edit was
	talk             *interview.Interview
	wrong            error // with the last answer

	history
	boat, whole *path.Boat // of the present text, nil where it does not load; whole has places for readings in spaces
	slips       []Slip     // why it does not load, or cannot be worked out
	controls    []controls.Control
	controlsOf  string

	memo    memo
	figures *Figures   // last good ones
	base    *Figures   // last that were not a quick look at changes
	recent  []*Figures // latest first
}

// New begins a session over a text; name is that of the file in messages. The text need not load.
func New(name string, text []byte) *Session {
	text = append([]byte(nil), text...)
	s := &Session{name: name, savedText: text, history: history{is: version{text: text, stamp: stampOf(text)}}}
	s.saved = s.is.stamp
	s.load()
	return s
}

// Text is the present text; it must not be changed.
func (s *Session) Text() []byte { return s.is.text }

// load reads the present text.
func (s *Session) load() {
	s.boat, s.whole, s.slips = nil, nil, nil
	b, err := boatfile.Load(s.name, s.is.text)
	if err != nil {
		s.slips = slipsOf(s.is.text, err)
		return
	}
	s.memo.adopt(b)
	s.boat, s.whole = b, b.WithSpaceReadings()
	s.choose()
}

// control lists what can be changed in the text, once for each text and figures; an offer of one of several is chosen in the
// layout of the file.
func (s *Session) control() []controls.Control {
	of := fmt.Sprintf("%s %s %p", s.is.stamp, s.layout, s.figures)
	if of == s.controlsOf {
		return s.controls
	}
	base, taken := s.layout, []source.Assumption(nil)
	if s.boat != nil {
		if l, ok := s.boat.Layout(s.layout); ok {
			base = l.Base
		}
		taken = append(taken, s.boat.Assumptions...)
	}
	if s.figures != nil && s.figures.Stamp == s.is.stamp {
		if p := s.figures.known.At(s.layout); p != nil {
			taken = append(taken, p.Assumptions...)
		}
	}
	s.controls, s.controlsOf = controls.Of(s.is.text, base, taken), of
	for i := range s.controls {
		if s.controls[i].Layout == base {
			s.controls[i].Layout = s.layout
		}
	}
	return s.controls
}

// choose sees that what is chosen is there.
func (s *Session) choose() {
	if _, ok := s.boat.Layout(s.layout); !ok && len(s.boat.Layouts) > 0 {
		s.layout = s.boat.Layouts[0].Name
	}
	if len(s.boat.Listeners) > 0 {
		s.listener = s.boat.Listeners[s.seat()].Name
	}
}

// seat is the place of the chosen listener.
func (s *Session) seat() int {
	return max(0, slices.IndexFunc(s.boat.Listeners, func(l path.Listener) bool { return l.Name == s.listener }))
}
