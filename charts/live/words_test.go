package live

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hushwake/path/boatfile/controls"
	"hushwake/path/boatfile/edit"
	session "hushwake/path/live"
	"hushwake/path/report"
	"hushwake/source/spectrum"
)

func TestADifferenceIsFromNow(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	v := d.view(nil)
	f := figuresOf(d.last.Figures)
	louder := spectrum.Whole(*f.Layouts[1].Listeners[0].Level) - spectrum.Whole(*f.Layouts[0].Listeners[0].Level) // the door is open
	require.Positive(t, louder)
	assert.True(t, strings.HasPrefix(v.againstNow(1), fmt.Sprintf("+%.0f dB, ", louder)), v.againstNow(1))
	assert.Equal(t, "this is now", v.againstNow(0))
	assert.Equal(t, "This is what is on board now.", v.sinceNow())
	v.i = 1
	assert.Contains(t, v.sinceNow(), "“as found” now: +")
	v.w.Spread.Layouts[0].Listeners[0].Level, v.w.Spread.Layouts[1].Listeners[0].Level = 79.6, 63.4
	assert.Equal(t, "−17 dB, a third as loud", strings.ReplaceAll(v.againstNow(1), "about ", ""), "80 and 63 stand beside it")
	assert.Equal(t, []string{"±0", "−1", "+1", "−12"}, []string{signed(-0.4), signed(-0.6), signed(1.4), signed(-12)})
}

func TestWhatIsOverItsLimitIsMarked(t *testing.T) {
	d := newDesk(session.New("boat.yaml", demo(t)))
	level := d.view(nil).drawn().LevelAt(0, 0).DBA
	for _, over := range []bool{true, false} {
		limit := math.Round(level) + 2
		if over {
			limit = math.Round(level) - 2
		}
		answered(t, d, fmt.Sprintf(`{"op":"set","at":"/listeners/helm/limit","to":"%.0f dBA"}`, limit))
		assert.Equal(t, over, d.view(nil).over(0, 0))
	}
	assert.False(t, d.view(nil).over(0, 2), "a seat without a limit")
}

func TestFactsLeaveOutWhatNobodyKnows(t *testing.T) {
	share, heat, no := 0.506, 1234.0, false
	all := facts(report.Row{PressureShare: &share, Heat: &heat, Price: "900 EUR", Fits: &no}, unitsNamed(""))
	assert.Equal(t, []string{"51 % of the engine’s back-pressure limit", "1.23 kW of heat into the boat", "900 EUR", "does not fit"}, all)
	assert.Equal(t, []string{"price unknown"}, facts(report.Row{Price: "unknown"}, unitsNamed("")))
}

func TestADifferenceShowsItsSurroundings(t *testing.T) {
	was := strings.Split("abcdefghij", "")
	is := append(append([]string{}, was[:5]...), append([]string{"new"}, was[6:]...)...)
	var text string
	for _, l := range shortened(edit.Diff([]byte(strings.Join(was, "\n")), []byte(strings.Join(is, "\n")))) {
		text += l.class + ":" + l.text + "|"
	}
	assert.Equal(t, "kept:  d|kept:  e|out:− f|in:+ new|kept:  g|kept:  h|kept:…|", text)
}

func TestALongLineShowsWhatChangesInIt(t *testing.T) {
	long := strings.Repeat("a", 100) + "bore: 76 mm" + strings.Repeat("z", 100)
	is := strings.Replace(long, "76", "128", 1)
	all := shortened(edit.Diff([]byte(long+"\nshort\n"), []byte(is+"\nshort\n")))
	require.Len(t, all, 3)
	assert.Equal(t, "− …"+strings.Repeat("a", 34)+"bore: 76 mm"+strings.Repeat("z", 37)+"…", all[0].text)
	assert.Equal(t, "+ …"+strings.Repeat("a", 34)+"bore: 128 mm"+strings.Repeat("z", 37)+"…", all[1].text)
	assert.Equal(t, "  short", all[2].text)
	assert.Equal(t, "ä", clip([]rune("ä"), 0, 0))
	all = shortened(edit.Diff([]byte(long+"\n"), []byte(long+"\n"+is+is+"\n")))
	require.Len(t, all, 2)
	assert.Equal(t, "  "+strings.Repeat("a", 80)+"…", all[0].text)
	assert.Equal(t, "+ "+is+is, all[1].text, "a new line can be read before it is saved")
}

func TestASlipLeavesOutItsPlace(t *testing.T) {
	slips := []session.Slip{{Message: `layouts.x.main.line[6].packed bore: unknown unit "b"`, Hint: "units: mm"}, {Message: `layouts.y.main.line[6].packed bore: unknown unit "b"`, Hint: "units: mm"}}
	assert.Equal(t, []string{`Unknown unit "b". Units: mm.`}, slipWords("/layouts/0/exhausts/main/line/5/packed/bore", slips))
	assert.Equal(t, []string{"No length."}, slipWords("/listeners/helm/at/0", []session.Slip{{Message: "listeners.helm at: no length"}}))
}

func TestTheCurveAndItsLine(t *testing.T) {
	c := &curve{engines: []string{"a/b"}, swept: straight(800, 2000, 61, 79)}
	assert.Equal(t, "/engines/a~1b/running/speed", c.place())
	x, y, ok := c.scales(0)
	require.True(t, ok)
	assert.InDelta(t, x.low, x.at(800), 1e-9)
	assert.InDelta(t, x.high, x.at(2000), 1e-9)
	assert.Equal(t, []float64{60, 80}, []float64{y.from, y.to}, "whole tens about all levels")
	assert.Greater(t, y.at(61), y.at(79), "what is louder stands higher")
	for _, s := range []span{x, {from: 0, to: 100}, {from: 0.4, to: 0.9}, {from: 1234, to: 5678}} {
		ticks := s.ticks()
		assert.True(t, len(ticks) >= 2 && len(ticks) <= 6, ticks)
		assert.True(t, ticks[0] >= s.from && ticks[len(ticks)-1] <= s.to, ticks)
	}
	_, _, ok = c.scales(9)
	assert.False(t, ok, "no such seat")
	c.overLoad = true
	assert.Empty(t, c.place(), "a set keeps its speed")
	c.overLoad, c.engines = false, []string{"port", "starboard"}
	assert.Empty(t, c.place(), "one line can't set two engines")
}

func TestWhatNotKnowingCostsIsSaid(t *testing.T) {
	price := 1.25
	assert.Empty(t, takenWords(controls.Control{Value: "1 m", Taken: "2 m"}))
	assert.Equal(t, "taken: 2 m, which leaves ±1.2 dB", takenWords(controls.Control{Unknown: true, Taken: "2 m", Price: &price}))
	assert.Equal(t, "way it faces", takenWords(controls.Control{Unknown: true, Fits: "way it faces"}))
	assert.Equal(t, "a: b", plainValue(controls.Control{Value: `"a: b"`}))
	assert.Equal(t, "[1 m, 2 m]", plainValue(controls.Control{Value: "[1 m, 2 m]"}))
	for to, want := range map[string]string{"1500 rpm": "1500 rpm", "a: b": edit.Quote("a: b"), "[1 m, 2 m]": "[1 m, 2 m]", "": edit.Quote("")} {
		assert.Equal(t, want, asYAML(session.Message{Op: "set", To: to}).To)
	}
	assert.Equal(t, "a: b", asYAML(session.Message{Op: "note", To: "a: b"}).To, "what is no value of a field stays")
}

func TestThingsAreCalledByTheirNames(t *testing.T) {
	for part, want := range map[string]string{"lift_chamber lift chamber 9 L": "5 · lift chamber 9 L", "pipe 5": "5 · pipe", "packed old silencer": "5 · packed old silencer", "pipe 1": "5 · pipe 1"} {
		assert.Equal(t, want, partName(controls.Control{Part: part}, "/layouts/0/exhausts/main/line/4"))
	}
	assert.Equal(t, "of a/b", partName(controls.Control{At: "/layouts/0/exhausts/a~1b/outlet/bore", Group: "layouts x"}, "/layouts/0"))
	assert.Equal(t, "wheelhouse door", partName(controls.Control{At: "/partitions/3/area", Group: "partitions wheelhouse door"}, "/partitions/3"))
	assert.Equal(t, "weather", partName(controls.Control{At: "/weather/air", Group: "weather"}, "/weather/air"))
	d := newDesk(session.New("boat.yaml", demo(t)))
	assert.Equal(t, []string{"/layouts/0/exhausts/main/line"}, d.view(nil).lines())
}
