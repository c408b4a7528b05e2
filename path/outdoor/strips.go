package outdoor

import (
	"cmp"
	"math"
	"slices"

	"hushwake/source/spectrum"
)

// beyond is the share of the energy that lies beyond an edge, y = (C2/lambda) z, z the way round it less
// the straight way, negative where the line is clear of what the edge bounds.
func beyond(y float64) float64 {
	if y < 0 {
		return 1 - beyond(-y)
	}
	if y > 40 { // exp(-y) is under the last bit
		return 1 / (3 + y)
	}
	return 1 / (3 + y - math.Exp(-y))
}

// beyondAll is that by band at a way z round, m.
func beyondAll(y *spectrum.Bands, z float64) (out spectrum.Bands) {
	for b := range out {
		out[b] = beyond(y[b] * z)
	}
	return out
}

// clearOf is D_z's share for a line clear of an edge by y >= 0: 1/3 on it, 1 from 2.
func clearOf(y float64) float64 {
	if y >= 2 {
		return 1
	}
	return 1 / (3 - y)
}

// number is C2/lambda by band, 1/m.
func number(c2 float64) *spectrum.Bands {
	if c2 == GroundInside {
		return &groundInside
	}
	return numbers(c2)
}

var groundInside = *numbers(GroundInside)

func numbers(c2 float64) *spectrum.Bands {
	var b spectrum.Bands
	for i, f := range spectrum.Nominal {
		b[i] = c2 * f / 340
	}
	return &b
}

// passed is the share of the energy that reaches the receiver, by band.
func (v *view) passed(c2 float64) spectrum.Bands {
	out, y := v.clear(c2), number(c2)
	if out == spectrum.Fill(1) {
		return out
	}
	shared := spectrum.Fill(1)
	var kept [few]strip
	var beside spectrum.Bands // what lies beyond the last cut
	known, cuts, upTo := kept[:0], v.cuts(), -1
	for i := range len(cuts) - 1 {
		key := v.standing((cuts[i] + cuts[i+1]) / 2)
		if key == 0 {
			continue
		}
		k := slices.IndexFunc(known, func(s strip) bool { return s.key == key })
		if k < 0 {
			k, known = len(known), append(known, strip{key, v.column(key, c2)})
		}
		if over := &known[k].over; *over != (spectrum.Fill(1)) {
			if upTo != i {
				beside = beyondAll(y, cuts[i])
			}
			next := beyondAll(y, cuts[i+1])
			for b := range shared {
				shared[b] -= (beside[b] - next[b]) * (1 - over[b])
			}
			beside, upTo = next, i+1
		}
	}
	for b := range out {
		out[b] = math.Min(1, math.Max(out[b], shared[b]))
	}
	return out
}

// strip is the share that gets over what stands in the way off the line at one place.
type strip struct {
	key  uint64 // a bit for each obstacle
	over spectrum.Bands
}

// cuts are the sides of all obstacles from port to starboard of the sight line, as signed ways round them, m.
func (v *view) cuts() []float64 {
	all := v.cut[:0]
	for i := range v.all {
		all = append(all, v.all[i].left, v.all[i].right)
	}
	slices.Sort(all)
	v.cut = slices.Compact(all)
	return v.cut
}

// standing is what stands in the way at one place off the line, a bit for each obstacle.
func (v *view) standing(at float64) (set uint64) {
	for i := range v.all {
		if o := &v.all[i]; o.left < at && at < o.right {
			set |= 1 << i
		}
	}
	return set
}

// column is the share that gets over or beneath a set of obstacles. What hangs in the air is in the way of
// the share that does not lie beneath it.
func (v *view) column(set uint64, c2 float64) (out spectrum.Bands) {
	var kept [2][few]int
	standing, hanging := kept[0][:0], kept[1][:0]
	for i := range v.all {
		switch {
		case set&(1<<i) == 0:
		case v.all[i].hangs:
			hanging = append(hanging, i)
		default:
			standing = append(standing, i)
		}
	}
	slices.SortStableFunc(hanging, func(i, j int) int { // most in the way first
		return cmp.Compare(v.all[j].beneath, v.all[i].beneath)
	})
	below, y := spectrum.Bands{}, number(c2)
	for k := range len(hanging) + 1 {
		share := spectrum.Fill(1)
		if k < len(hanging) {
			for b := range share {
				share[b] = beyond(y[b] * v.all[hanging[k]].beneath)
			}
		}
		screen := v.over(append(standing, hanging[:k]...))
		over := screen.passed(c2)
		for b := range out {
			out[b] += (share[b] - below[b]) * over[b]
		}
		below = share
	}
	return out
}

// clear is the share for a line clear of everything; 0 from where it touches anything. What a line passes at a
// corner hides as far as it is near in every way it is clear: each way counts 1 where the line touches.
func (v *view) clear(c2 float64) spectrum.Bands {
	out, y := spectrum.Fill(1), number(c2)
	for i := range v.all {
		o := &v.all[i]
		if !o.crossed && y[0]*o.aside >= 2 {
			continue // clear of it in every band
		}
		screen := v.alone(o)
		over := spectrum.Bands{}
		if screen.Z <= 0 {
			over = screen.passed(c2)
		}
		for b := range out {
			hidden := o.part
			if !o.crossed {
				hidden *= 1.5 * (1 - clearOf(y[b]*o.aside))
			}
			if o.hangs && o.beneath < 0 {
				hidden *= 1.5 * (1 - clearOf(-y[b]*o.beneath))
			}
			if screen.Z <= 0 {
				hidden *= 1.5 * (1 - over[b])
			}
			out[b] = math.Max(0, out[b]-hidden)
		}
		if out == (spectrum.Bands{}) {
			break
		}
	}
	return out
}
