package live

import (
	"fmt"
	"slices"
	"sync"

	"hushwake/path/boatfile/edit"
	session "hushwake/path/live"
	"hushwake/path/report"
	"hushwake/path/report/form"
)

// Desk is one boat file that is being changed, as a page sees it. Several goroutines may use it.
type Desk struct {
	mu      sync.Mutex
	session doer
	last    session.Answer
	units   form.Units
	curve   *curve
	gains   *gains
	sounds  *sounds
	diff    []edit.Line // that was asked for last, and the stamp of its text
	diffOf  string
	opened  map[string]bool   // things of the file all of whose controls are shown
	page    string            // to which the fragments below went
	sent    map[string]string // by id
}

// doer is what a desk needs of a session.
type doer interface {
	Do(session.Message) session.Answer
}

// gains are what would help most, of the text with a stamp.
type gains struct {
	stamp, layout string
	all           []report.Gain
	places        []string // where the gap that a change seals is stated, "" = no edit
}

// sounds are the layouts as they are heard at a place, of the text with a stamp.
type sounds struct{ stamp, listener, html string }

// NewDesk begins with a text; the name is that of the file. A text that doesn't load is shown with what is wrong in it.
func NewDesk(name string, text []byte) (*Desk, error) {
	if len(text) > mostText {
		return nil, fmt.Errorf("%s holds %d bytes\nhint: a boat file has a few thousand; %d is the most that is read", name, len(text), mostText)
	}
	return newDesk(session.New(name, text)), nil
}

// mostText is more than any boat file holds, bytes.
const mostText = 1 << 20

func newDesk(s doer) *Desk {
	return &Desk{session: s, opened: map[string]bool{}, last: s.Do(session.Message{Op: "show"})}
}

// Text is the file as it stands.
func (d *Desk) Text() []byte {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.last.Text
}

func (d *Desk) view(slips []session.Slip) *view {
	v := &view{Answer: &d.last, u: d.units, i: -1, slips: slips, taken: map[string]bool{}, opened: d.opened}
	if v.Figures == nil || v.Figures.Comparison == nil {
		return v
	}
	v.w = v.Figures.Comparison
	v.i = slices.IndexFunc(v.w.Predictions, func(p prediction) bool { return p.Layout.Name == v.Layout })
	v.j = max(slices.IndexFunc(v.w.Boat.Listeners, func(l listener) bool { return l.Name == v.Listener }), 0)
	return v
}
