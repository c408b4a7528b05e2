package main

import (
	"hushwake/path"
	"hushwake/path/study/draws"
	"hushwake/silencer"
	"hushwake/source/spectrum"
)

// The JSON of compare. Keys are fixed; a value that does not exist is null.
type compareDoc struct {
	Version     string               `json:"version"`
	Boat        string               `json:"boat"`
	Units       string               `json:"units"`
	Seed        uint64               `json:"seed"`
	Draws       int                  `json:"draws"`
	BandsHz     []number             `json:"bands_hz"`
	Layouts     []layoutDoc          `json:"layouts"`
	Ranking     map[string][]rankDoc `json:"ranking"`
	Tradeoff    []tradeoffDoc        `json:"tradeoff"`
	Assumptions []assumptionDoc      `json:"assumptions"`
	Warnings    []string             `json:"warnings"`
}

type layoutDoc struct {
	Name                    string        `json:"name"`
	Price                   number        `json:"price"`
	Listeners               []listenerDoc `json:"listeners"`
	Exhausts                []exhaustDoc  `json:"exhausts"`
	Refused                 bool          `json:"refused"`
	Refusals                []refusalDoc  `json:"refusals"`
	LengthM                 number        `json:"length_m"`
	MassKg                  number        `json:"mass_kg"`
	Fits                    *bool         `json:"fits"`
	ProbabilityOverPressure number        `json:"probability_over_back_pressure"`
	Cautions                []cautionDoc  `json:"cautions"`
}

type listenerDoc struct {
	Name                 string    `json:"name"`
	LevelDBA             number    `json:"level_dba"`
	LowDBA               number    `json:"low_dba"`
	HighDBA              number    `json:"high_dba"`
	MedianDBA            number    `json:"median_dba"`
	Bands                []number  `json:"bands_db"`
	LimitDBA             number    `json:"limit_dba"`
	Hours                number    `json:"hours"`
	Exposure             number    `json:"exposure_dba_8h"`
	LevelDBC             number    `json:"level_dbc"`
	NR                   number    `json:"nr"`
	ProbabilityOverLimit number    `json:"probability_over_limit"`
	Speech               speechDoc `json:"speech"`
	Paths                []pathDoc `json:"paths"`
}

type speechDoc struct {
	Interference number `json:"interference_level_db"`
	Normal       number `json:"normal_voice_m"`
	Raised       number `json:"raised_voice_m"`
}

type pathDoc struct {
	Source   string   `json:"source"`
	Route    string   `json:"route"`
	LevelDBA number   `json:"level_dba"`
	Bands    []number `json:"bands_db"`
}

type exhaustDoc struct {
	Engine               string       `json:"engine"`
	BackPressure         number       `json:"back_pressure_kpa"`
	RatedBackPressure    number       `json:"rated_back_pressure_kpa"`
	Limit                number       `json:"limit_kpa"`
	OutletTemperature    number       `json:"outlet_temperature_c"`
	OutletVelocity       number       `json:"outlet_velocity_m_s"`
	InsertionLoss        []number     `json:"insertion_loss_db"`
	InsertionLossDBA     number       `json:"insertion_loss_dba"`
	Elements             []elementDoc `json:"elements"`
	RatedLow             number       `json:"rated_back_pressure_low_kpa"`
	RatedHigh            number       `json:"rated_back_pressure_high_kpa"`
	ProbabilityOverLimit number       `json:"probability_over_limit"`
}

type elementDoc struct {
	Name            string `json:"name"`
	Kind            string `json:"kind"`
	PressureLoss    number `json:"pressure_loss_kpa"`
	GasTemperature  number `json:"gas_temperature_c"`
	SkinTemperature number `json:"skin_temperature_c"`
	Velocity        number `json:"velocity_m_s"`
	Growth          number `json:"growth_mm"`
	WallTemperature number `json:"wall_temperature_c"`
	HeatLoss        number `json:"heat_loss_w"`
}

type refusalDoc struct {
	Code    string  `json:"code"`
	Text    string  `json:"text"`
	Element *string `json:"element"`
}

type cautionDoc struct {
	Code     string `json:"code"`
	Text     string `json:"text"`
	Severity string `json:"severity"`
	Action   string `json:"action"`
	Source   string `json:"source"`
}

type rankDoc struct {
	Layout   string `json:"layout"`
	LevelDBA number `json:"level_dba"`
	Quietest number `json:"probability_quietest"`
}

type tradeoffDoc struct {
	Layout            string `json:"layout"`
	Listener          string `json:"listener"`
	LevelDBA          number `json:"level_dba"`
	RatedBackPressure number `json:"rated_back_pressure_kpa"`
	OnFront           bool   `json:"on_front"`
}

type assumptionDoc struct {
	Field     string `json:"field"`
	Value     string `json:"value"`
	Source    string `json:"source"`
	PlusMinus number `json:"plus_minus_db"`
}

// bandsHz are the nominal band centres.
func bandsHz() []number { return numbers(spectrum.Nominal[:]) }

// layoutDocs turns predictions with their spread into the layouts of compare and calibrate.
func layoutDocs(ps []path.Prediction, s draws.Spread) []layoutDoc {
	out := make([]layoutDoc, len(ps))
	for i := range ps {
		out[i] = newLayoutDoc(&ps[i], s.Layouts[i])
	}
	return out
}

func newLayoutDoc(p *path.Prediction, s draws.LayoutSpread) layoutDoc {
	d := layoutDoc{
		Name: p.Layout.Name, Price: numOr(p.Layout.Price, 1), Refused: p.Refused, Refusals: []refusalDoc{},
		LengthM: numOr(p.Length, 1), MassKg: numOr(p.Mass, 1), Fits: p.Fits,
		ProbabilityOverPressure: numOr(s.OverBackPressure, 1), Cautions: []cautionDoc{},
		Listeners: []listenerDoc{}, Exhausts: []exhaustDoc{},
	}
	for i := range p.Listeners {
		d.Listeners = append(d.Listeners, newListenerDoc(&p.Listeners[i], s.Listeners[i]))
	}
	for i := range p.Exhausts {
		d.Exhausts = append(d.Exhausts, newExhaustDoc(&p.Exhausts[i], s.Exhausts[i]))
	}
	for _, f := range p.Findings {
		if f.Refuse {
			d.Refusals = append(d.Refusals, refusalDoc{f.Code, f.Text, textOr(f.Element)})
			continue
		}
		d.Cautions = append(d.Cautions, newCautionDoc(f))
	}
	return d
}

func newCautionDoc(f silencer.Finding) cautionDoc {
	return cautionDoc{Code: f.Code, Text: f.Text, Severity: f.Severity, Action: f.Action, Source: f.Source}
}

func textOr(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

func newListenerDoc(h *path.Heard, s draws.LevelSpread) listenerDoc {
	d := listenerDoc{
		Name: h.Listener.Name, LevelDBA: level(s.Level), LowDBA: level(s.Low), HighDBA: level(s.High),
		MedianDBA: level(s.Median), Bands: bandLevels(h.Bands), LimitDBA: numOr(h.Listener.Limit, 1), LevelDBC: level(h.Bands.DBC()),
		ProbabilityOverLimit: numOr(s.OverLimit, 1), Paths: []pathDoc{},
	}
	if h.DBA() > 0 {
		nr, _ := spectrum.NR(h.Bands)
		d.NR = num(nr)
	}
	if h.Listener.Hours > 0 {
		d.Hours = num(h.Listener.Hours)
		d.Exposure = level(spectrum.Exposure8h(s.Level, h.Listener.Hours))
	}
	d.Speech = newSpeechDoc(h.Bands)
	for _, r := range h.Routes {
		d.Paths = append(d.Paths, pathDoc{r.Source, r.Route, level(r.DBA()), bandLevels(r.Bands)})
	}
	return d
}

func newSpeechDoc(b spectrum.Bands) speechDoc {
	sil := spectrum.PSIL(b)
	if sil <= spectrum.Silent/2 {
		return speechDoc{}
	}
	return speechDoc{level(sil), num(spectrum.TalkDistance(b, spectrum.NormalVoice)), num(spectrum.TalkDistance(b, spectrum.RaisedVoice))}
}

func newExhaustDoc(r *path.ExhaustResult, s draws.PressureSpread) exhaustDoc {
	d := exhaustDoc{
		Engine: r.Engine, BackPressure: kilopascal(r.Running.BackPressure), RatedBackPressure: kilopascal(s.Rated),
		Limit: numOr(r.Limit, 1e-3), OutletTemperature: celsius(r.Running.OutletTemperature),
		OutletVelocity: num(r.Running.OutletVelocity), InsertionLoss: bandValues(r.Acoustics.InsertionLoss),
		InsertionLossDBA: num(r.InsertionDBA), Elements: elementDocs(r.Running),
		RatedLow: kilopascal(s.Low), RatedHigh: kilopascal(s.High), ProbabilityOverLimit: numOr(s.OverLimit, 1),
	}
	return d
}

func kilopascal(pa float64) number { return num(pa / 1e3) }
func celsius(k float64) number     { return num(k - 273.15) }

func elementDocs(m silencer.Marched) []elementDoc {
	out := make([]elementDoc, len(m.Rows))
	for i, r := range m.Rows {
		out[i] = elementDoc{r.Name, r.Kind, kilopascal(r.PressureLoss), celsius(r.GasTemperature),
			celsius(r.SkinTemperature), num(r.Velocity), num(r.Growth * 1e3), celsius(r.WallTemperature), num(r.HeatLoss)}
		if r.Length == 0 { // a step or a mouth has no wall
			out[i].SkinTemperature, out[i].WallTemperature = nil, nil
		}
	}
	return out
}
