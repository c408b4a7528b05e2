package scene

import (
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/source/spectrum"
)

// trail is a route in the making: where it has got to, by which steps.
type trail struct {
	last   *leg
	gain   spectrum.Bands // behind its emitter
	energy spectrum.Bands // the same as ratios, of one that has got to the ear
	turn   int            // the last where it was asked whether it ends, counted from 1

	cracked bool // it came by the cracks of a wall; by those of a second it would be far too faint
}

// leg is a piece of a trail and what comes before it; trails that part have the way there in common.
type leg struct {
	before *leg
	word   string
	steps  []path.Step
	wall   *path.Step // the last step of all, of a wall that many pieces lead through; nil = none

	round int64 // of summing up in which it was last met, and as the which
	at    int
}

func (t trail) with(word string, steps ...path.Step) trail {
	t.last = &leg{before: t.last, word: word, steps: steps}
	for i := range steps {
		t.gain = t.gain.Plus(steps[i].Bands)
	}
	return t
}

// add takes it on by a gain, dB.
func (t *trail) add(gain *spectrum.Bands) {
	for b, v := range gain {
		t.gain[b] += v
	}
}

// upTo adds all legs up to this one in order.
func (l *leg) upTo(all []*leg) []*leg {
	first := len(all)
	for ; l != nil; l = l.before {
		all = append(all, l)
	}
	slices.Reverse(all[first:])
	return all
}

// onward stands between the words of a trail.
const onward = " > "

// route closes a trail of an emitter at a listener. It begins behind the first leg, nil = it holds that too.
func (t trail) route(e *emitter, first *leg) path.Route {
	r, start := path.Route{Source: e.source, Engine: e.engine, Way: e.way, AWeight: spectrum.A}, spectrum.Bands{}
	if first != nil {
		start = e.bands
	}
	legs, steps := t.last.upTo(first.upTo(nil)), 1 // of the orders
	for _, l := range legs {
		steps += 1 + len(l.steps)
	}
	var words []string
	r.Steps = make([]path.Step, 0, steps)
	for _, l := range legs {
		if l.word != "" {
			words = append(words, l.word)
		}
		if r.Steps = append(r.Steps, l.steps...); l.wall != nil {
			r.Steps = append(r.Steps, *l.wall)
		}
	}
	r.Route, r.Bands = strings.Join(words, onward), start.Plus(t.gain)
	if e.tones != nil {
		orders := r.Bring(e.tones)
		r.Steps, r.Bands = append(r.Steps, orders), start.Plus(t.gain.Plus(orders.Bands))
	}
	return r
}
