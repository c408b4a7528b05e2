package chain

import (
	"math"

	"hushwake/silencer/chambers"
	"hushwake/silencer/fourpole"
)

// How far plane waves hold, 1 dB beside the solution by modes, in shares of the first mode that is excited: from
// runs of chambers and perforated tubes of 150 mm of many proportions (derived; a test repeats some).
const (
	planeReach    = 0.7  // plain chambers and perforated tubes
	planeStanding = 0.55 // with a tube that stands in a room
	planePacked   = 0.6
	planeHole     = 0.05 // a bare hole in a sheet thinner than a twentieth of it
	planeRing     = 0.85 // of the resonance of a closed ring: beyond it the peak lies some per cent off
)

// planeHolds is how far plane waves hold in a chamber, Hz, and what ends it. Mouths nearer to each other than the
// shell's bore feel each other's near field.
func planeHolds(f chambers.Chamber, cross float64) (hz float64, why string) {
	hz, why = planeReach*cross, "modes that do not travel yet"
	lower := func(to float64, text string) {
		if to < hz {
			hz, why = to, text
		}
	}
	for i, length := range f.Rooms {
		left, right := f.Reaches(i)
		if left+right > 0 {
			lower(planeStanding*cross, "modes that do not travel yet, at a tube that stands in")
		}
		if open := length - left - right; open < f.Bore {
			lower(hz*open/f.Bore, "mouths nearer to each other than the shell's bore")
		}
		lower(planeRing*quarter(f.Medium, math.Max(left, right), narrowest(f)/4), "the resonance of the ring round a tube that stands in")
	}
	for _, b := range f.Baffles {
		for _, t := range b.Tubes {
			if t.Before+b.Thickness+t.After < 0.05*t.Bore {
				lower(planeHole*cross, "bare holes in a thin sheet")
			}
		}
	}
	return hz, why
}

// planeHoldsRound is the same of a perforated tube in its shell.
func planeHoldsRound(t chambers.PerforatedTube, cross float64) (hz float64, why string) {
	hz, why = planeReach*cross, "modes that do not travel yet"
	if t.Fill != nil {
		hz = planePacked * cross
	}
	if q := planeRing * quarter(t.Medium, math.Max(t.From, t.Length-t.To), t.ChamberBore/3); q < hz {
		hz, why = q, "the resonance of the ring beside the holes"
	}
	return hz, why
}

// quarter is the quarter-wave resonance of a closed ring of a length with its end, Hz; none without a ring.
func quarter(m fourpole.Medium, length, end float64) float64 {
	if length <= 1e-5 {
		return math.Inf(1)
	}
	return m.SoundSpeed / (4 * (length + end))
}

// narrowest is the smallest bore that opens into a chamber, m.
func narrowest(f chambers.Chamber) float64 {
	least := math.Min(f.InletBore, f.OutletBore)
	for _, b := range f.Baffles {
		for _, t := range b.Tubes {
			least = math.Min(least, t.Bore)
		}
	}
	return least
}
