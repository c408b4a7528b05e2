package choice

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"

	"hushwake/source/cores"
)

// Numbers of choices that are tried.
const (
	mostTried = 10000 // all, where there are no more
	batchSize = 64    // at a time; fixed, so that nothing depends on the cores
	nearFront = 3     // of the front may beat a choice whose neighbours are still looked at
	idleLimit = 6     // batches of children without a change of the front, after which the search ends
)

// scored is one choice that was worked out.
type scored struct {
	Choice []int
	Merit  merit
}

// found is the outcome of a search.
type found struct {
	Front         []scored // what nothing that was tried beats, quietest first
	Tried, Pruned int      // pruned: of those tried, left out before their merit was known
	Exhaustive    bool     // every choice was tried
	Cancelled     bool
}

// Limits steer a search; zero means the default.
type Limits struct {
	Seed     uint64
	Most     int // choices tried at most; where there are no more, all are
	Progress func(done, total int)
}

// evaluator gives the merit of a choice, or why it is left out; it is called from several goroutines.
type evaluator func(choice []int) (m merit, keep bool, err error)

// searchAll tries every choice where there are few. Of more it keeps a front, tries everything one slot away from each of
// its members and of what few of them beat, and children of two of them (Pareto local search, Paquete, Chiarandini and
// Stützle 2004, from memory) until nothing new comes of it. The same seed gives the same answer on any number of cores.
func searchAll(ctx context.Context, counts []int, eval evaluator, o Limits) (found, error) {
	if o.Most == 0 {
		o.Most = mostTried
	}
	total := 1
	for _, n := range counts {
		if n < 1 {
			return found{}, errors.New("a slot has nothing that may stand in it\nhint: write none where it may stay empty")
		}
		total = min(total*n, o.Most+1)
	}
	s := &search{ctx: ctx, counts: counts, eval: eval, limits: o, seen: map[string]bool{}, total: min(total, o.Most)}
	if total <= o.Most {
		s.every()
	} else {
		s.climb(rand.New(rand.NewPCG(o.Seed, 0x9e3779b97f4a7c15)))
	}
	return s.found(total <= o.Most)
}

type search struct {
	ctx    context.Context
	counts []int
	eval   evaluator
	limits Limits

	seen          map[string]bool
	explored      []bool // by place in scored: its neighbours were tried
	beaten        []int  // likewise: by how many of the front
	front, scored []scored
	tried, pruned int
	failure       error

	mu          sync.Mutex
	done, total int
}

func (s *search) found(all bool) (found, error) {
	f := found{Front: s.front, Tried: s.tried, Pruned: s.pruned, Cancelled: s.ctx.Err() != nil}
	f.Exhaustive = all && !f.Cancelled
	slices.SortStableFunc(f.Front, func(a, b scored) int {
		for i := range a.Merit {
			switch {
			case a.Merit[i] < b.Merit[i]:
				return -1
			case a.Merit[i] > b.Merit[i]:
				return 1
			}
		}
		return slices.Compare(a.Choice, b.Choice)
	})
	if len(s.front) == 0 && s.tried == s.pruned && s.failure != nil && !f.Cancelled {
		return f, fmt.Errorf("no choice could be worked out: %w", s.failure)
	}
	return f, nil
}

// every tries all choices, the last slot changing fastest.
func (s *search) every() {
	choice := make([]int, len(s.counts))
	for more := true; more && s.ctx.Err() == nil; {
		var batch [][]int
		for ; more && len(batch) < batchSize; more = s.next(choice) {
			batch = append(batch, slices.Clone(choice))
		}
		s.try(batch)
	}
}

// next counts one further; false behind the last.
func (s *search) next(choice []int) bool {
	for i := len(choice) - 1; i >= 0; i-- {
		if choice[i]++; choice[i] < s.counts[i] {
			return true
		}
		choice[i] = 0
	}
	return false
}

// climb searches where not all can be tried.
func (s *search) climb(rng *rand.Rand) {
	s.try(append([][]int{make([]int, len(s.counts))}, s.strangers(rng, batchSize-1)...))
	for idle := 0; idle < idleLimit && s.tried < s.limits.Most && s.ctx.Err() == nil; {
		if at := s.unexplored(rng); at != nil {
			if s.try(s.beside(at)) {
				idle = 0
			}
			continue
		}
		if idle++; s.try(s.children(rng)) {
			idle = 0
		}
	}
}

// unexplored is a member of the front whose neighbours are not tried yet, by chance; then one that few of the front beat.
// nil = none.
func (s *search) unexplored(rng *rand.Rand) []int {
	var open [nearFront + 1][]int // by how many of the front beat it
	for k := range s.scored {
		if s.explored[k] {
			continue
		}
		if by := s.beaten[k]; by <= nearFront {
			open[by] = append(open[by], k)
		}
	}
	for _, list := range open {
		if len(list) > 0 {
			k := list[rng.IntN(len(list))]
			s.explored[k] = true
			return s.scored[k].Choice
		}
	}
	return nil
}

// beside is everything that differs from a choice in one slot.
func (s *search) beside(at []int) (all [][]int) {
	for i, n := range s.counts {
		for k := range n {
			c := slices.Clone(at)
			if c[i] = k; k != at[i] {
				all = append(all, c)
			}
		}
	}
	return all
}

// children take each slot from one of two members of the front, or now and then from none; half of a batch are
// strangers to it.
func (s *search) children(rng *rand.Rand) (all [][]int) {
	for range batchSize / 2 {
		if len(s.front) == 0 {
			break
		}
		a, b := s.front[rng.IntN(len(s.front))].Choice, s.front[rng.IntN(len(s.front))].Choice
		c := make([]int, len(a))
		for i := range c {
			switch c[i] = a[i]; rng.IntN(6) {
			case 0, 1, 2:
				c[i] = b[i]
			case 3:
				c[i] = rng.IntN(s.counts[i])
			}
		}
		all = append(all, c)
	}
	return append(all, s.strangers(rng, batchSize-len(all))...)
}

func (s *search) strangers(rng *rand.Rand, n int) (all [][]int) {
	for range n {
		c := make([]int, len(s.counts))
		for i := range c {
			c[i] = rng.IntN(s.counts[i])
		}
		all = append(all, c)
	}
	return all
}

func key(choice []int) string { return fmt.Sprint(choice) }

// try works out what is new of a batch and tells whether the front changed.
func (s *search) try(batch [][]int) (changed bool) {
	var fresh [][]int
	for _, c := range batch {
		if k := key(c); !s.seen[k] && s.tried+len(fresh) < s.limits.Most {
			s.seen[k] = true
			fresh = append(fresh, c)
		}
	}
	type outcome struct {
		merit     merit
		did, keep bool
		err       error
	}
	out := make([]outcome, len(fresh))
	cores.Each(len(fresh), func(i int) {
		if x := &out[i]; s.ctx.Err() == nil {
			x.did = true
			x.merit, x.keep, x.err = s.eval(fresh[i])
			s.progress()
		}
	})
	for i, x := range out {
		switch {
		case !x.did:
		case x.err != nil || !x.keep:
			s.tried, s.pruned = s.tried+1, s.pruned+1
			if x.err != nil && s.failure == nil {
				s.failure = x.err
			}
		default:
			s.tried++
			changed = s.enter(scored{fresh[i], x.merit}) || changed
		}
	}
	return changed
}

// enter takes a choice into the front unless one there beats it.
func (s *search) enter(x scored) bool {
	by := 0
	for _, o := range s.front {
		if o.Merit.Beats(x.Merit) {
			by++
		}
	}
	s.scored, s.explored, s.beaten = append(s.scored, x), append(s.explored, false), append(s.beaten, by)
	if by > 0 {
		return false
	}
	s.front = slices.DeleteFunc(s.front, func(o scored) bool {
		out := x.Merit.Beats(o.Merit)
		if out {
			s.count(o.Merit, -1)
		}
		return out
	})
	s.count(x.Merit, 1)
	s.front = append(s.front, x)
	return true
}

// count notes that one more of the front, or one less, beats what it beats.
func (s *search) count(m merit, n int) {
	for k := range s.scored {
		if m.Beats(s.scored[k].Merit) {
			s.beaten[k] += n
		}
	}
}

func (s *search) progress() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.done++; s.limits.Progress != nil {
		s.limits.Progress(min(s.done, s.total), s.total)
	}
}
