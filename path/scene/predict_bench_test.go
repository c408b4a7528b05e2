package scene_test

import (
	"testing"

	"hushwake/path"
	"hushwake/path/scene"
)

// BenchmarkPredict predicts all layouts of the largest demo, and its wet ones alone, in both forms.
func BenchmarkPredict(b *testing.B) {
	boat := demo(b, "dry-stack")
	for name, c := range map[string]struct {
		form    path.Form
		layouts []*path.Layout
	}{
		"full":      {path.Full, boat.Layouts},
		"fast":      {path.Fast, boat.Layouts},
		"wet":       {path.Full, boat.Layouts[len(boat.Layouts)-2:]},
		"fast, wet": {path.Fast, boat.Layouts[len(boat.Layouts)-2:]},
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				for _, l := range c.layouts {
					if _, err := scene.PredictIn(boat, l, c.form); err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}
