package offers

import (
	"slices"

	"hushwake/path"
	"hushwake/silencer"
)

// DutyOf gives what the silencer of an offer has to serve in a layout: the rated flow, the gas as it
// enters there, the exhaust's sound power without a silencer, and the pipe before it. ok is false
// where the layout does not use the offer.
func DutyOf(p path.Prediction, quote string) (d Duty, ok bool) {
	if p.Layout == nil {
		return d, false
	}
	for _, e := range p.Layout.Exhausts {
		at := offerAt(e.Line.Elements, quote)
		if at < 0 {
			continue
		}
		for _, x := range p.Exhausts {
			if x.Engine == e.Engine {
				d, ok = dutyAt(x, silencer.BoreBefore(e.Line.Elements, at), at)
				if len(p.Exhausts) > 1 {
					d.Engine = x.Engine
				}
				return d, ok
			}
		}
	}
	return d, false
}

// offerAt is the place of the offer's element in the line, -1 for none.
func offerAt(elements []silencer.Element, quote string) int {
	return slices.IndexFunc(elements, func(e silencer.Element) bool {
		g := e.Quoted()
		return g != nil && g.Offer == quote
	})
}

func dutyAt(x path.ExhaustResult, bore float64, at int) (d Duty, ok bool) {
	gas := x.Rated.OutletGas
	temperature := x.RatedSource.Temperature
	for _, r := range x.Rated.Rows {
		if r.Index == at+1 {
			break
		}
		if r.GasTemperature > 0 {
			temperature = r.GasTemperature
		}
	}
	if temperature <= 0 || gas.Temperature <= 0 {
		return d, false
	}
	u, full := x.Unsilenced, x.RatedSource.Exhaust.Bands
	return Duty{MassFlow: x.RatedSource.PipeFlow, Temperature: temperature, Density: gas.Density * gas.Temperature / temperature,
		Unsilenced: &u, AtRated: &full, Bore: bore, Limit: x.Limit}, true
}
