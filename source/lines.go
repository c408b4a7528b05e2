package source

import (
	"math"

	"hushwake/source/spectrum"
)

// lineModel is the relative sound power of every crank order of one pipe.
type lineModel struct {
	cycle  float64   // Hz
	firing float64   // Hz
	orders []float64 // crank orders, rising
	weight []float64 // relative radiated power of each
	row    spectrum.Bands
}

// newLineModel weighs orders by pulse train, single-cylinder spectrum and frequency: the power of a
// small outlet goes with the square of its volume velocity times frequency.
//
//	w_k = (o_k s_k |Q_k|)^2
func newLineModel(e Engine, speed float64, single []float64) lineModel {
	m := lineModel{cycle: e.cyclesPerSecond(speed), firing: e.FiringFrequency(speed), row: handbook["exhaust"].Subtract}
	step := 2 * math.Pi / e.period()
	pulses, scatter := e.Pulses(), e.scatter()
	for k := 1; k <= len(single); k++ {
		o := float64(k) * step
		a := o * PulseTrain(pulses, o, scatter) * single[k-1]
		m.orders, m.weight = append(m.orders, o), append(m.weight, a*a)
	}
	return m
}

func (m lineModel) frequency(i int) float64 { return m.cycle * float64(i+1) }

// keepShare is the share of the low bands' energy that stays where the handbook row has it, for what
// a single-cylinder model does not see (judgement).
const keepShare = 0.3

// lowBands is how many bands, from 31.5 Hz, carry the firing energy of the handbook row.
const lowBands = 4

// redistribution moves the energy of the handbook's bands up to 250 Hz to the octaves that hold the
// orders, and keeps the total: the row peaks at 125 Hz whatever the real firing frequency.
func (m lineModel) redistribution() Term {
	t := Term{Name: "firing frequency", Formula: "energy of 31.5 to 250 Hz shared by the orders' octaves, 30 % kept, total kept",
		Source: "orders of the pulse train times the single-cylinder cycle", Mark: "derived"}
	share, ok := m.octaveShares()
	if !ok {
		return t
	}
	var energy, low spectrum.Bands
	total := 0.0
	for i := range energy {
		energy[i] = spectrum.Power(-m.row[i])
		if i < lowBands {
			low[i] = energy[i]
			total += energy[i]
		}
	}
	for i := range energy {
		moved := energy[i] - low[i]*(1-keepShare) + total*(1-keepShare)*share[i]
		t.Bands[i] = 10 * math.Log10(moved/energy[i])
	}
	return t
}

// octaveShares is the part of the orders' energy in each octave, over the orders up to 707 Hz or two
// and a half times the firing frequency.
func (m lineModel) octaveShares() (share spectrum.Bands, ok bool) {
	sum := 0.0
	for i, w := range m.weight {
		f := m.frequency(i)
		if b := spectrum.BandOf(f); b >= 0 && f <= math.Max(707, 2.5*m.firing) {
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

// tonalShare is the part of an octave's energy that sits on orders (judgement). It falls as the octave
// lies above the firing frequency; in the octaves below it, where the handbook row keeps energy that
// the weak orders there do not account for, that energy is broadband.
//
//	t = 0.98 / (1 + (f / 8 f1)^2)
func (m lineModel) tonalShare(band int) float64 {
	h := spectrum.Exact[band] / m.firing
	t := 0.98 / (1 + h*h/64)
	if share, ok := m.octaveShares(); ok && band < lowBands && band < spectrum.BandOf(m.firing) {
		t *= math.Min(1, share[band]/(keepShare*m.rowShare(band)))
	}
	return t
}

// rowShare is the part of the handbook row's low-band energy that lies in a low band.
func (m lineModel) rowShare(band int) float64 {
	total := 0.0
	for i := range lowBands {
		total += spectrum.Power(-m.row[i])
	}
	return spectrum.Power(-m.row[band]) / total
}

// smallestTone is the tonal share below which an octave above the low ones is broadband altogether.
const smallestTone = 0.1

// weakest is how far below the strongest order of its octave an order may lie and still be listed.
const weakest = 1e-3

// split shares the level of each octave among its orders and a broadband remainder; energies add up
// to the level.
func (m lineModel) split(level spectrum.Bands) (lines []Order, broadband spectrum.Bands) {
	broadband = level
	for b := range level {
		members, sum := m.members(b)
		t := m.tonalShare(b)
		if len(members) == 0 || t <= 0 || b >= lowBands && t < smallestTone || level[b] <= spectrum.Silent {
			continue
		}
		broadband[b] = level[b] + 10*math.Log10(1-t)
		for _, i := range members {
			l := level[b] + 10*math.Log10(t*m.weight[i]/sum)
			lines = append(lines, Order{m.orders[i], m.frequency(i), l})
		}
	}
	return lines, broadband
}

// members are the orders of an octave that count, if the model's lines cover the whole octave.
func (m lineModel) members(band int) (index []int, sum float64) {
	top := spectrum.Exact[band] * math.Pow(10, 0.15)
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
