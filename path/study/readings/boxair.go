package readings

import (
	"fmt"
	"math"
	"slices"

	"hushwake/path"
	"hushwake/path/room"
	"hushwake/path/study/draws"
	"hushwake/source/said"
)

// airSD is the error of a temperature read in a box where none is stated, K: from top to bottom and from the engine to the
// wall the air differs by more than a thermometer errs (judgement).
const airSD = 5.0

// inBoxes tells whether an engine runs in a box of that name in any layout.
func inBoxes(m *draws.Model, name string) bool {
	return slices.ContainsFunc(m.Layouts, func(l *draws.Layout) bool { return l.Box(name) != nil })
}

// observeBox compares the logarithms of the rise over the outside, before it is bent, in which heat and flow are linear.
// The outside is that of the file. No level hangs on these terms, so none moves by it.
func observeBox(r path.Reading, l *draws.Layout) ([]observation, string, error) {
	t := *r.Temp
	if !(t > 0) || math.IsInf(t, 0) {
		return nil, "", fmt.Errorf("reading %d: a temperature must be over absolute zero", r.Index)
	}
	b := l.Box(r.Space)
	switch {
	case b == nil:
		return nil, "no engine runs in this box there, or it stands open", nil
	case !(b.Rise > 0) || math.IsInf(b.Rise, 0):
		return nil, "no warming of the air is predicted there", nil
	case t <= b.Outside:
		return nil, said.Textf("not over the {%.0f °C} outside that weather: air of the file says: state the air of that day", b.Outside-273.15), nil
	}
	rise, slope := room.Straight(t - b.Outside)
	if math.IsInf(rise, 0) {
		return nil, "hotter than any heat of an engine brings the air of a box: check its unit and its place", nil
	}
	sd := airSD
	if r.PlusMinus > 0 {
		sd = r.PlusMinus
	}
	bias, repeat := SplitError(sd * slope / rise)
	return []observation{{unit: "K", value: math.Log(rise), shown: t, bias: bias, repeat: repeat, box: true,
		instrument: instrument(r, "thermometer") + " in a box", restore: func(v float64) float64 { return b.Outside + room.Bent(math.Exp(v)) },
		expected: expected{constant: math.Log(b.Rise), keys: b.Keys, sd: b.SD}}}, "", nil
}
