package loss

import (
	"hushwake/source/published"
	"math"
	"slices"
	"strings"
	"testing"
)

// The handbook's constant suits its own table: 6.4 bores for 45 degrees, 15 for 90.
func TestHandbookBends(t *testing.T) {
	near(t, "45", handbookBendLength(math.Pi/4), 6.4, 1e-12)
	near(t, "90", handbookBendLength(math.Pi/2), 15, 1e-12)
	near(t, "0", handbookBendLength(0), 0, 0)
	near(t, "K", HandbookBend(math.Pi/2).K, 0.33, 1e-9)
}

func TestTables(t *testing.T) {
	for _, m := range names(roughnessTable) {
		r, err := roughnessOf(m)
		if err != nil || !(r.Low <= r.Typical && r.Typical <= r.High && r.Low > 0) || r.Source == "" || !slices.Contains(published.Marks, r.Mark) {
			t.Errorf("%s: %+v %v", m, r, err)
		}
	}
	for _, m := range names(wallTable) {
		w, err := WallOf(m)
		if err != nil || w.Conductivity <= 0 || w.Emissivity <= 0 || w.Emissivity > 1 || w.Source == "" || !slices.Contains(published.Marks, w.Mark) {
			t.Errorf("%s: %+v %v", m, w, err)
		}
		if r := MaterialOf(m, "").Roughness; !(r > 0 && r < 1e-3) {
			t.Errorf("%s is %g m rough", m, r)
		}
	}
	for _, m := range LaggingMaterials() {
		l, err := LaggingOf(m)
		if err != nil || l.Source == "" {
			t.Errorf("%s: %v", m, err)
		}
		for k := 250.0; k < 900; k += 10 {
			if l.At(k+10) < l.At(k) || l.At(k) <= 0 {
				t.Errorf("%s: conductivity falls at %g K", m, k)
			}
		}
	}
	_, err := WallOf("cheese")
	if err == nil || !strings.Contains(err.Error(), "mild steel") {
		t.Errorf("error without the known names: %v", err)
	}
	for id, want := range map[string]float64{"ignition": 493.15, "touch_us": 338.65, "guard": 366.15, "clearance": 0.45, "clearance_generator": 0.305} {
		l, err := LimitOf(id)
		if err != nil {
			t.Fatal(err)
		}
		near(t, id, l.SI(), want, 1e-9)
	}
}
