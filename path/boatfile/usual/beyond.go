package usual

import (
	"fmt"
	"math"
	"slices"

	"hushwake/path"
)

// Beyond tells in words that a partition of a layout lets through more than what would be taken in its place were it left out, and
// why it is taken so all the same; both are empty where it does not.
func Beyond(b *path.Boat, l *path.Layout, i int) (text, why string) {
	p, lightest := &l.Partitions[i], lightestWall()
	switch loss := MeanLoss(b.Materials, p.BuildUp, p.Area, p.OpenArea); {
	case p.Area <= 0:
	case loss < lightest:
		digits := 0
		if math.Round(loss) == math.Round(lightest) {
			digits = 1
		}
		return fmt.Sprintf("more than any usual wall: %.*f dB are kept out, of the lightest usual one %.*f dB (mean of 125 Hz to 2 kHz)", digits, loss, digits, lightest),
			"as stated; left out, it would be taken for less"
	case crowded(b, l, i, loss):
		return "more than the walls beside it, whose areas fill all of that face: left out, nothing would stand in its place", "as stated, by areas, at and size"
	}
	return "", ""
}

// crowded tells whether a partition is lighter than one beside it, and these leave no room for what would be taken in its place.
func crowded(b *path.Boat, l *path.Layout, i int, loss float64) bool {
	p := &l.Partitions[i]
	others := path.Layout{Spaces: l.Spaces, Engines: l.Engines, Partitions: slices.Delete(slices.Clone(l.Partitions), i, i+1)}
	if !slices.ContainsFunc(others.Partitions, func(o path.Partition) bool {
		return o.Between == p.Between && o.Facing == p.Facing && MeanLoss(b.Materials, o.BuildUp, o.Area, o.OpenArea) > loss
	}) {
		return false
	}
	return !slices.ContainsFunc(others.Gaps(), func(g path.Gap) bool { return Fills(p, &g) && g.Area > p.Area/2 })
}

// Fills tells whether a partition may stand in a gap.
func Fills(p *path.Partition, g *path.Gap) bool {
	same := p.Between == [2]string{g.Space, g.Beyond} || p.Between == [2]string{g.Beyond, g.Space}
	return same && (p.Facing == "" || g.Beyond != path.Outside || p.Facing == g.Side.Facing)
}
