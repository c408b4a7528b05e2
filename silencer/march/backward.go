package march

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
func (b *backward) run(parts []Part, p float64) float64 {
	for i := len(parts) - 1; i >= 0; i-- {
		part := &parts[i]
		s := &part.State
		before := p
		switch part.Kind {
		case DuctPart:
			p = b.duct(part, p)
		case LossPart:
			p = b.local(part, p)
		case InjectPart:
			p += b.spray(part, p)
		case QuotePart:
			p += QuotedDrop(part.Quote, s, p).Drop
		case DepthPart:
			p += wet.SubmergedOutlet(part.Depth)
		case BranchPart:
			p = b.branches(part, p)
		}
		s.Loss = p - before
		s.Pressure = (p + before) / 2
	}
	return p
}

// duct adds friction and, where water goes along, the head of what stands in it.
func (b *backward) duct(p *Part, pressure float64) float64 {
	s, d := &p.State, &p.Duct
	n := len(s.Slices) - 1
	dx := d.Length / float64(n)
	flux := s.Flow / fourpole.CircleArea(d.Bore)
	if s.Liquid > 0 { // of one temperature
		drop := s.WetDuct(d, dx)
		for range n {
			pressure += drop(pressure)
		}
		s.quick(s.T, pressure, flux)
		return pressure
	}
	slope := d.Factor * flux * flux / (2 * d.Bore) * dx
	for i := n; i > 0; i-- {
		t := (s.Slices[i] + s.Slices[i-1]) / 2
		f := slope * s.friction.at(t)
		drop := f / s.Table.Rho(t, pressure)
		pressure += f / s.Table.Rho(t, pressure+drop/2)
	}
	s.quick(s.Slices[0], pressure, flux)
	return pressure
}

// local adds a loss coefficient at the density in the middle of the loss.
func (b *backward) local(p *Part, pressure float64) float64 {
	s := &p.State
	flux := s.Flow / fourpole.CircleArea(p.Bore)
	at := func(x float64) float64 {
		if s.Liquid > 0 {
			f := s.twoPhase(p.Bore, s.T, x)
			return f.Local(p.K)
		}
		return p.K * flux * flux / (2 * s.Table.Rho(s.T, x))
	}
	s.quick(s.T, pressure, flux)
	return pressure + at(pressure+at(pressure)/2)
}

// spray is what the gas pays to bring the sprayed water up to speed.
func (b *backward) spray(p *Part, pressure float64) float64 {
	s := &p.State
	if s.Injected == 0 {
		return 0
	}
	flux := s.Flow / fourpole.CircleArea(p.Bore)
	s.quick(s.T, pressure, flux)
	return wet.SprayLoss(s.Injected, flux/s.Table.Rho(s.T, pressure), p.Bore)
}

// branches carries the pressure back through each branch and shifts the flow towards those that
// lose less; the pressure at the fork is the mean weighted with the flow.
func (b *backward) branches(p *Part, pressure float64) float64 {
	s := &p.State
	losses := make([]float64, len(p.Lines))
	mean := 0.0
	for i, l := range p.Lines {
		l.Last.Pressure = pressure
		losses[i] = math.Max(b.run(l.Stream.Parts, pressure)-pressure, 1e-9)
		if !(losses[i] < blocked) {
			losses[i] = blocked
		}
		mean += s.Share[i] * losses[i]
	}
	sum := 0.0
	share := make([]float64, len(losses))
	for i, d := range losses {
		b.uneven = math.Max(b.uneven, math.Abs(d-mean)/math.Max(mean, 1e-3))
		share[i] = math.Max(1e-6, s.Share[i]) * math.Sqrt(math.Max(mean, 1e-9)/d)
		sum += share[i]
	}
	for i := range share {
		share[i] /= sum
		s.Fastest = math.Max(s.Fastest, fastest(p.Lines[i].Stream.Parts))
	}
	s.Share = share
	return pressure + mean
}

// blocked is the loss of a branch that lets next to nothing through, Pa.
const blocked = 1e8

func fastest(parts []Part) (v float64) {
	for i := range parts {
		v = math.Max(v, parts[i].State.Fastest)
	}
	return v
}
