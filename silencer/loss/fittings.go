package loss

import (
	"fmt"
	"math"

	"hushwake/source/published"
)

const rennels = "Rennels and Hudson, Pipe Flow (2012), ch. 15-16"

// BendFriction is the friction factor Bend assumes where none is given: Re 1e5, e/D 5e-4.
const BendFriction = 0.0203

// Bend is a smooth bend of centreline radius over bore r and angle a (rad), friction factor f:
//
//	K = f a r + (0.10 + 2.4 f) sin(a/2) + 6.6 f (sqrt(sin(a/2)) + sin(a/2))/r^(4a/pi)
//
// (Rennels and Hudson 2012), valid r 0.5 to 10, never more than the mitre of the same angle; the friction
// along the bend is inside. r = 0 is a mitre. Crane and Miller give figures within 0.03 at 90 degrees.
func Bend(radiusOverBore, angle, friction float64) Coefficient {
	if angle <= 0 {
		return Coefficient{Cited: published.By("no turn", "identity", Derived)}
	}
	mitre := mitreBend(angle)
	if !(radiusOverBore > 0) {
		return mitre
	}
	s := math.Sin(min(angle, math.Pi) / 2)
	k := friction*angle*radiusOverBore + (0.10+2.4*friction)*s +
		6.6*friction*(math.Sqrt(s)+s)/math.Pow(radiusOverBore, 4*angle/math.Pi)
	c := Coefficient{K: k, Cited: published.By("K = f a r/D + (0.10 + 2.4 f) sin(a/2) + 6.6 f (sqrt sin(a/2) + sin(a/2))/(r/D)^(4a/pi)", rennels, FromMemory), SD: 0.12}
	if radiusOverBore < 1 && k > mitre.K {
		c.K, c.Formula, c.SD = mitre.K, "tight bend taken as a mitre", mitre.SD
	}
	if radiusOverBore < 0.5 || radiusOverBore > 10 || angle > math.Pi+1e-9 {
		c.Warning = fmt.Sprintf("bend with r/D %.2g over %.0f degrees lies outside the bend formula (r/D 0.5 to 10, to 180 degrees)", radiusOverBore, angle*180/math.Pi)
	}
	return c
}

// mitreBend is a sharp turn of one cut, angle in rad up to 150 degrees:
//
//	K = 0.42 sin(a/2) + 2.56 sin^3(a/2)
func mitreBend(angle float64) Coefficient {
	s := math.Sin(min(angle, math.Pi) / 2)
	c := Coefficient{K: 0.42*s + 2.56*s*s*s, Cited: published.By("K = 0.42 sin(a/2) + 2.56 sin^3(a/2)", rennels, FromMemory), SD: 0.12}
	if angle > 150*math.Pi/180+1e-9 {
		c.Warning = fmt.Sprintf("mitre of %.0f degrees lies outside its formula (to 150 degrees)", angle*180/math.Pi)
	}
	return c
}

// Expansion is a sudden widening, s = small area over large area; K on the small bore:
//
//	K = (1 - s)^2   (Borda-Carnot, momentum balance)
func Expansion(s float64) Coefficient {
	s = ratio(s)
	return Coefficient{K: (1 - s) * (1 - s), Cited: published.By("K = (1 - s)^2", "Borda-Carnot, textbook", Derived), SD: 0.10}
}

// contractionLoss is a sudden narrowing, s = small area over large area; K on the small bore:
//
//	K = 0.5 (1 - s)   (Crane TP-410)
func contractionLoss(s float64) Coefficient {
	return Coefficient{K: 0.5 * (1 - ratio(s)), Cited: published.By("K = 0.5 (1 - s)", "Crane TP-410", FromMemory), SD: 0.2}
}

// ratio keeps an area ratio between 0 and 1: the larger side is always the reference of s.
func ratio(s float64) float64 {
	if s > 1 {
		return 1 / s
	}
	return max(s, 0)
}

// projectingEntry is a thin tube standing into the room it draws from.
func projectingEntry() Coefficient {
	return Coefficient{K: 0.9, Cited: published.By("K = 0.9, thin projecting entry (0.77 to 1.0)", "Crane TP-410 and classic texts", FromMemory), SD: 0.12}
}

// Exit is the loss of the whole velocity head into the open or a large room.
func Exit() Coefficient {
	return Coefficient{K: 1, Cited: published.By("K = 1, the velocity head is lost", "momentum balance", Derived), SD: 0.03}
}

// ChamberLoss is an expansion chamber: widening on the inlet's velocity head, narrowing on the outlet's.
type ChamberLoss struct{ In, Out Coefficient }

// Chamber takes the area of inlet and outlet over that of the chamber; extended says that the outlet tube stands into
// it. turned says that inlet and outlet are at the same end. Each area stands as a ratio.
func Chamber(inlet, outlet float64, extended, turned bool) ChamberLoss {
	l := ChamberLoss{In: Expansion(inlet), Out: contractionLoss(outlet)}
	if extended {
		l.Out = projectingEntry()
		l.Out.K *= 1 - ratio(outlet)
		l.Out.Formula = "K = 0.9 (1 - s), thin projecting entry"
	}
	if turned {
		r := reversalLoss()
		l.Out.K += r.K
		l.Out.Formula += " + 0.75 for the reversal"
		l.Out.Mark, l.Out.SD = FromMemory, 0.3
	}
	return l
}

// reversalLoss is what turning back inside a chamber adds (0.5 to 1).
func reversalLoss() Coefficient {
	return Coefficient{K: 0.75, Cited: published.By("K = 0.75 on top (0.5 to 1)", "silencer practice", FromMemory), SD: 0.3}
}
