package loss

import (
	"math"
	"strings"
	"testing"
)

// Worked example 1 of a chimney sheet (177 ft, 12 in, 6464 cfm, 0.0296 lb/ft3: 0.17 psi) beside the Darcy result.
func TestOpinionsStandBesideEachOther(t *testing.T) {
	s := Straight{Length: 177 * foot, Bore: 12 * inch, Density: 0.0296 * poundFt3, Flow: 6464 * cfm, Temperature: 772.15}
	all := Opinions(s, 3.51e-5, 0.045e-3)
	if len(all) != 5 {
		t.Fatalf("%d opinions", len(all))
	}
	near(t, "psi sheet", all[1].Drop/psi, 0.17, 0.005)
	near(t, "metric sheet is the same", all[0].Drop/all[1].Drop, 1, 0.005) // both hide 0.0160, to three digits
	if all[3].Note == "" {                                                 // 6464 cfm is above the mercury sheet's 6000
		t.Error("the mercury sheet went past its constants")
	}
	if darcy := all[4].Drop; darcy <= all[0].Drop {
		t.Errorf("Darcy %.0f Pa is not above the sheet's %.0f Pa", darcy, all[0].Drop)
	}
}

// The handbook's constant suits its own table: 6.4 bores for 45 degrees, 15 for 90.
func TestHandbookBends(t *testing.T) {
	near(t, "45", HandbookBendLength(math.Pi/4), 6.4, 1e-12)
	near(t, "90", HandbookBendLength(math.Pi/2), 15, 1e-12)
	near(t, "0", HandbookBendLength(0), 0, 0)
	near(t, "K", HandbookBend(math.Pi/2).K, 0.33, 1e-9)
}

func TestTradeRefuses(t *testing.T) {
	good := Straight{Length: 1, Bore: 0.1, Density: 0.5, Flow: 0.2}
	if _, err := Trade(FormHotPascal, good); err == nil {
		t.Error("no temperature, no error")
	}
	if _, err := Trade(FormMercury, good); err == nil {
		t.Error("no temperature, no error")
	}
	if _, err := Trade(Form(9), good); err == nil {
		t.Error("unknown form")
	}
	if _, err := Trade(FormMetric, Straight{}); err == nil {
		t.Error("no pipe")
	}
	if _, err := Darcy(good, 0, 1e-4); err == nil {
		t.Error("no viscosity")
	}
}

func TestTables(t *testing.T) {
	for _, m := range Roughnesses() {
		r, err := Roughness(m)
		if err != nil || !(r.Low <= r.Typical && r.Typical <= r.High && r.Low > 0) || r.Source == "" || r.Mark == "" {
			t.Errorf("%s: %+v %v", m, r, err)
		}
	}
	for _, m := range WallMaterials() {
		w, err := WallOf(m)
		if err != nil || w.Conductivity <= 0 || w.Emissivity <= 0 || w.Emissivity > 1 || w.Source == "" || w.Mark == "" {
			t.Errorf("%s: %+v %v", m, w, err)
		}
		if _, err := Roughness(m); err != nil {
			t.Errorf("%s has growth but no roughness", m)
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
	if _, err := Growth("mild steel", -1, 300, 700); err == nil {
		t.Error("negative length grew")
	}
	for id, want := range map[string]float64{"ignition": 493.15, "touch_us": 338.65, "guard": 366.15, "clearance": 0.45, "clearance_generator": 0.305} {
		l, err := LimitOf(id)
		if err != nil {
			t.Fatal(err)
		}
		near(t, id, l.SI(), want, 1e-9)
	}
}
