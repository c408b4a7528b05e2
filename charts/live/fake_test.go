package live

import (
	"hushwake/path/boatfile"
	"hushwake/path/boatfile/edit"
	session "hushwake/path/live"
)

// fake is a session with a few controls of the demo.
type fake struct{ *session.Session }

func newFake(name string, text []byte) *fake { return &fake{session.New(name, text)} }

func (f *fake) Do(m session.Message) session.Answer {
	a := f.Session.Do(m)
	if a.Controls == nil {
		a.Controls = controlsOf(a.Text)
	}
	return a
}

// controlsOf are a few places of the demos.
func controlsOf(text []byte) (all []boatfile.Control) {
	price := 1.3
	for _, c := range []boatfile.Control{
		{At: "/engines/main/cycle", Group: "engines main", Label: "cycle", Choices: []string{"two-stroke", "four-stroke"}},
		{At: "/engines/main/running/speed", Group: "engines main", Part: "running", Label: "speed", Required: true},
		{At: "/engines/main/running/power", Group: "engines main", Part: "running", Label: "power"},
		{At: "/engines/main/mass", Group: "engines main", Label: "mass", Example: "640 kg", Taken: "430 kg from its power", Price: &price},
		{At: "/layouts/0/exhausts/main/outlet/bore", Group: "layouts as found", Part: "outlet", Label: "bore", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/0/pipe/bore", Group: "layouts as found", Part: "pipe", Label: "bore", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/0/pipe/length", Group: "layouts as found", Part: "pipe", Label: "length", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/5/packed/bore", Group: "layouts as found", Part: "packed old silencer", Label: "bore", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/5/packed/length", Group: "layouts as found", Part: "packed old silencer", Label: "length", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/6/pipe/bore", Group: "layouts as found", Part: "pipe 7", Label: "bore", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/6/pipe/length", Group: "layouts as found", Part: "pipe 7", Label: "length", Layout: "as found"},
		{At: "/layouts/0/exhausts/main/line/6/pipe/name", Group: "layouts as found", Part: "pipe 7", Label: "name", Layout: "as found"},
		{At: "/partitions/0/open_area", Group: "partitions cabin bulkhead", Label: "open area"},
		{At: "/partitions/13/open_area", Group: "partitions wheelhouse door", Label: "open area"},
		{At: "/listeners/helm/limit", Group: "listeners helm", Label: "limit"},
	} {
		v, ok := edit.Get(text, c.At)
		if c.Value = v; !ok || v == "unknown" {
			c.Unknown = true
		}
		all = append(all, c)
	}
	return all
}
