package path

import (
	"strings"

	"hushwake/source/spectrum"
)

// trail is a route in the making: where it has got to, by which steps.
type trail struct {
	last  *leg
	start spectrum.Bands // the emitter's level
	gain  spectrum.Bands // behind it
	seen  []string       // spaces already passed
	turn  int            // the last where it was asked whether it ends, counted from 1

	cracked bool // it came by the cracks of a wall; by those of a second it would be far too faint
}

// trail begins one at the emitter.
func (e *emitter) trail() trail {
	return trail{start: e.bands, last: &leg{word: e.how, steps: e.steps}}
}

// of is the same trail of an emitter at another level; what is common to trails stays so.
func (t *trail) of(e *emitter) trail {
	n := 0
	for l := t.last; l.before != nil; l = l.before {
		n++
	}
	legs := make([]leg, n+1)
	for l, i := t.last, n; i > 0; l, i = l.before, i-1 {
		legs[i] = leg{&legs[i-1], l.word, l.steps}
	}
	legs[0] = leg{word: e.how, steps: e.steps}
	return trail{start: e.bands, gain: t.gain, last: &legs[n]}
}

// level is what it has come to.
func (t trail) level() spectrum.Bands { return t.start.Plus(t.gain) }

// leg is a piece of a trail and what comes before it; trails that part have the way there in common.
type leg struct {
	before *leg
	word   string
	steps  []Step
}

func (t trail) with(word string, steps ...Step) trail {
	t.last = &leg{t.last, word, steps}
	for i := range steps {
		t.gain = t.gain.Plus(steps[i].Bands)
	}
	return t
}

// each shows the steps of all legs in order.
func (l *leg) each(see func(steps []Step)) {
	if l.before != nil {
		l.before.each(see)
	}
	see(l.steps)
}

// all are the steps of all legs.
func (l *leg) all() []Step {
	n := 0
	l.each(func(steps []Step) { n += len(steps) })
	out := make([]Step, 0, n)
	l.each(func(steps []Step) { out = append(out, steps...) })
	return out
}

// onward stands between the words of a trail.
const onward = " > "

// words are those of all legs.
func (l *leg) words() (all []string) {
	if l.before != nil {
		all = l.before.words()
	}
	if l.word != "" {
		all = append(all, l.word)
	}
	return all
}

func (t trail) entered(space string) trail {
	t.seen = append(t.seen[:len(t.seen):len(t.seen)], space)
	return t
}

func (t trail) passed(space string) bool {
	for _, s := range t.seen {
		if s == space {
			return true
		}
	}
	return false
}

// route closes a trail at a listener.
func (t trail) route(e *emitter) Route {
	r := t.closed(e)
	r.complete()
	return r
}

// closed is a route whose words and steps are still to be put together: of most nobody asks for them.
func (t trail) closed(e *emitter) Route {
	r := Route{Source: e.source, Engine: e.engine, Way: e.way, AWeight: spectrum.A}
	if e.tones != nil {
		r.tones, r.behind = e.tones, t.level().Minus(e.tones.upTo)
		bands, weight := e.tones.heard(r.behind)
		r.AWeight = weight
		t = t.with("", ordersStep(t.level(), bands))
	}
	r.Bands, r.last = t.level(), t.last
	return r
}

// complete puts them together.
func (r *Route) complete() {
	if r.last == nil {
		return
	}
	r.Route, r.Steps, r.last = strings.Join(r.last.words(), onward), r.last.all(), nil
}

// legs are the pieces of a route in order.
func (r *Route) legs(see func(steps []Step)) {
	if see(r.Steps); r.last != nil {
		r.last.each(see)
	}
}
