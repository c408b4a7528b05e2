package parts

import (
	"fmt"
	"math"

	"hushwake/path"
	"hushwake/path/boatfile/quantity"
	"hushwake/path/report/form"
	"hushwake/silencer"
	"hushwake/source/published"
)

// Line is one exhaust line alone.
type Line struct {
	Layout       string      `json:"layout"`
	Engine       string      `json:"engine"`
	Elements     []Element   `json:"elements"`
	BackPressure form.Number `json:"back_pressure_kpa"`
	Curve        Curve       `json:"curve"`
	Method       string      `json:"method"`
	Warnings     []string    `json:"warnings"`
}

// Curve is the loss of a line over frequency.
type Curve struct {
	Frequency []form.Number `json:"frequency_hz"`
	TL        []form.Number `json:"transmission_loss_db"`
	IL        []form.Number `json:"insertion_loss_db"`
	NR        []form.Number `json:"noise_reduction_db"`
}

// Fed is a line with what enters it.
type Fed struct {
	Line    *silencer.Line
	Feed    silencer.Feed
	Options silencer.Options
	engine  string
}

// FeedOf finds a line of a layout and what its engine, or the bench, sends into it at the running duty.
func FeedOf(b *path.Boat, l *path.Layout, engine string) (*Fed, error) {
	if len(l.Exhausts) == 0 {
		return nil, fmt.Errorf("layout %s has no exhaust line", l.Name)
	}
	x := &l.Exhausts[0]
	if engine != "" {
		var ok bool
		if x, ok = l.Exhaust(engine); !ok {
			return nil, form.Unknown("exhaust of an engine", engine, form.Each(l.Exhausts, func(x path.Exhaust) string { return x.Engine }))
		}
	}
	if b.Bench != nil && x.Engine == "bench" {
		feed, options := path.BenchFeed(b.Bench)
		return &Fed{&x.Line, feed, options, x.Engine}, nil
	}
	e, ok := l.Engine(x.Engine)
	if !ok {
		return nil, fmt.Errorf("layout %s names an exhaust for %q, which is no engine of the file", l.Name, x.Engine)
	}
	feed, err := path.RunningFeed(b, e)
	if err != nil {
		return nil, err
	}
	return &Fed{&x.Line, feed, silencer.Options{}, x.Engine}, nil
}

// LineAlone is a line worked out at the running duty.
type LineAlone struct {
	layout string
	fed    *Fed
	march  silencer.Marched
	curve  silencer.Curve
	Full   bool // the text cites the formula of each pressure loss
}

// NewLineAlone works a line out, its curve at the frequencies, Hz.
func NewLineAlone(layout string, f *Fed, hz []float64) (a *LineAlone, err error) {
	a = &LineAlone{layout: layout, fed: f}
	if a.march, err = f.Line.March(f.Feed, f.Options); err == nil {
		a.curve, err = f.Line.Curve(f.Feed, f.Options, hz)
	}
	if err != nil {
		return nil, fmt.Errorf("layout %s: %w", layout, err)
	}
	return a, nil
}

func (a *LineAlone) warnings() []string {
	return form.Unique(append(append([]string{}, a.march.Warnings...), a.curve.Warnings...))
}

// Warnings are those of the march and of the curve.
func (a *LineAlone) Warnings(u form.Units) []string { return u.LocalAll(a.warnings()) }

// Document is the elements and every point of the curve.
func (a *LineAlone) Document() any {
	c := a.curve
	return Line{Layout: a.layout, Engine: a.fed.engine, Elements: ElementsOf(a.march),
		BackPressure: form.Kilopascal(a.march.BackPressure), Method: c.Method, Warnings: a.warnings(),
		Curve: Curve{form.Numbers(c.Frequency), form.Numbers(c.TransmissionLoss), form.Numbers(c.InsertionLoss), form.Numbers(c.NoiseReduction)}}
}

// Sheet has a row for each point of the curve.
func (a *LineAlone) Sheet() form.Sheet {
	out := form.Sheet{{"frequency_hz", "transmission_loss_db", "insertion_loss_db"}}
	for i, f := range a.curve.Frequency {
		out.Add(form.Field(form.Num(f)), form.Field(form.Num(a.curve.TransmissionLoss[i])), form.Field(form.Num(a.curve.InsertionLoss[i])))
	}
	return out
}

// Text shows the elements and some points of the curve.
func (a *LineAlone) Text(u form.Units) *form.Text {
	t, m := &form.Text{}, a.march
	t.Say("", "%s, line of %s at its running duty, by the model alone", form.Quote(a.layout), a.fed.engine)
	t.Blank()
	t.Table(elementTable(m, u))
	t.Line("\nback pressure %s, outlet %s at %s\n", u.Show(m.BackPressure, quantity.Pressure),
		u.Show(m.OutletTemperature, quantity.Temperature), u.Show(m.OutletVelocity, quantity.Speed))
	t.Line("Loss over frequency, dB, method %s (json or csv give every point):\n", a.curve.Method)
	t.Table(curveTable(a.curve, 24))
	if a.Full {
		t.Line("\nWhere the pressure losses come from:\n")
		t.Table(citedTable(a.march, u))
	}
	return t
}

// citedTable tells the formula of each pressure loss, those of one formula together.
func citedTable(m silencer.Marched, u form.Units) *form.Table {
	t, at := form.NewTable("element", "formula", "source", "mark"), map[published.Cited]int{}
	for _, r := range m.Rows {
		if k, ok := at[r.Cited]; ok {
			t.Rows[k][0] += ", " + r.Name
			continue
		}
		if r.Formula != "" {
			at[r.Cited] = len(t.Rows)
			t.Add(r.Name, r.Formula, u.Local(r.Source), r.Mark)
		}
	}
	return t
}

func elementTable(m silencer.Marched, u form.Units) *form.Table {
	t := form.NewTable("element", "kind", ">loss", ">gas", ">wall", ">skin", ">heat", ">velocity", ">growth")
	for _, r := range m.Rows {
		wall, skin, heat := "", "", "" // a step or a mouth has no wall
		if r.Length > 0 {
			wall, skin = u.Show(r.WallTemperature, quantity.Temperature), u.Show(r.SkinTemperature, quantity.Temperature)
			heat = u.Heat(r.HeatLoss)
		}
		t.Add(r.Name, r.Kind, u.Show(r.PressureLoss, quantity.Pressure), u.Show(r.GasTemperature, quantity.Temperature),
			wall, skin, heat, u.Show(r.Velocity, quantity.Speed), u.Show(r.Growth, quantity.Length))
	}
	return t
}

// curveTable shows about n points spread evenly over the octaves.
func curveTable(c silencer.Curve, n int) *form.Table {
	t := form.NewTable(">Hz", ">transmission loss", ">insertion loss")
	last := len(c.Frequency) - 1
	ratio := math.Pow(c.Frequency[last]/c.Frequency[0], 1/float64(n))
	next := c.Frequency[0]
	for i, f := range c.Frequency {
		if f < next*(1-1e-12) && i != last {
			continue
		}
		for next <= f && ratio > 1 {
			next *= ratio
		}
		t.Add(fmt.Sprintf("%.0f", f), lossText(c.TransmissionLoss[i]), lossText(c.InsertionLoss[i]))
	}
	return t
}

func lossText(v float64) string {
	if math.IsNaN(v) {
		return "none"
	}
	return fmt.Sprintf("%.1f", v)
}

// Element is one element of a line.
type Element struct {
	Name            string      `json:"name"`
	Kind            string      `json:"kind"`
	PressureLoss    form.Number `json:"pressure_loss_kpa"`
	GasTemperature  form.Number `json:"gas_temperature_c"`
	SkinTemperature form.Number `json:"skin_temperature_c"`
	Velocity        form.Number `json:"velocity_m_s"`
	Growth          form.Number `json:"growth_mm"`
	WallTemperature form.Number `json:"wall_temperature_c"`
	HeatLoss        form.Number `json:"heat_loss_w"`
}

// ElementsOf are the elements of a marched line.
func ElementsOf(m silencer.Marched) []Element {
	out := make([]Element, len(m.Rows))
	for i, r := range m.Rows {
		out[i] = Element{r.Name, r.Kind, form.Kilopascal(r.PressureLoss), form.Celsius(r.GasTemperature),
			form.Celsius(r.SkinTemperature), form.Num(r.Velocity), form.Num(r.Growth * 1e3), form.Celsius(r.WallTemperature), form.Num(r.HeatLoss)}
		if r.Length == 0 { // a step or a mouth has no wall
			out[i].SkinTemperature, out[i].WallTemperature = nil, nil
		}
	}
	return out
}
