package source

import (
	"math"

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

// octave is what sits in one octave band, energies relative to the row's overall level.
type octave struct {
	orders []int   // indices of the orders that count
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
	m := &lineModel{cycle: e.cyclesPerSecond(speed), firing: e.FiringFrequency(speed), row: handbook["exhaust"].Subtract, stated: e.ExhaustLevel != nil}
	step := 2 * math.Pi / e.period()
	pulses, scatter := e.Pulses(), e.scatter()
	for k := 1; k <= len(single); k++ {
		o := float64(k) * step
		s := PulseTrain(pulses, o, scatter)
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

// keepShare is the share of the low bands' energy that stays where the handbook row has it, for what
// a single-cylinder model does not see (judgement).
const keepShare = 0.3

// lowBands is how many bands, from 31.5 Hz, carry the firing energy of the handbook row.
const lowBands = 4

// below tells an octave that lies wholly below the lowest strong order: nothing sounds there but what
// the difference between cylinders leaves of the weak orders.
func (m *lineModel) below(band int) bool { return upperEdge(band) <= m.lowest }

func upperEdge(band int) float64 { return spectrum.Exact[band] * math.Pow(10, 0.15) }

// fill works out what sits in each octave.
func (m *lineModel) fill() {
	share, ok := m.octaveShares()
	pool := 0.0
	for b := range m.octave {
		o := &m.octave[b]
		energy := spectrum.Power(-m.row[b])
		o.kept = energy
		if b < lowBands && ok {
			o.kept *= keepShare
			if m.below(b) {
				o.kept = 0
			}
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
	sum, top := 0.0, max(lowBands-1, spectrum.BandOf(m.lowest))
	for i, w := range m.weight {
		if b := spectrum.BandOf(m.frequency(i)); b >= 0 && b <= top {
			share[b] += w
			sum += w
		}
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
	t := Term{Name: "firing frequency", Formula: "energy of 31.5 to 250 Hz shared by the orders' octaves, 30 % kept from the lowest strong order's octave up, none below; the row's dB(A) not exceeded",
		Source: "orders of the pulse train times the single-cylinder cycle; the shares are judgement", Mark: "derived"}
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
	if o.moved > 0 && (band < lowBands || m.below(band)) && band < spectrum.BandOf(m.firing) {
		t *= o.moved / (o.kept + o.moved)
	}
	return t
}

// aWeight is the A-weight of what sits in an octave, as a power ratio.
func (m *lineModel) aWeight(band int) float64 {
	o := m.octave[band]
	a := (1 - o.tonal) * spectrum.Power(spectrum.A[band])
	for _, i := range o.orders {
		a += o.tonal * m.weight[i] / o.sum * spectrum.Power(spectrum.AAt(m.frequency(i)))
	}
	return a
}

// weakest is how far below the strongest order of its octave an order may lie and still be listed.
const weakest = 1e-3

// split shares the level of each octave among its orders and a broadband remainder; energies add up
// to the level.
func (m *lineModel) split(level spectrum.Bands) (lines []Order, broadband spectrum.Bands) {
	broadband = level
	for b, o := range m.octave {
		if o.tonal <= 0 || level[b] <= spectrum.Silent {
			continue
		}
		t := o.tonal
		if m.stated && m.below(b) {
			t = math.Min(t, m.expected(level, b))
		}
		broadband[b] = level[b] + 10*math.Log10(1-t)
		for _, i := range o.orders {
			l := level[b] + 10*math.Log10(t*m.weight[i]/o.sum)
			lines = append(lines, Order{m.orders[i], m.frequency(i), l})
		}
	}
	return lines, broadband
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

// members are the orders of an octave that count, if the model's lines cover the whole octave.
func (m *lineModel) members(band int) (index []int, sum float64) {
	top := upperEdge(band)
	if len(m.weight) == 0 || m.frequency(len(m.weight)-1) < top {
		return nil, 0
	}
	lo := max(int(top/2/m.cycle)-2, 0)
	strongest := 0.0
	for pass := range 2 {
		for i := lo; i < len(m.weight) && m.frequency(i) <= top*1.01; i++ {
			if spectrum.BandOf(m.frequency(i)) != band {
				continue
			}
			if pass == 0 {
				strongest = math.Max(strongest, m.weight[i])
			} else if m.weight[i] > 0 && m.weight[i] >= weakest*strongest {
				index = append(index, i)
				sum += m.weight[i]
			}
		}
	}
	return index, sum
}
