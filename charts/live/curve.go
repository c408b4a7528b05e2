package live

import (
	"math"
	"strconv"
	"strings"

	"hushwake/path/boatfile/edit"
	"hushwake/path/report"
)

// curve is a layout over engine speed, of the text with a stamp.
type curve struct {
	stamp, layout string
	overLoad      bool
	engines       []string
	swept         report.PageSweep
}

func (c *curve) axis() string {
	if c.overLoad {
		return "load, % of rated"
	}
	return "engine speed, rpm"
}

func (c *curve) along(p report.PageSpeed) float64 {
	if c.overLoad {
		return p.LoadPercent
	}
	return p.SpeedRPM
}

// place is where the running speed of the engines stands in the file, "" where the line can't be dragged.
func (c *curve) place() string {
	if c.overLoad || len(c.engines) != 1 {
		return ""
	}
	return "/engines/" + strings.NewReplacer("~", "~0", "/", "~1").Replace(c.engines[0]) + "/running/speed"
}

// running is the running speed of the one engine, rpm; false where the layout has none.
func (c *curve) running(v *view) (rpm float64, ok bool) {
	if len(c.engines) == 0 {
		return 0, false
	}
	e, ok := v.w.Predictions[v.i].Layout.Engine(c.engines[0])
	if !ok {
		return 0, false
	}
	return e.Running.Speed, true
}

// field sets the running speed by number; the line in the picture does the same by pointer and arrow keys.
func (c *curve) field(m *markup, v *view) {
	at := c.place()
	rpm, ok := c.running(v)
	if at == "" || !ok {
		return
	}
	value, stated := edit.Get(v.Text, at)
	if !stated {
		value = strconv.FormatFloat(math.Round(rpm), 'f', 0, 64) + " rpm"
	}
	m.open("p", "class", "control")
	m.leaf("label", "Running speed", "for", "speed-field")
	m.open("input", "id", "speed-field", "data-at", at, "value", value, "autocomplete", "off")
	m.shut("p")
}

// The frame of the curve in its own units.
const (
	curveWide, curveHigh   = 340.0, 210.0
	curveLeft, curveBottom = 40.0, 26.0
)

// svg draws the level at the chosen seat over speed, with the line of the running speed as a slider.
func (c *curve) svg(v *view) string {
	x, y, ok := c.scales(v.j)
	if !ok {
		var m markup
		m.leaf("p", "There is no level to draw.", "class", "empty")
		return m.String()
	}
	var m markup
	num := func(f float64) string { return strconv.FormatFloat(math.Round(f*10)/10, 'f', -1, 64) }
	m.open("svg", "viewBox", "0 0 "+num(curveWide)+" "+num(curveHigh), "class", "curve", "role", "group", "aria-label", "level over "+c.axis(),
		"data-low", num(x.low), "data-high", num(x.high))
	for db := y.from; db <= y.to; db += 10 {
		m.open("path", "class", "grid", "d", "M"+num(curveLeft)+" "+num(y.at(db))+"H"+num(curveWide))
		m.shut("path")
		m.leaf("text", num(db), "x", num(curveLeft-5), "y", num(y.at(db)+4), "text-anchor", "end")
	}
	for _, t := range x.ticks() {
		m.leaf("text", num(t), "x", num(x.at(t)), "y", num(curveHigh-6), "text-anchor", "middle")
	}
	d := ""
	for _, p := range c.swept.Points {
		if l := p.LevelDBA[v.j]; l != nil {
			d += map[bool]string{true: "M", false: "L"}[d == ""] + num(x.at(c.along(p))) + " " + num(y.at(*l))
		}
	}
	m.open("path", "class", "trace", "d", d)
	m.shut("path")
	c.slider(&m, v, x, num)
	m.shut("svg")
	return m.String()
}

// slider is the line that sets the running speed.
func (c *curve) slider(m *markup, v *view, x span, num func(float64) string) {
	rpm, ok := c.running(v)
	if at := c.place(); ok && at != "" {
		m.open("g", "class", "speed-line", "tabindex", "0", "role", "slider", "data-at", at, "aria-label", "Running speed", "aria-valuemin", num(x.from), "aria-valuemax", num(x.to),
			"aria-valuenow", num(math.Round(rpm)), "aria-valuetext", num(math.Round(rpm))+" rpm", "transform", "translate("+num(x.at(rpm))+" 0)", "id", "speed-line")
		m.open("path", "d", "M0 8V"+num(curveHigh-curveBottom))
		m.shut("path")
		m.open("circle", "cx", "0", "cy", "12", "r", "9")
		m.shut("circle")
		m.shut("g")
	}
}

// span is an axis: values and where they lie.
type span struct{ from, to, low, high float64 }

func (s span) at(v float64) float64 {
	return s.low + (v-s.from)/(s.to-s.from)*(s.high-s.low)
}

// ticks are four round figures or so.
func (s span) ticks() (all []float64) {
	step := math.Pow(10, math.Floor(math.Log10((s.to-s.from)/2)))
	for (s.to-s.from)/step > 5 {
		step *= 2
	}
	for t := math.Ceil(s.from/step) * step; t <= s.to; t += step {
		all = append(all, t)
	}
	return all
}

// scales are the axes of speed and level; false where there is nothing to draw.
func (c *curve) scales(seat int) (x, y span, ok bool) {
	x = span{math.Inf(1), math.Inf(-1), curveLeft + 8, curveWide - 14}
	y = span{math.Inf(1), math.Inf(-1), curveHigh - curveBottom, 14}
	for _, p := range c.swept.Points {
		if seat >= len(p.LevelDBA) || p.LevelDBA[seat] == nil {
			continue
		}
		x.from, x.to = math.Min(x.from, c.along(p)), math.Max(x.to, c.along(p))
		y.from, y.to = math.Min(y.from, *p.LevelDBA[seat]), math.Max(y.to, *p.LevelDBA[seat])
	}
	y.from, y.to = 10*math.Floor(y.from/10), 10*math.Ceil(y.to/10)
	if y.to == y.from {
		y.to += 10
	}
	return x, y, x.to > x.from
}
