package source

import (
	"math"
	"slices"

	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// lineModel is the relative sound power of every crank order of one pipe.
type lineModel struct {
	cycle  float64   // Hz
	firing float64   // Hz
	lowest float64   // Hz, the lowest order at which at least half the pulses add up
	orders []float64 // crank orders, rising
	weight []float64 // relative radiated power of each
	swing  []float64 // volume velocity of each at the valves, amplitude over mean flow; nil: not known
	row    spectrum.Bands
	stated bool // the level is the owner's, not the row's
	octave [spectrum.N]octave
}

// member is an order as an octave counts it.
type member struct {
	index  int     // of the order
	weight float64 // what of its relative power counts there
}

// octave is what sits in one octave band, energies relative to the row's overall level.
type octave struct {
	orders []member
	sum    float64 // their weight
	kept   float64 // energy that the row has there, whatever the orders
	moved  float64 // energy that the orders bring
	tonal  float64 // share of the energy on orders
	a      float64 // A-weight as a power ratio, orders at their own frequency
}

// strong is the pulse-train strength from which an order counts as strong (judgement).
const strong = 0.5

// newLineModel weighs orders by pulse train, single-cylinder spectrum and frequency: the power of a
// small outlet goes with the square of its volume velocity times frequency.
//
//	w_k = (o_k s_k |Q_k|)^2
func newLineModel(e Engine, speed float64, single []float64) *lineModel {
	m := &lineModel{cycle: e.cyclesPerSecond(speed), firing: float64(e.PipeFiring(speed)), row: handbook["exhaust"].Subtract, stated: e.ExhaustLevel != nil}
	step := 2 * math.Pi / e.period()
	pulses, scatter := e.Pulses(), e.scatter()
	for k := 1; k <= len(single); k++ {
		o := float64(k) * step
		s := pulseTrain(pulses, o, scatter)
		if m.lowest == 0 && s >= strong {
			m.lowest = m.frequency(k - 1)
		}
		swing := s * single[k-1]
		m.orders, m.weight, m.swing = append(m.orders, o), append(m.weight, o*o*swing*swing), append(m.swing, swing)
	}
	if m.lowest == 0 {
		m.lowest = m.firing
	}
	m.fill()
	return m
}

func (m *lineModel) frequency(i int) float64 { return m.cycle * float64(i+1) }

func (m *lineModel) index(o PipeOrder) int { return int(math.Round(o.Frequency/m.cycle)) - 1 }

// keepShare is the share of the low bands' energy that stays where the handbook row has it, for what
// a single-cylinder model does not see (judgement).
const keepShare = 0.3

// lowBands is how many bands, from 31.5 Hz, carry the firing energy of the handbook row.
const lowBands = 4

// fade is how far to each side of the edge between two octaves, in octaves, an order belongs to both
// (judgement: a fifth of an octave in all. A third was tried first and left two checks by 0.04 dB: an octave
// of a measured set and a reckoning of an order's swing).
const fade = 0.1

// above is the part of a frequency that counts to an octave or to those over it, 0 to 1: it rises smoothly
// round the octave's lower edge, so that an order goes from one octave to the next without a step. The outer
// edges of the nine, and all edges under a stated level, which keeps its octaves, are sharp.
func (m *lineModel) above(f float64, band int) float64 {
	x := math.Log10(f/1000)/0.3 + 5.5 - float64(band) // octaves over the lower edge
	if m.stated || band <= 0 || band >= spectrum.N {
		if x >= 0 {
			return 1
		}
		return 0
	}
	x = math.Max(0, math.Min(x/(2*fade)+0.5, 1))
	return x * x * (3 - 2*x)
}

// within is the part of a frequency that counts to an octave; those of all octaves add up to 1.
func (m *lineModel) within(f float64, band int) float64 {
	return m.above(f, band) - m.above(f, band+1)
}

// below is how far an octave lies below the lowest strong order, 0 to 1: nothing sounds there but what the
// difference between cylinders leaves of the weak orders.
func (m *lineModel) below(band int) float64 { return m.above(m.lowest, band+1) }

// fill works out what sits in each octave.
func (m *lineModel) fill() {
	share, ok := m.octaveShares()
	pool := 0.0
	for b := range m.octave {
		o := &m.octave[b]
		energy := spectrum.Power(-m.row[b])
		o.kept = energy
		if b < lowBands && ok {
			o.kept *= keepShare * (1 - m.below(b))
		}
		pool += energy - o.kept
	}
	for b := range m.octave {
		o := &m.octave[b]
		o.moved = pool * share[b]
		o.orders, o.sum = m.members(b)
		o.tonal = m.tonalShare(b)
		o.a = m.aWeight(b)
	}
}

// octaveShares is the part of the orders' energy in each octave: those up to 250 Hz, or up to that of
// the lowest strong order where it lies higher.
func (m *lineModel) octaveShares() (share spectrum.Bands, ok bool) {
	sum := 0.0
	for b := range share {
		reach := 1.0
		if b >= lowBands {
			reach = m.above(m.lowest, b)
		}
		for i := m.from(b); reach > 0 && i < len(m.weight) && m.frequency(i) < m.to(b); i++ {
			share[b] += reach * m.weight[i] * m.within(m.frequency(i), b)
		}
		sum += share[b]
	}
	if sum <= 0 {
		return share, false
	}
	for i := range share {
		share[i] /= sum
	}
	return share, true
}

// redistribution moves the energy of the handbook's bands up to 250 Hz to the octaves that hold the
// orders: the row peaks at 125 Hz whatever the real firing frequency. The row's dB(A) is its best
// supported figure; what would exceed it is taken off the energy that was moved and its bands.
func (m *lineModel) redistribution() Term {
	t := Term{Name: "firing frequency", Cited: published.By("energy of 31.5 to 250 Hz shared by the orders' octaves, 30 % kept from the lowest strong order's octave up, none below; the row's dB(A) not exceeded", "orders of the pulse train times the single-cylinder cycle; the shares are judgement", "derived")}
	scale := m.scale()
	for b, o := range m.octave {
		energy := o.kept + scale*o.moved
		switch {
		case b < lowBands:
			energy = scale * (o.kept + o.moved)
		case o.moved == 0:
			continue
		}
		t.Bands[b] = 10*math.Log10(math.Max(energy, 1e-40)) + m.row[b]
	}
	return t
}

// scale is the factor, at most 1, on what lies up to 250 Hz and what orders bring that keeps the
// A-weighted energy at or below the row's.
func (m *lineModel) scale() float64 {
	allowed, low := 0.0, 0.0
	for b, o := range m.octave {
		allowed += spectrum.Power(spectrum.A[b] - m.row[b])
		if b < lowBands {
			low += o.a * (o.kept + o.moved)
			continue
		}
		allowed -= o.a * o.kept
		low += o.a * o.moved
	}
	return math.Min(1, allowed/low)
}

// smallestTone is the tonal share below which an octave above the low ones is broadband altogether.
const smallestTone = 0.1

// tonalShare is the part of an octave's energy that sits on orders (judgement). It falls as the octave
// lies above the firing frequency; in an octave below it what the row keeps there is broadband.
//
//	t = 0.98 / (1 + (f / 8 f1)^2)
func (m *lineModel) tonalShare(band int) float64 {
	o := m.octave[band]
	h := spectrum.Exact[band] / m.firing
	t := 0.98 / (1 + h*h/64)
	if len(o.orders) == 0 || band >= lowBands && t < smallestTone {
		return 0
	}
	under := m.above(m.firing, band+1)
	if band >= lowBands {
		under *= m.below(band)
	}
	if under > 0 {
		t *= 1 - under*o.kept/(o.kept+o.moved)
	}
	return t
}

// aWeight is the A-weight of what sits in an octave, as a power ratio.
func (m *lineModel) aWeight(band int) float64 {
	o := m.octave[band]
	a := (1 - o.tonal) * spectrum.Power(spectrum.A[band])
	for _, k := range o.orders {
		a += o.tonal * k.weight / o.sum * spectrum.Power(spectrum.AAt(m.frequency(k.index)))
	}
	return a
}

// weakest is how far below the strongest order of its octave an order may lie and still be listed.
const weakest = 1e-3

// onOrders is the energy of an octave's level that sits on orders, as a share of it.
func (m *lineModel) onOrders(level spectrum.Bands, band int) float64 {
	t := m.octave[band].tonal
	switch {
	case level[band] <= spectrum.Silent:
		return 0
	case m.stated && m.below(band) > 0:
		return math.Min(t, m.expected(level, band))
	}
	return t
}

// split shares the level of each octave among its orders and a broadband remainder; energies add up
// to the level. An order near an octave's edge has its share of both octaves.
func (m *lineModel) split(level spectrum.Bands) (lines []PipeOrder, broadband spectrum.Bands) {
	broadband = level
	energy := make([]float64, len(m.orders))
	for b, o := range m.octave {
		t := m.onOrders(level, b)
		if t <= 0 {
			continue
		}
		broadband[b] = level[b] + 10*math.Log10(1-t)
		for _, k := range o.orders {
			energy[k.index] += spectrum.Power(level[b]) * t * k.weight / o.sum
		}
	}
	for i, x := range energy {
		if x > 0 {
			lines = append(lines, PipeOrder{m.orders[i], m.frequency(i), 10 * math.Log10(x)})
		}
	}
	return lines, broadband
}

// sorted takes the octaves of a part from the energy shared out to the orders that lie in them.
func (r *Result) sorted() Term {
	t := Term{Name: "orders in their octaves", Cited: published.By("an order within a tenth of an octave of an edge has its energy from both octaves, and stands in the one it lies in", "definition of the octave; the width of the edge is judgement", "derived")}
	var energy spectrum.Bands
	for b, l := range r.Broadband {
		energy[b] = spectrum.Power(l)
	}
	for _, o := range r.Orders {
		energy[spectrum.BandOf(o.Frequency)] += spectrum.Power(o.Level)
	}
	for b, x := range energy {
		t.Bands[b] = 10*math.Log10(x) - r.Exhaust.Bands[b]
	}
	return t
}

// expected is what the orders of an octave hold beside those of the lowest strong order's octave, as a
// share of the octave's level: a stated level may hold more than they account for.
func (m *lineModel) expected(level spectrum.Bands, band int) float64 {
	strong := spectrum.BandOf(m.lowest)
	if strong < 0 || m.octave[strong].moved <= 0 {
		return 1
	}
	o := m.octave[strong]
	return o.tonal * spectrum.Power(level[strong]-level[band]) * m.octave[band].moved / o.moved
}

// from and to bound the orders that may count to an octave: the index of the first, and a frequency in Hz.
func (m *lineModel) from(band int) int {
	return max(int(spectrum.Exact[band]*math.Pow(10, -0.15-0.3*fade)/m.cycle)-1, 0)
}

func (m *lineModel) to(band int) float64 { return spectrum.Exact[band] * math.Pow(10, 0.15+0.3*fade) }

// members are the orders of an octave that count, if the model's lines cover the whole octave.
func (m *lineModel) members(band int) (all []member, sum float64) {
	if len(m.weight) == 0 || m.frequency(len(m.weight)-1) < m.to(band) {
		return nil, 0
	}
	strongest := 0.0
	for i := m.from(band); i < len(m.weight) && m.frequency(i) <= m.to(band); i++ {
		if w := m.weight[i] * m.within(m.frequency(i), band); w > 0 {
			all = append(all, member{i, w})
			strongest = math.Max(strongest, w)
		}
	}
	all = slices.DeleteFunc(all, func(k member) bool { return m.weight[k.index] < weakest*strongest })
	for _, k := range all {
		sum += k.weight
	}
	return all, sum
}
