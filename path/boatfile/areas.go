package boatfile

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/usual"
)

// A wall of which nobody says how large it is fills what is left of its face where it is lighter than what is usual there, else
// half of it: it may be anything from a door to the whole, and the other half is as usual (judgement).
const heavierFills = 0.5

// areas gives every partition without an area what of its face no other takes.
func (r *reader) areas(b *path.Boat, l *path.Layout) {
	gaps, sharing := l.Gaps(), map[*path.Gap]float64{}
	place := func(p *path.Partition) (best *path.Gap) {
		for i := range gaps {
			if g := &gaps[i]; usual.Fills(p, g) && (best == nil || g.Area > best.Area) {
				best = g
			}
		}
		return best
	}
	for i := range l.Partitions {
		if g := place(&l.Partitions[i]); g != nil && l.Partitions[i].Area == 0 {
			sharing[g]++
		}
	}
	for i := range l.Partitions {
		if p := &l.Partitions[i]; p.Area == 0 {
			r.areaOf(b, l, p, place(p), sharing)
		}
	}
}

func (r *reader) areaOf(b *path.Boat, l *path.Layout, p *path.Partition, g *path.Gap, sharing map[*path.Gap]float64) {
	why := "the smallest wall of the smaller space"
	if p.Area = defaultArea(findSpace(l.Spaces, p.Between[0]), findSpace(l.Spaces, p.Between[1])); g != nil {
		share, words := 1.0, "all"
		if w, _ := usual.For(b, g.Kind); usual.MeanLoss(b.Materials, p.BuildUp, 1, p.OpenArea/g.Area) > usual.MeanLoss(b.Materials, w.BuildUp, 1, 0) {
			share, words = heavierFills, "half"
		}
		p.Area = math.Max(p.OpenArea, share*g.Area/sharing[g])
		why = fmt.Sprintf("judgement: %s of what no other wall takes of %s", words, quantity.Format(g.Area, quantity.Area, quantity.Metric))
	}
	r.AssumeOf("partitions."+p.Name, "area", quantity.Said(p.Area, quantity.Area), why, 3)
}
