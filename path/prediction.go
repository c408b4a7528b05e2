package path

import (
	"hushwake/path/tones"
	"hushwake/silencer"
	"hushwake/silencer/safety"
	"hushwake/source"
	"hushwake/source/published"
	"hushwake/source/spectrum"
)

// Uncertain is one named cause of error of a step. Steps with the same Key move together,
// also between layouts; SD is one standard deviation in dB by band.
type Uncertain struct {
	Term   string           // source level, order pattern, source impedance, element model, ...
	Key    string           // what is shared: e.g. "source level/main"
	Mix    []silencer.Mixed // several shared causes instead of Key; squares of the weights add to 1; nil = Key alone
	SD     spectrum.Bands
	Source string // where the SD comes from, or "judgement"
}

// Step is one link of the chain from source to ear: Bands is a level for the first step and a
// gain (loss negative) for the others, so that steps add up to the route's level.
type Step struct {
	Name string
	published.Cited
	Bands     spectrum.Bands
	Uncertain []Uncertain
	Terms     []source.Term // how the level of a first step came about; they add up to Bands
	Notes     []string      // what it comes from, in words with its own figures
}

// Way is the kind of way by which sound leaves its source.
type Way string

// Ways; "" is the sum of several.
const (
	ByOutlet     Way = "outlet"
	ByLineWall   Way = "line wall"
	ByAir        Way = "air"
	ByStructure  Way = "structure"
	ByBoxOpening Way = "box opening"
	ByBackground Way = "background"
	ByIntake     Way = "air pipe"
)

// Route is one way from one source to one listener.
type Route struct {
	Source  string         // e.g. "main exhaust"
	Engine  string         // exact name of the engine; "" for sums
	Way     Way            // how it leaves the source
	Route   string         // e.g. "outlet - windows - wheelhouse"
	Bands   spectrum.Bands // dB, unweighted
	AWeight spectrum.Bands // dB, A-weight of what sits in each band: its orders and its broadband part; zero stands for spectrum.A
	Steps   []Step

	Outlets spectrum.Bands // of a sum of quiet routes: the share of its energy that comes by outlets
	tones   *tones.Set     // the orders that it brings; nil = none are known
	behind  spectrum.Bands // what lies between them and the listener as it was worked out, dB
}

// Weighted is the A-weighted bands of the route, its orders weighed at their own frequency.
func (r Route) Weighted() spectrum.Bands {
	if r.AWeight == (spectrum.Bands{}) {
		return r.Bands.Plus(spectrum.A)
	}
	return r.Bands.Plus(r.AWeight)
}

// DBA is the A-weighted level of the route.
func (r Route) DBA() float64 { return r.Weighted().Total() }

// Heard is what reaches one listener.
type Heard struct {
	Listener Listener
	Bands    spectrum.Bands
	Routes   []Route  // loudest first
	Notes    []string // what the figure does not hold, in sentences
}

// DBA is the A-weighted level at the listener: the energy sum of the routes.
func (h Heard) DBA() float64 { return h.Weighted().Total() }

// Weighted is the A-weighted bands at the listener; without routes they are those of the octaves.
func (h Heard) Weighted() spectrum.Bands {
	if len(h.Routes) == 0 {
		return h.Bands.Plus(spectrum.A)
	}
	return sumOf(h.Routes, Route.Weighted)
}

// ByWay is the A-weighted energy at the listener by the way that it left its source, as power ratios that add up to that of
// DBA; what quiet routes by outlets bring counts with the outlets.
func (h Heard) ByWay() map[Way]float64 {
	out := map[Way]float64{}
	for i := range h.Routes {
		r := &h.Routes[i]
		for b, l := range r.Weighted() {
			e := spectrum.Power(l)
			out[ByOutlet] += e * r.Outlets[b]
			out[r.Way] += e * (1 - r.Outlets[b])
		}
	}
	return out
}

// Move moves each route by so many dB, and the sum with them. Steps stay as they are.
func (h *Heard) Move(by func(Route) spectrum.Bands) {
	if len(h.Routes) == 0 {
		return
	}
	h.Routes = append([]Route(nil), h.Routes...)
	for i := range h.Routes {
		h.Routes[i].Bands = h.Routes[i].Bands.Plus(by(h.Routes[i]))
	}
	h.Sum()
}

// Sum makes the bands the energy sum of the routes.
func (h *Heard) Sum() { h.Bands = sumOf(h.Routes, func(r Route) spectrum.Bands { return r.Bands }) }

// sumOf is the energy sum of something of each route.
func sumOf(routes []Route, of func(Route) spectrum.Bands) spectrum.Bands {
	all := make([]spectrum.Bands, len(routes))
	for i := range routes {
		all[i] = of(routes[i])
	}
	return spectrum.SumBands(all...)
}

// PressureTerm is one cause of error of the back pressure, as a relative standard deviation.
type PressureTerm struct {
	Term, Key string
	Mix       []silencer.Mixed // several shared causes in place of one
	SD        float64          // relative, 0.1 = 10 %
	Source    string
}

// ExhaustResult is one exhaust line in a layout.
type ExhaustResult struct {
	Engine        string
	Source        source.Result // at running
	RatedSource   source.Result
	Running       silencer.Marched
	Rated         silencer.Marched
	Acoustics     silencer.Acoustics // at running
	Limit         *float64           // Pa, at rated
	Promised      *Promised          // back pressure of the whole line, as a yard or maker promises it; nil = nothing is
	PressureTerms []PressureTerm
	OutletPower   spectrum.Bands // dB re 1 pW, at running, silenced
	Unsilenced    spectrum.Bands // dB re 1 pW, plain pipe
	InsertionDBA  float64        // dB(A) difference
	Cost          *source.Cost   // of the running back pressure; nil = not known
	Box           *Boxed         // the enclosure round the engine; nil = none
	Feet          OnMounts       // how the engine stands

	Shells    []silencer.Shell // what the line's walls give off, at running
	AlongPipe spectrum.Bands   // share of the energy at the outlet that came along the pipe, dB
}

// Prediction is one layout.
type Prediction struct {
	Layout      *Layout
	Listeners   []Heard // in file order
	Exhausts    []ExhaustResult
	Findings    []safety.Finding // cautions and refusals, most dangerous first
	Refused     bool
	Questions   []string // to be answered before the layout can be judged; none where it is refused anyway
	Fits        *bool    // nil = no envelope stated
	Length      *float64
	Mass        *float64
	Assumptions []source.Assumption
	Warnings    []string
}

// Sharing gives the doubts of a step the weight of its share in the energy of each band, dB under it: to first
// order that is how far a change of the part moves the sum.
func (s Step) Sharing(share spectrum.Bands) Step {
	all := make([]Uncertain, len(s.Uncertain))
	for i, u := range s.Uncertain {
		for b := range u.SD {
			u.SD[b] *= spectrum.Power(share[b])
		}
		all[i] = u
	}
	s.Uncertain = all
	return s
}

// CauseOf tells whether two doubts are of one cause: of one key each line may mix the causes in its own way.
func (u *Uncertain) CauseOf(o *Uncertain) bool {
	return u.Term == o.Term && u.Source == o.Source && len(u.Mix) == len(o.Mix) && (len(u.Mix) == 0 || &u.Mix[0] == &o.Mix[0])
}
