package safety

import (
	"sort"

	"hushwake/silencer"
	"hushwake/silencer/loss"
	"hushwake/silencer/wet"
	"hushwake/source"
)

// Circumstances is what a line cannot know by itself and its safety checks need.
// Nil and zero mean "not stated": a check that needs the value then says so instead of guessing.
type Circumstances struct {
	Engine         source.Engine // stroke, aspiration, fuel, rated power and speed, stated flow
	Limit          *float64      // Pa, the engine maker's back-pressure limit at rated; nil = not stated
	Promised       *float64      // Pa, the most that is promised for the whole line at rated, hot; nil = nothing is
	PromisedLeast  float64       // Pa, the least that it is said to take; 0 = only a bound above
	Rated, Running silencer.Marched
	RatedFeed      silencer.Feed
	Pipes          source.Pipes // of the engine, each with a line alike; Rated, Running and RatedFeed are those of one; 0 = 1
	Heel           float64      // rad, worst heel
	ManifoldHeight *float64     // m of the exhaust outlet of the engine over the waterline
	ManifoldOffset float64      // m to starboard of the centreline
	OutletHeight   *float64     // m over the waterline; nil = not known
	OutletOffset   float64      // m to starboard of the centreline
	Hatch          []float64
	Clearance      float64  // m to combustibles the owner wants; 0 = not stated
	NearestOpening *float64 // m from the outlet to the nearest opening of a room
	OpeningName    string
	NearestPerson  *float64 // m from the outlet to the nearest listener
	PersonName     string
	SleepsAboard   bool    // a listener is a berth or cabin
	LowLoad        bool    // long running under about a third of rated load
	CrankingFlow   float64 // m3/s of raw water while cranking; 0 = a quarter of the stated flow
	Generator      bool
}

// Severities, worst first.
const (
	Danger  = wet.Danger
	Warning = wet.Warning
	Caution = wet.Caution
	Note    = wet.Note
)

const (
	practice = "common practice, no source"
	geometry = "geometry"
)

// inspection collects findings about one line.
type inspection struct {
	line  *silencer.Line
	c     Circumstances
	found []Finding
}

var rank = map[string]int{Danger: 0, Warning: 1, Caution: 2, Note: 3}

func sortByDanger(f []Finding) {
	sort.SliceStable(f, func(a, b int) bool {
		if f[a].Refuse != f[b].Refuse {
			return f[a].Refuse
		}
		return rank[f[a].Severity] < rank[f[b].Severity]
	})
}

func (i *inspection) add(f Finding) { i.found = append(i.found, f) }

// wet takes findings of the water side over.
func (i *inspection) wet(element string, list []wet.Finding) {
	for _, f := range list {
		i.add(Finding{Code: f.Code, Severity: f.Severity, Text: sentence(f.Text), Action: f.Action, Source: f.Source, Element: element, Refuse: f.Refuse})
	}
}

// slip takes a suspected mistake over.
func (i *inspection) slip(element string, s *loss.Slip) {
	if s != nil {
		text := s.Text
		if element != "" {
			text = element + ": " + text
		}
		i.add(Finding{Code: s.Code, Severity: Warning, Text: sentence(text), Action: s.Action, Source: s.Source, Element: element})
	}
}

// each visits elements with their rows at rated and what gas meets them, K; those in branches after the
// parallel part that holds them.
func (i *inspection) each(f func(e silencer.Element, r silencer.Row, gasIn float64)) {
	i.line.Along(i.c.Rated, f)
}

// before is the gas temperature at the inlet of an element at rated, K.
func (i *inspection) before(index int) float64 {
	t := i.c.Rated.InletTemperature
	for _, r := range i.c.Rated.Rows {
		if r.Index == index {
			return t
		}
		t = r.GasTemperature
	}
	return t
}

// dry says whether no water goes down the line.
func (i *inspection) dry() bool {
	w, _ := i.line.Injection()
	return w == nil
}

func sentence(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	if 'a' <= r[0] && r[0] <= 'z' {
		r[0] -= 'a' - 'A'
	}
	if last := r[len(r)-1]; last != '.' && last != '!' && last != '?' {
		r = append(r, '.')
	}
	return string(r)
}

func celsius(k float64) float64 { return k - 273.15 }
