package safety

import (
	"fmt"
	"strings"

	"hushwake/silencer"
	"hushwake/silencer/loss"
	"hushwake/source"
	"hushwake/source/said"
)

// hotSpots are elements whose outside lies above a limit, with the hottest of them.
type hotSpots struct {
	names []string
	worst float64 // K
}

func (h *hotSpots) add(r silencer.Row) {
	h.names = append(h.names, r.Name)
	h.worst = max(h.worst, r.SkinTemperature)
}

// surfaces compares skin temperatures at rated with the limits; each limit speaks once, for the elements
// that pass it but no higher one.
func (i *inspection) surfaces() {
	ignition, guard, burn := i.limit("ignition"), i.limit("guard"), i.limit("touch_us")
	var light, hot, warm hotSpots
	i.each(func(e silencer.Element, r silencer.Row, _ float64) {
		if r.Wet || r.Length == 0 || len(r.Branches) > 0 { // branches speak for themselves
			return
		}
		i.lagging(e, r)
		switch {
		case r.SkinTemperature > ignition.SI():
			light.add(r)
		case r.SkinTemperature > guard.SI():
			hot.add(r)
		case r.SkinTemperature > burn.SI():
			warm.add(r)
		}
	})
	i.surface(light, Finding{Code: "SURFACE-IGNITES", Severity: Danger, Source: ignition.Source,
		Text:   said.Textf("oil or fuel on it can catch fire, and it burns skin at once: up to {%.0f °C} outside at rated, over {%.0f °C}", celsius(light.worst), ignition.Figure),
		Action: said.Textf("lag it, with an oil-tight cover; keep {450 mm} to wood and other combustibles or shield them")})
	i.surface(hot, Finding{Code: "SURFACE-GUARD", Severity: Warning, Source: guard.Source,
		Text: said.Textf("a guard or more lagging is wanted within reach: up to {%.0f °C} outside at rated, over {%.0f °C}", celsius(hot.worst), guard.Figure), Action: "thicker lagging or a guard"})
	i.surface(warm, Finding{Code: "SURFACE-BURNS", Severity: Caution, Source: burn.Source,
		Text:   said.Textf("it burns on longer touch: up to {%.0f °C} outside at rated, over {%.1f °C}", celsius(warm.worst), burn.Figure),
		Action: "lag or guard what people can reach; bright metal cladding runs hotter to the touch than dull"})
}

func (i *inspection) surface(h hotSpots, f Finding) {
	if len(h.names) > 0 {
		f.Text = sentence(names(h.names) + ": " + f.Text)
		i.add(f)
	}
}

func (i *inspection) limit(id string) loss.Limit {
	l, err := loss.LimitOf(id)
	if err != nil {
		return loss.Limit{Figure: 1e4, Unit: "C"}
	}
	return l
}

// names lists a few and counts the rest.
func names(list []string) string {
	if len(list) <= 3 {
		return strings.Join(list, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(list[:2], ", "), len(list)-2)
}

// lagging judges what is wrapped round an element.
func (i *inspection) lagging(e silencer.Element, r silencer.Row) {
	l := e.Base().Lagging
	if l.Thickness <= 0 {
		return
	}
	m := strings.ToLower(l.Material)
	if strings.Contains(m, "foam") {
		i.add(Finding{Code: "FOAM-ON-HOT-PIPE", Severity: Danger, Element: r.Name, Source: practice,
			Text: fmt.Sprintf("%s is to be lagged with foam: foam melts and burns on a hot exhaust.", r.Name), Action: "mineral wool, ceramic fibre or calcium silicate with a fire rating"})
		return
	}
	known, ok := l.Insulation()
	if !ok {
		i.add(Finding{Code: "LAGGING-UNKNOWN", Severity: Caution, Element: r.Name, Source: "known insulations of the table",
			Text: fmt.Sprintf("%s: nothing is known of lagging %q; it is reckoned as mineral wool.", r.Name, l.Material), Action: "name one of " + strings.Join(loss.LaggingMaterials(), ", ")})
	}
	if r.WallTemperature > known.MaxK {
		i.add(Finding{Code: "LAGGING-TOO-HOT", Severity: Warning, Element: r.Name, Source: known.Source,
			Text: said.Textf("%s: the metal reaches {%.0f °C} under %s good for {%.0f °C}.", r.Name, celsius(r.WallTemperature), known.Material, celsius(known.MaxK)), Action: "an inner layer of ceramic fibre"})
	}
}

// speeds looks for gas that runs too fast; hoses speak for themselves.
func (i *inspection) speeds() {
	fastest, name := 0.0, ""
	for _, r := range i.c.Rated.Rows {
		if r.Velocity > fastest {
			fastest, name = r.Velocity, r.Name
			if r.Kind == "step" {
				name = "the step of the bore"
			}
		}
		if r.Mach > 0.3 {
			i.add(Finding{Code: "MACH-HIGH", Severity: Warning, Element: r.Name, Source: "range of the pressure and sound models",
				Text: fmt.Sprintf("%s: Mach number %.2f; pressure loss and sound are uncertain above 0.3.", r.Name, r.Mach), Action: "a wider bore"})
		}
	}
	if fastest > 75 {
		i.add(Finding{Code: "GAS-FAST", Severity: Caution, Element: name, Source: said.Textf("{25 to 50 m/s} is usual in dry pipe, about {35 m/s} in a silencer (marine installation manual)"),
			Text: said.Textf("Gas runs at {%.0f m/s} in %s: it makes noise of its own that no silencer before it can cut.", fastest, name), Action: "a wider bore"})
	}
}

// fire names soot, foam and old lagging.
func (i *inspection) fire() {
	if !i.dry() {
		return
	}
	i.add(Finding{Code: "OLD-LAGGING", Severity: Caution, Source: "boats of more than 30 years; " + practice,
		Text: "Old lagging may hold asbestos.", Action: "do not cut, brush or strip old board or tape before a licensed person has had it tested"})
	if i.c.LowLoad || i.c.Engine.Breathes() == source.Blower || i.c.Generator {
		i.add(Finding{Code: "SOOT-FIRE", Severity: Caution, Source: practice,
			Text:   "Long running at low load leaves soot and oil in a dry stack; full power afterwards can light it, with flames from the outlet and a red-hot silencer.",
			Action: "load the engine well now and then, inspect and clean stack and silencer, keep the trunk free of anything that burns"})
	}
	if i.line.Outlet.Present && i.line.Outlet.Pointing[2] > 0.7 {
		i.add(Finding{Code: "RAIN", Severity: Caution, Source: practice,
			Text: "An outlet that points up lets rain and spray down to silencer, turbo and valves.", Action: "a flap, a bend at the top or a drain at the lowest point; count a flap's pressure loss"})
	}
	i.materials()
}

// materials looks for words that call for care.
func (i *inspection) materials() {
	i.each(func(e silencer.Element, r silencer.Row, _ float64) {
		m := strings.ToLower(e.Base().Lagging.Material)
		for _, w := range []string{"asbestos", "old", "unknown board"} {
			if strings.Contains(m, w) {
				i.add(Finding{Code: "ASBESTOS-SUSPECT", Severity: Warning, Element: r.Name, Source: practice,
					Text: fmt.Sprintf("%s: the lagging is stated as %q and may hold asbestos.", r.Name, e.Base().Lagging.Material), Action: "leave it alone until a licensed person has tested it"})
				return
			}
		}
	})
}
