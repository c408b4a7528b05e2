package path

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/source"
	"hushwake/source/spectrum"
)

func twoEngines() *Layout {
	return &Layout{Engines: []Engine{{Engine: source.Engine{Name: "main", Rated: source.Duty{Speed: 2000, Power: 80e3}, Running: source.Duty{Speed: 1500, Power: 30e3}}, In: "engine room"},
		{Engine: source.Engine{Name: "set"}, Enclosure: "sound box"}},
		Partitions: []Partition{{Name: "cabin door", Between: [2]string{"cabin", "saloon"}, Area: 1.2}, {Name: "locker door", Between: [2]string{"saloon", Outside}, Area: 0.5},
			{Name: "hatch usual", Between: [2]string{"saloon", Outside}, Area: 9, Usual: &Usual{Kind: Deck}}}}
}

// A reading opens the doors and boxes that it names and changes nothing of the layout it was taken on.
func TestALayoutAsAReadingFoundIt(t *testing.T) {
	l := twoEngines()
	was, err := l.ForReading(Reading{Open: []string{"cabin door", "box lid"}})
	require.NoError(t, err)
	assert.Equal(t, 1.2, was.Partitions[0].OpenArea)
	assert.Empty(t, was.Engines[1].Enclosure)
	assert.Equal(t, twoEngines(), l)

	_, err = l.ForReading(Reading{Open: []string{"door"}})
	assert.ErrorContains(t, err, "may be any of 2")
	_, err = l.ForReading(Reading{Open: []string{"skylight"}})
	assert.ErrorContains(t, err, "hint: give the door's partition that name")
	_, err = l.ForReading(Reading{Open: []string{"hatch"}})
	assert.Error(t, err, "a wall that nobody stated is no hatch to open")
	assert.Equal(t, []string{"cabin door", "locker door"}, l.Doors())
}

// A reading's duty is the engine's; without a power the load law bent through the running duty gives it, and what was measured stays
// measured where it was.
func TestTheDutyOfAReading(t *testing.T) {
	l := twoEngines()
	was, err := l.ForReading(Reading{RunEngine: "main", RunSpeed: 1000})
	require.NoError(t, err)
	assert.InEpsilon(t, 30e3/(1.5*1.5*1.5), was.Engines[0].Running.Power, 1e-12, "the cube of speed from the running duty")
	assert.Zero(t, was.Engines[0].MeasuredAt, "of nothing measured")
	feet := spectrum.Fill(80)
	l.Engines[0].FootVelocity = &feet
	was, err = l.ForReading(Reading{RunEngine: "main", RunSpeed: 1000})
	require.NoError(t, err)
	assert.Equal(t, l.Engines[0].Running, was.Engines[0].MeasuredAt)
	was, err = l.ForReading(Reading{RunEngine: "main", RunSpeed: 1500})
	require.NoError(t, err)
	assert.Equal(t, l.Engines, was.Engines, "the running duty said outright")
	was, err = l.ForReading(Reading{RunEngine: "main", RunSpeed: 1000, RunPower: 5e3})
	require.NoError(t, err)
	assert.Equal(t, source.Duty{Speed: 1000, Power: 5e3}, was.Engines[0].Running)
	_, err = l.ForReading(Reading{RunSpeed: 1000})
	assert.ErrorContains(t, err, "hint: say which engine ran")
}

// Every space that a reading names gets one ear in its middle, after those of the file.
func TestReadingsOfSpaces(t *testing.T) {
	level := 90.0
	b := &Boat{Listeners: []Listener{{Name: "helm"}}, Layouts: []*Layout{{Spaces: []Space{box("engine room", 0, 0, 0, 2, 2, 2)}, Engines: []Engine{{In: "engine room"}}}},
		Readings: []Reading{{Space: "engine room", Level: &level}, {Space: "engine room", Level: &level}, {Listener: "helm", Level: &level}, {Space: "engine room"}}}
	out := b.WithSpaceReadings()
	require.Len(t, out.Listeners, 2)
	assert.Equal(t, Listener{Name: "in the engine room", In: "engine room", Probe: true, At: Point{1, 1, 1}}, out.Listeners[1])
	assert.Equal(t, out.Listeners[1].Name, out.Readings[1].Listener)
	assert.Equal(t, "helm", out.Readings[2].Listener)
	assert.Empty(t, out.Readings[3].Listener, "it has no sound")
	assert.Len(t, b.Listeners, 1)
	assert.Empty(t, b.Readings[0].Listener)
}

// The layout on board is the one that a reading was taken on, else the one called so, else the first.
func TestWhichLayoutIsOnBoard(t *testing.T) {
	b := &Boat{Layouts: []*Layout{{Name: "wet"}, {Name: "As found, door open"}}}
	l, _, known := b.Present()
	assert.Equal(t, b.Layouts[1], l)
	assert.True(t, known)
	b.Readings = []Reading{{Layout: "wet"}}
	l, why, _ := b.Present()
	assert.Equal(t, b.Layouts[0], l)
	assert.Equal(t, "reading 1 was taken on it", why)
	b = &Boat{Layouts: []*Layout{{Name: "nowhere near"}}}
	l, _, known = b.Present()
	assert.Equal(t, b.Layouts[0], l)
	assert.False(t, known)
	l, _, _ = (&Boat{}).Present()
	assert.Nil(t, l)
}
