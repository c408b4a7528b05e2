package parts

import (
	"testing"

	"github.com/stretchr/testify/require"

	"hushwake/path"
	"hushwake/path/boatfile"
	"hushwake/path/scene"
	"hushwake/path/study/readings"
	"hushwake/silencer"
)

// BenchmarkSize tries sizes of the in-line chamber of the generator in its box, as a search does.
func BenchmarkSize(b *testing.B) {
	boat, err := boatfile.LoadFile("../../../testdata/generator-box.yaml")
	require.NoError(b, err)
	var at Chosen
	for _, l := range boat.Layouts {
		if l.Name != "lined ducts" {
			continue
		}
		for x := range l.Exhausts {
			for i, e := range l.Exhausts[x].Line.Elements {
				if NameOf(e) == "in-line chamber" {
					at = Chosen{l, x, i, e}
				}
			}
		}
	}
	k, err := readings.Know(boat, readings.Options{})
	require.NoError(b, err)
	s, err := silencer.SizeOf(at.Element, at.Bore(), 1.2, 0.4)
	require.NoError(b, err)
	heard := *k.Boat
	heard.Listeners = heard.Listeners[:1]
	session := scene.NewSession(&heard)
	b.ResetTimer()
	for i := 0; b.Loop(); i++ {
		x := make([]float64, len(s.Dimensions))
		for d, v := range s.Dimensions {
			u := float64((i*(2*d+7))%97) / 97
			x[d] = v.Low + u*(v.High-v.Low)
		}
		if _, err := outcome(k, session, at, s, path.Fast, x); err != nil {
			b.Fatal(err)
		}
	}
}
