package path

import (
	"fmt"
	"strings"
)

// Slots are the places in the lines of a layout that are left open, with what may stand in each.
type Slots struct {
	Slots []Slot
	Left  []string // which sizes are left out, as they do not go together
	// Build gives the layout with an option in each slot, by their places in the lists; it differs from the layout
	// as it stands in lines and price alone. An error says why the parts do not go together.
	Build func(choice []int) (*Layout, error)
}

// Slot is one place.
type Slot struct {
	Name    string
	Engine  string // whose line it is in
	Options []Option
}

// Option is what may stand in a slot, of one set of sizes.
type Option struct {
	Text   string
	Priced bool // the price of all of it is stated; nothing at all costs nothing
}

// Priced tells whether the price of a whole choice is stated.
func (s *Slots) Priced(choice []int) bool {
	for i, k := range choice {
		if !s.Slots[i].Options[k].Priced {
			return false
		}
	}
	return true
}

// question is why a layout cannot be judged as it stands.
func (s *Slots) question() string {
	var names []string
	for _, x := range s.Slots {
		names = append(names, x.Name)
	}
	return fmt.Sprintf("Open slots: what goes into %s? The first option of each stands there now; 'hushwake choose' searches them.", strings.Join(names, " and "))
}

// Engines are those whose lines are left open, each once.
func (s *Slots) Engines() (names []string) {
	for _, x := range s.Slots {
		names = append(names, x.Engine)
	}
	return unique(names)
}

// unique keeps the first of equal values.
func unique[T comparable](all []T) []T {
	seen := map[T]bool{}
	out := all[:0:0]
	for _, v := range all {
		if !seen[v] {
			seen[v] = true
			out = append(out, v)
		}
	}
	return out
}
