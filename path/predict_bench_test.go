package path_test

import (
	"testing"

	"hushwake/path"
	"hushwake/path/boatfile"
)

// BenchmarkPredict predicts every layout of the largest demo.
func BenchmarkPredict(b *testing.B) {
	boat, err := boatfile.LoadFile("../testdata/dry-stack.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for _, l := range boat.Layouts {
			if _, err := path.Predict(boat, l); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkPredictWet predicts the wet layouts of the largest demo.
func BenchmarkPredictWet(b *testing.B) {
	boat, err := boatfile.LoadFile("../testdata/dry-stack.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for _, l := range boat.Layouts[len(boat.Layouts)-2:] {
			if _, err := path.Predict(boat, l); err != nil {
				b.Fatal(err)
			}
		}
	}
}
