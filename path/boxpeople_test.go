package path

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/silencer/safety"
)

// Air of a box that ends where people are is a danger; outdoors, into a space without people and inwards it is none.
func TestBoxBlowsAtPeople(t *testing.T) {
	people := []Heard{{Listener: Listener{Name: "bunk", In: "cabin"}}, {Listener: Listener{Name: "probe", In: "locker", Probe: true}}}
	for to, want := range map[string]int{"cabin": 1, "locker": 0, Outside: 0, "": 0} {
		enc := &Enclosure{Name: "box", Openings: []Opening{{Role: "outlet", To: to}, {Role: "inlet", To: "cabin"}}}
		all := peopleFindings(people, enc)
		require.Len(t, all, want, to)
		if want > 0 {
			require.Equal(t, safety.Danger, all[0].Severity)
			require.Contains(t, all[0].Text, "into cabin")
		}
	}
}

// Only who sits in the open breathes what leaves the outlet: a cabin is reached by its openings.
func TestOutletBlowsAtSeatsInTheOpen(t *testing.T) {
	b := &Boat{Listeners: []Listener{{Name: "bunk", In: "cabin", At: Point{1, 0, 0}}, {Name: "deck", In: Outside, At: Point{3, 0, 0}}, {Name: "wing", At: Point{2, 0, 0}},
		{Name: "probe", In: Outside, Probe: true}}}
	d, name := nearestPerson(b, Point{})
	require.Equal(t, "wing", name)
	require.InDelta(t, 2, *d, 1e-12)
	b.Listeners = b.Listeners[:1]
	d, _ = nearestPerson(b, Point{})
	require.Nil(t, d)
}
