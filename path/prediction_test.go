package path

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"hushwake/silencer"
	"hushwake/silencer/safety"
	"hushwake/source"
	"hushwake/source/spectrum"
)

// The ways to an ear add up by energy, whatever sits in which way, and what quiet routes by outlets bring is the outlets'.
func TestEnergyByWaysIsTheLevel(t *testing.T) {
	h := Heard{Routes: []Route{{Way: ByAir, Bands: spectrum.Fill(60)}, {Way: ByOutlet, Bands: spectrum.Fill(63)},
		{Way: ByAir, Bands: spectrum.Fill(50), Outlets: spectrum.Fill(0.25)}}}
	h.Sum()
	sum := 0.0
	for _, e := range h.ByWay() {
		sum += e
	}
	assert.InDelta(t, h.DBA(), spectrum.Level(sum), 1e-9)
	third := spectrum.Power(h.Routes[2].DBA())
	assert.InDelta(t, spectrum.Power(h.Routes[1].DBA())+third/4, h.ByWay()[ByOutlet], 1e-3)

	before := h.DBA()
	old := h.Routes
	h.Move(func(Route) spectrum.Bands { return spectrum.Fill(-3) })
	assert.InDelta(t, before-3, h.DBA(), 1e-9)
	assert.Equal(t, spectrum.Fill(60), old[0].Bands, "the routes moved are copies")
}

// A background has the level that it is said to have and falls by 5 dB an octave; what nobody measured is wider.
func TestBackgroundHasItsLevel(t *testing.T) {
	b := BackgroundOf(42)
	assert.InDelta(t, 42, b.DBA(), 1e-9)
	for i := 1; i < len(b); i++ {
		assert.InDelta(t, 5, b[i-1]-b[i], 1e-9)
	}
	assert.Greater(t, UsualBackground(Outside).Bands.DBA(), UsualBackground("cabin").Bands.DBA())
	stated := BackgroundRoute(Listener{Name: "helm", Background: Background{Bands: b, SD: BackgroundSD}})
	usual := BackgroundRoute(Listener{Name: "helm", In: "cabin"})
	assert.InDelta(t, 42, stated.Steps[0].Bands.DBA(), 1e-9)
	assert.Greater(t, usual.Steps[0].Uncertain[0].SD[4], stated.Steps[0].Uncertain[0].SD[4])
	assert.Equal(t, "judgement", usual.Steps[0].Mark)
}

// A doubt of a part moves the sum by its share of the energy.
func TestADoubtActsWithItsShare(t *testing.T) {
	s := Step{Uncertain: []Uncertain{{Term: "hose", SD: spectrum.Fill(4)}}}
	half := s.Sharing(spectrum.Fill(10 * math.Log10(0.5)))
	assert.InDelta(t, 2, half.Uncertain[0].SD[3], 1e-9)
	assert.Equal(t, 4.0, s.Uncertain[0].SD[3])
}

// Values not stated add as independent doubts, and only those of the path they belong to; a guess sits on all but the background.
func TestDoubtsOfWhatIsNotStated(t *testing.T) {
	b := &Boat{}
	assert.Nil(t, b.WithUnstated(nil, "mounts", "mounts", "helm"))
	b.Assumptions = append(b.Assumptions, source.Assumption{Of: "helm", PlusMinusDB: 3}, source.Assumption{Of: "helm", PlusMinusDB: 4}, source.Assumption{Of: "cabin", PlusMinusDB: 9})
	assert.InDelta(t, 5, b.WithUnstated(nil, "mounts", "mounts", "helm")[0].SD[0], 1e-12)

	b.Guesses = []Guess{{Of: "rated power", SD: 2}}
	step := Step{Uncertain: []Uncertain{{Term: "x"}}}
	all := []Route{{Way: ByOutlet, Steps: []Step{step}}, {Way: ByBackground, Steps: []Step{step}}}
	b.Guessed(all)
	assert.Len(t, all[0].Steps[0].Uncertain, 2)
	assert.Equal(t, "guess/rated power", all[0].Steps[0].Uncertain[1].Key)
	assert.Len(t, all[1].Steps[0].Uncertain, 1)
	assert.Len(t, step.Uncertain, 1)
}

// Findings come by danger, refusals first among equals, each once.
func TestFindingsByDanger(t *testing.T) {
	f := func(code, severity string, refuse bool) safety.Finding {
		return safety.Finding{Code: code, Severity: severity, Refuse: refuse}
	}
	got := SortFindings([]safety.Finding{f("A", "note", false), f("B", "danger", false), f("C", "danger", true), f("A", "note", false), f("D", "caution", false)})
	var codes string
	for _, x := range got {
		codes += x.Code
	}
	assert.Equal(t, "CBDA", codes)
}

// Place that is known to some metres is a doubt of the level, most where the ear is near, and none of a stated place.
func TestADoubtOfPlace(t *testing.T) {
	assert.Nil(t, Site{}.Doubt("e", 3))
	near, far := Site{Spread: 1}.Doubt("e", 2)[0].SD[0], Site{Spread: 1}.Doubt("e", 20)[0].SD[0]
	assert.Greater(t, near, far)
	assert.InDelta(t, 20*math.Log10(1.05), far, 0.02, "one metre in twenty")

	l := &Layout{Spaces: []Space{box("hold", 0, 0, 0, 4, 2, 2), {Name: "somewhere"}}, Engines: []Engine{{In: "hold"}}}
	b := &Boat{Listeners: []Listener{{In: "somewhere", At: Point{7, 1, 1}}}}
	at, taken := b.Somewhere(l, "hold")
	assert.Equal(t, Site{At: Point{2, 1, 1}}, at)
	assert.Contains(t, taken, "middle of the engine's space")
	at, _ = b.Somewhere(l, "somewhere")
	assert.Equal(t, Point{7, 1, 1}, at.At)
	at, _ = b.Somewhere(l, "else")
	assert.Equal(t, usualMiddle, at.At)
	_, within, _ := b.EngineSite(l, &Engine{In: "else"})
	assert.InDelta(t, 5, within, 1e-9)
}

// A wall gives its heat to the space of the part, else to those of the nearest parts that state theirs; none to the open.
func TestPlacesOfParts(t *testing.T) {
	in := func(k int) string { return []string{"", "trunk", "", "saloon", ""}[k] }
	assert.Equal(t, []string{"engine room", "trunk"}, PlacesAlong(5, in, 0, "engine room"))
	assert.Equal(t, []string{"trunk"}, PlacesAlong(5, in, 1, "engine room"))
	assert.Equal(t, []string{"trunk", "saloon"}, PlacesAlong(5, in, 2, "engine room"))

	rows := silencer.Marched{Rows: []silencer.Row{{HeatLoss: 100}, {In: "trunk", HeatLoss: 200}, {In: Outside, HeatLoss: 400}}}
	heat := heatTo(&Engine{In: "engine room"}, &rows, 2)
	assert.InDelta(t, 2*(100+200), heat["trunk"], 1e-9)
	assert.InDelta(t, 2*100, heat["engine room"], 1e-9)
	assert.NotContains(t, heat, Outside)
}
