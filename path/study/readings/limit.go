package readings

import (
	"fmt"

	"hushwake/path"
	"hushwake/silencer"
)

// CodeMeasured is the finding that a measured back pressure is over the engine's limit.
const CodeMeasured = "BACK-PRESSURE-MEASURED"

// overMeasured adds a danger where a back pressure read on this layout is over the engine's limit: it
// is the engine's own truth, whatever the model expects. A reading at part load is over the limit at
// rated all the more.
func (k *Known) overMeasured(p *path.Prediction) {
	for _, r := range k.Readings() {
		if r.BackPress == nil || r.Strike || r.Layout != p.Layout.Name && (r.Layout != "" || len(k.Boat.Layouts) > 1) {
			continue
		}
		for _, x := range p.Exhausts {
			if (x.Engine == r.Engine || r.Engine == "" && len(p.Exhausts) == 1) && x.Limit != nil && *r.BackPress > *x.Limit {
				p.Findings = append([]silencer.Finding{overLimit(x.Engine, *r.BackPress, *x.Limit)}, p.Findings...)
			}
		}
	}
}

func overLimit(engine string, read, limit float64) silencer.Finding {
	return silencer.Finding{Code: CodeMeasured, Severity: silencer.Danger, Element: engine,
		Text: fmt.Sprintf("The back pressure read at %s, %.1f kPa, is over the limit of %.1f kPa of the engine's maker.", engine, read/1e3, limit/1e3),
		Action: "Run with less load until it is mended. Read once more with the gauge tapped a few bores behind the flange; then look for soot, water standing in the line, " +
			"a collapsed hose or a stuck flap, and for a muffler too small",
		Source: "the engine maker's limit in the file, and the reading"}
}

// OverMeasured says whether a back pressure read on the layout is over its limit.
func OverMeasured(p *path.Prediction) bool {
	for _, f := range p.Findings {
		if f.Code == CodeMeasured {
			return true
		}
	}
	return false
}
