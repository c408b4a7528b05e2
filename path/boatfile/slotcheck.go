package boatfile

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path"
	"hushwake/path/boatfile/decode"
)

// checkSlots reads every option with the first of all others. What no size of an option can be is an error; sizes that
// do not go together are left out and said. more looks at the parts once they are read.
func (r *reader) checkSlots(l *path.Layout, more func(*reader, *path.Layout)) {
	s := r.open[l]
	if s == nil {
		return
	}
	before := r.Problems
	for i := range s.slots {
		wrong := map[*decode.Node][]int{} // places of options that cannot be, by what was written
		problems := make([][]decode.Problem, len(s.slots[i].options))
		for k, x := range s.slots[i].options {
			choice := make([]int, len(s.slots))
			choice[i] = k
			other, as := s.read(choice)
			more(other, as)
			if k == 0 || s.slots[i].options[k-1].at != x.at {
				r.alsoFilled(other, l)
			}
			for _, p := range other.Problems {
				if !slices.Contains(before, p) {
					problems[k] = append(problems[k], p)
				}
			}
			if len(problems[k]) > 0 {
				wrong[x.at] = append(wrong[x.at], k)
			}
		}
		r.outOf(&s.slots[i], wrong, problems)
	}
	l.Slots = s.public()
	for _, x := range s.slots {
		l.Unpriced = append(l.Unpriced, "slot "+x.name)
	}
}

// alsoFilled lists the defaults that an option takes beside those of the line as it stands, where its parts have other
// places: what a kind takes there already is not said again.
func (r *reader) alsoFilled(other *reader, l *path.Layout) {
	for _, x := range other.Shared {
		known := map[string]bool{}
		for _, y := range r.Shared {
			if y.Filled == x.Filled && slices.Contains(y.Layouts, l.Base) {
				_, who, _ := strings.Cut(y.What, " of ")
				for _, w := range strings.Split(who, ", ") {
					known[firstWord(w)] = true
				}
			}
		}
		what, who, _ := strings.Cut(x.What, " of ")
		fresh := slices.DeleteFunc(strings.Split(who, ", "), func(w string) bool { return known[firstWord(w)] })
		if len(fresh) > 0 {
			r.Share(l.Base, what+" of "+strings.Join(fresh, ", "), x.Filled)
		}
	}
}

func firstWord(s string) string {
	w, _, _ := strings.Cut(s, " ")
	return w
}

// outOf takes the sizes out of a slot that cannot be, and reports those that can be with nothing.
func (r *reader) outOf(s *slot, wrong map[*decode.Node][]int, problems [][]decode.Problem) {
	good, bad := map[*decode.Node]int{}, map[*decode.Node]int{} // by option and by size
	for k, x := range s.options {
		count := good
		if len(problems[k]) > 0 {
			count = bad
		}
		for _, n := range append(slices.Clone(x.sizes), x.at) {
			count[n]++
		}
	}
	var kept []option
	for k, x := range s.options {
		if len(problems[k]) == 0 {
			kept = append(kept, x)
			continue
		}
		lost := slices.ContainsFunc(append(slices.Clone(x.sizes), x.at), func(n *decode.Node) bool { return good[n] == 0 })
		if first := wrong[x.at][0] == k; lost && (first || good[x.at] > 0) {
			r.Problems = append(r.Problems, problems[k]...)
		} else if first {
			s.left = append(s.left, fmt.Sprintf("slot %s: %d of %d sizes of an option don't go together and are left out: %s", s.name, bad[x.at], bad[x.at]+good[x.at], problems[k][0].Message))
			r.Warn(x.at, "%s", s.left[len(s.left)-1])
		}
	}
	if len(kept) > 0 {
		s.options = kept
	}
}
