package path

import (
	"fmt"
	"slices"
	"strings"
)

// asItStands is how owners call the layout they have.
var asItStands = []string{"as is", "as found", "as it is", "as it stands", "today", "present", "now"}

// Present is the layout on board now and what tells it: the first reading that names one, else its own name, such as "as is". Where nothing
// tells it, it is the first of the file and known is false. A boat without layouts has none.
func (b *Boat) Present() (l *Layout, why string, known bool) {
	for i := range b.Readings {
		if l, ok := b.Layout(b.Readings[i].Layout); ok {
			return l, fmt.Sprintf("reading %d was taken on it", i+1), true
		}
	}
	for _, l := range b.Layouts {
		name, _, _ := strings.Cut(strings.ToLower(l.Name), ",")
		if slices.ContainsFunc(asItStands, func(word string) bool { return strings.HasPrefix(name+" ", word+" ") }) {
			return l, "by its name", true
		}
	}
	if len(b.Layouts) == 0 {
		return nil, "", false
	}
	return b.Layouts[0], "the first of the file: no reading names one, and none is called as is or as found", false
}
