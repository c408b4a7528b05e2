package draws

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/room"
	"hushwake/source/vector"
)

// Box is the air in an enclosure at the running duty: Outside + room.Bent(Rise exp(sum_k s_k z_k)).
type Box struct {
	Name    string
	Outside float64   // K
	Rise    float64   // K over it, the median, before it is bent
	Keys    []int     // heat, air
	SD      []float64 // relative, of the rise
}

// Box finds the air of an enclosure; nil where no engine runs in one of that name.
func (l *Layout) Box(name string) *Box {
	for _, b := range l.Boxes {
		if b.Name == name {
			return b
		}
	}
	return nil
}

// boxes enters the boxes of a prediction, each once.
func (m *Model) boxes(l *Layout, p *path.Prediction) error {
	for i := range p.Exhausts {
		x := p.Exhausts[i].Box
		if x == nil || l.Box(x.Sound.Name) != nil {
			continue
		}
		kelvin, doubts := x.Temperature()
		b := &Box{Name: x.Sound.Name, Outside: x.Running.Outside}
		b.Rise, _ = room.Straight(kelvin - b.Outside)
		for _, t := range doubts {
			if !(t.SD >= 0 && t.SD <= mostRelative) {
				return fmt.Errorf("layout %q, enclosure %q: the relative deviation of %q is %g: it must lie between 0 and %g", l.Name, b.Name, t.Term, t.SD, mostRelative)
			}
			b.Keys, b.SD = append(b.Keys, m.term(l.Name, Term{Name: t.Term, Key: t.Key, Source: t.Source})), append(b.SD, t.SD)
		}
		l.Boxes = append(l.Boxes, b)
	}
	return nil
}

// middle moves a box to the middle of the draws; one whose doubts no reading moved stays as it is to the bit.
func (b *Box) middle(x path.Boxed, z [][]float64, mean []float64) path.Boxed {
	heat, air := mean[b.Keys[0]], mean[b.Keys[1]]
	if math.Abs(heat) < unmoved && math.Abs(air) < unmoved {
		return x
	}
	rise := make([]float64, len(z[b.Keys[0]]))
	vector.AddInOrder(rise, z, b.Keys, b.SD)
	if to, err := x.Moved(heat, air, Quantile(rise, 0.5)); err == nil { // its heat, openings and fan passed once before
		return to
	}
	return x
}

// unmoved is the mean of a drawn unit normal, in deviations, under which nothing but rounding moved it.
const unmoved = 1e-9
