package silencer

import (
	"math"

	"hushwake/silencer/fourpole"
	"hushwake/silencer/wet"
)

// backward carries the pressure from the outlet to the inlet.
type backward struct {
	uneven float64 // largest relative difference of loss between branches
}

// run gives the absolute pressure at the inlet of the parts from that at their outlet, Pa.
func (b *backward) run(parts []part, p float64) float64 {
	for i := len(parts) - 1; i >= 0; i-- {
		part := &parts[i]
		s := &part.state
		before := p
		switch part.kind {
		case ductPart:
			p = b.duct(part, p)
		case lossPart:
			p = b.local(part, p)
		case injectPart:
			p += b.spray(part, p)
		case quotePart:
			p += quotedDrop(part.quote, s, p).Drop
		case depthPart:
			p += wet.SubmergedOutlet(part.depth)
		case branchPart:
			p = b.branches(part, p)
		}
		s.loss = p - before
		s.pressure = (p + before) / 2
	}
	return p
}

// duct adds friction and, where water goes along, the head of what stands in it.
func (b *backward) duct(p *part, pressure float64) float64 {
	s, d := &p.state, &p.duct
	n := len(s.slices) - 1
	dx := d.length / float64(n)
	flux := s.flow / fourpole.CircleArea(d.bore)
	if s.liquid > 0 { // of one temperature
		drop := s.wetDuct(d, dx)
		for range n {
			pressure += drop(pressure)
		}
		s.quick(s.t, pressure, flux)
		return pressure
	}
	slope := d.factor * flux * flux / (2 * d.bore) * dx
	for i := n; i > 0; i-- {
		t := (s.slices[i] + s.slices[i-1]) / 2
		f := slope * s.friction.at(t)
		drop := f / s.table.rho(t, pressure)
		pressure += f / s.table.rho(t, pressure+drop/2)
	}
	s.quick(s.slices[0], pressure, flux)
	return pressure
}

// local adds a loss coefficient at the density in the middle of the loss.
func (b *backward) local(p *part, pressure float64) float64 {
	s := &p.state
	flux := s.flow / fourpole.CircleArea(p.bore)
	at := func(x float64) float64 {
		if s.liquid > 0 {
			f := s.twoPhase(p.bore, s.t, x)
			return f.Local(p.k)
		}
		return p.k * flux * flux / (2 * s.table.rho(s.t, x))
	}
	s.quick(s.t, pressure, flux)
	return pressure + at(pressure+at(pressure)/2)
}

// spray is what the gas pays to bring the sprayed water up to speed.
func (b *backward) spray(p *part, pressure float64) float64 {
	s := &p.state
	if s.injected == 0 {
		return 0
	}
	flux := s.flow / fourpole.CircleArea(p.bore)
	s.quick(s.t, pressure, flux)
	return wet.SprayLoss(s.injected, flux/s.table.rho(s.t, pressure), p.bore)
}

// quick keeps the highest velocity and Mach number.
func (s *state) quick(t, pressure, flux float64) {
	v := flux / s.table.rho(t, pressure)
	s.fastest = math.Max(s.fastest, v)
	s.mach = math.Max(s.mach, v/s.soundSpeed(t))
}

// soundSpeed is c at a temperature, m/s.
func (s *state) soundSpeed(t float64) float64 {
	if s.table.fixed {
		return s.gas.SoundSpeed
	}
	cp, r := s.table.at(t).cp, s.table.constant
	return math.Sqrt(cp / (cp - r) * r * t)
}

// branches carries the pressure back through each branch and shifts the flow towards those that
// lose less; the pressure at the fork is the mean weighted with the flow.
func (b *backward) branches(p *part, pressure float64) float64 {
	s := &p.state
	losses := make([]float64, len(p.lines))
	mean := 0.0
	for i, l := range p.lines {
		l.last.pressure = pressure
		losses[i] = math.Max(b.run(l.stream.parts, pressure)-pressure, 1e-9)
		if !(losses[i] < blocked) {
			losses[i] = blocked
		}
		mean += s.share[i] * losses[i]
	}
	sum := 0.0
	share := make([]float64, len(losses))
	for i, d := range losses {
		b.uneven = math.Max(b.uneven, math.Abs(d-mean)/math.Max(mean, 1e-3))
		share[i] = math.Max(1e-6, s.share[i]) * math.Sqrt(math.Max(mean, 1e-9)/d)
		sum += share[i]
	}
	for i := range share {
		share[i] /= sum
		s.fastest = math.Max(s.fastest, fastest(p.lines[i].stream.parts))
	}
	s.share = share
	return pressure + mean
}

// blocked is the loss of a branch that lets next to nothing through, Pa.
const blocked = 1e8

func fastest(parts []part) (v float64) {
	for i := range parts {
		v = math.Max(v, parts[i].state.fastest)
	}
	return v
}
