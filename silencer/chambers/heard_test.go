package chambers

import (
	"math"
	"testing"

	"hushwake/silencer/fourpole"
)

// Waves that die out before the other end of a perforated part are left out there: the matrix is that of all waves heard,
// and some are indeed left out.
func TestFadedWavesAreNotMissed(t *testing.T) {
	was := faded
	defer func() { faded = was }()
	left := 0
	for name, p := range modalElements() {
		s, ok := p.(*perforatedSolver)
		if !ok {
			continue
		}
		y := s.tube.Inlet().Y()
		for i, w := range bandPoints() {
			if i%11 != 0 {
				continue
			}
			var some, all perforatedWork
			faded = was
			got := s.at(&some, w)
			for _, n := range some.parts[0].heard {
				left += some.parts[0].size() - n
			}
			faded = 0
			want := s.at(&all, w)
			size := fourpole.Size1(want.T11) + fourpole.Size1(want.T12)/y + fourpole.Size1(want.T21)*y + fourpole.Size1(want.T22)
			miss := fourpole.Size1(got.T11-want.T11) + fourpole.Size1(got.T12-want.T12)/y + fourpole.Size1(got.T21-want.T21)*y + fourpole.Size1(got.T22-want.T22)
			near(t, 0, miss/size, 1e-11, "%s at %.0f Hz", name, w/2/math.Pi)
		}
	}
	if left == 0 {
		t.Error("every wave was heard everywhere")
	}
}
