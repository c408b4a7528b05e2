package readings

import (
	"slices"

	"hushwake/path"
	"hushwake/silencer/safety"
	"hushwake/source/said"
)

// Codes of what was measured over a limit: a back pressure, the air in a box over what the file says that it may reach, and
// the same over what is common practice where the file says nothing.
const (
	CodeMeasured    = "BACK-PRESSURE-MEASURED"
	codeMeasuredAir = "BOX-TEMPERATURE-MEASURED"
	CodeMeasuredHot = "BOX-HOT-MEASURED"
)

// overMeasured adds a danger where a back pressure read on this layout is over the engine's limit, or the air read in a box
// over its own: it is the engine's own truth, whatever the model expects. A reading at part load is over the limit at
// rated all the more.
func (k *Known) overMeasured(p *path.Prediction) {
	for _, r := range k.Readings() {
		if r.Strike || r.Layout != p.Layout.Name && (r.Layout != "" || len(k.Boat.Layouts) > 1) {
			continue
		}
		if f, over := overPressure(r, p); over {
			p.Findings = append([]safety.Finding{f}, p.Findings...)
		}
		if f, over := overWarm(r, p); over {
			p.Findings = append([]safety.Finding{f}, p.Findings...)
		}
	}
}

func overPressure(r path.Reading, p *path.Prediction) (safety.Finding, bool) {
	for _, x := range p.Exhausts {
		if r.BackPress != nil && (x.Engine == r.Engine || r.Engine == "" && len(p.Exhausts) == 1) && x.Limit != nil && *r.BackPress > *x.Limit {
			return overLimit(x.Engine, *r.BackPress, *x.Limit), true
		}
	}
	return safety.Finding{}, false
}

func overWarm(r path.Reading, p *path.Prediction) (safety.Finding, bool) {
	for _, x := range p.Exhausts {
		if !ofSpace(r) || r.Temp == nil || r.Bound == "at most" || len(r.Open) > 0 || x.Box == nil || x.Box.Sound.Name != r.Space {
			continue
		}
		if limit, stated := x.Box.MayReach(); *r.Temp > limit {
			return tooWarm(r.Space, *r.Temp, limit, stated, x.Box.Air.AllowedWhy), true
		}
	}
	return safety.Finding{}, false
}

func tooWarm(box string, read, limit float64, stated bool, why string) safety.Finding {
	f := safety.Finding{Code: CodeMeasuredHot, Severity: safety.Danger, Element: box,
		Text:   said.Textf("Too hot by a reading: {%.0f °C} in %s, which may reach {%.0f °C}; %s.", read-273.15, box, limit-273.15, why),
		Action: "Run with less load, or with the box open and nobody beside it, until more air passes: look for a blocked opening or duct and a fan that does not turn; then give it the inlet, outlet or fan that the enclosure report lists",
		Source: "common practice or judgement as named, and the reading"}
	if stated {
		f.Code, f.Source = codeMeasuredAir, "the limit in the file, and the reading"
	}
	return f
}

func overLimit(engine string, read, limit float64) safety.Finding {
	return safety.Finding{Code: CodeMeasured, Severity: safety.Danger, Element: engine,
		Text: said.Textf("The back pressure read at %s, {%.1f kPa}, is over the limit of {%.1f kPa} of the engine's maker.", engine, read/1e3, limit/1e3),
		Action: "Run with less load until it is mended. Read once more with the gauge tapped a few bores behind the flange; then look for soot, water standing in the line, " +
			"a collapsed hose or a stuck flap, and for a muffler too small",
		Source: "the engine maker's limit in the file, and the reading"}
}

// OverMeasured says whether a back pressure or the air in a box read on the layout is over its limit in the file.
func OverMeasured(p *path.Prediction) bool {
	return slices.ContainsFunc(p.Findings, func(f safety.Finding) bool { return f.Code == CodeMeasured || f.Code == codeMeasuredAir })
}

// Measured says whether a finding is of something measured over a limit.
func Measured(f safety.Finding) bool {
	return f.Code == CodeMeasured || f.Code == codeMeasuredAir || f.Code == CodeMeasuredHot
}
