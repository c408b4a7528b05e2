package usual

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/panel"
)

// What stands open of a wall of which nobody says it: hardly anything in the middle, and in one boat of ten as much as 4 mm all
// round a door of 0.6 m by 1.6 m (judgement; in a yacht measured in place such ways ruled a bulkhead's loss: Piana and
// Marchesini, ICSV21 (2014), abstract). The doubt is lopsided: what is tight can't be tighter, but a gap can be large. The middle
// is 2 cm2 in each m2: a pipe of 25 mm or a few cables through a hole 5 mm wider all round (5 cm2), or an undercut of 1 mm under
// that door (6 cm2), in 3 m2 of bulkhead. Judgement; 1 cm2 in each m2 until two of thirty drawn boats missed by it.
const (
	crackShare = 0.0002
	CrackMost  = 0.018
)

// Crack is the way beside a wall of which nobody says how much stands open; its share is skewed, hence the doubt.
var Crack = path.Usual{Kind: path.Crack, SD: 10 * math.Log10(CrackMost/crackShare) / 1.2816, Mark: "judgement", Source: "judgement: " + CrackText}

// CrackText says how much of a wall stands open.
var CrackText = fmt.Sprintf("%.2f %% open in the middle, %.1f %% in one boat of ten", 100*crackShare, 100*CrackMost)

// Cracks are the ways beside the walls of which nobody says how much is open: one for those that lie in one face. How tightly a
// boat is built is one doubt.
func Cracks(walls []path.Partition) (all []path.Partition) {
	type place struct {
		between [2]string
		facing  string
		at      path.Point
	}
	found := map[place]int{}
	for _, p := range walls {
		if !p.Cracks || p.Area <= 0 {
			continue
		}
		k := place{p.Between, p.Facing, path.Point{}}
		if k.between[0] > k.between[1] {
			k.between = [2]string{k.between[1], k.between[0]}
		}
		if p.Facing == "" && p.AtStated {
			k.at = p.At
		}
		i, ok := found[k]
		if !ok {
			i, found[k] = len(all), len(all)
			usual := Crack
			all = append(all, path.Partition{Name: "cracks of " + p.Name, Between: p.Between, BuildUp: Holed, At: p.At, AtStated: p.AtStated, Facing: p.Facing, Usual: &usual})
		}
		all[i].Area += crackShare * p.Area
		all[i].OpenArea = all[i].Area
	}
	return all
}

// Holed stands for what an open side is made of: nothing of it is left.
var Holed = panel.BuildUp{{Text: "nothing", Material: "air", Thickness: 0.01}}
