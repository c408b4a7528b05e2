package controls

import (
	"fmt"
	"slices"
	"strings"

	"github.com/google/jsonschema-go/jsonschema"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/quantity"
	"hushwake/source"
	"hushwake/source/said"
)

// leaf makes the control of a single value; not where only mappings and lists fit.
func (w *walker) leaf(p spot, n *decode.Node, s *jsonschema.Schema, all []*jsonschema.Schema) bool {
	c := Control{At: p.at, Group: p.group, Part: p.part, Label: p.label, Fits: s.Description, Required: p.required, Unknown: n.Unknown(), Layout: w.shown}
	fits := false
	for _, a := range all {
		for _, word := range a.Enum {
			c.Choices = append(c.Choices, fmt.Sprint(word))
		}
		open := len(a.Enum) == 0 && a.Type != "object" && a.Type != "array" && len(a.Properties) == 0
		fits = fits || open || len(a.Enum) > 0 && len(all) == 1
		if c.Fits == "" {
			c.Fits = a.Description
		}
		if a.Type == "array" && a.Items != nil && !w.anyMapping(w.plain(a.Items)) {
			fits = fits || n == nil // [x, y, z] in one
		}
	}
	if _, example, ok := strings.Cut(c.Fits, " such as "); ok {
		for c.Example = example; strings.ContainsAny(c.Example, ",;") || strings.Contains(c.Example, " or "); {
			c.Example = c.Example[:min(cutAt(c.Example, ","), cutAt(c.Example, ";"), cutAt(c.Example, " or "))]
		}
	}
	if n != nil {
		if c.Value = n.Text; n.Kind == decode.Null {
			c.Value = ""
		}
		fits = true
	}
	if !fits {
		return false
	}
	if slices.ContainsFunc(all, func(a *jsonschema.Schema) bool { return len(a.Enum) == 0 }) && len(all) > 1 {
		c.Choices = nil
	}
	if names := w.names(p); names != nil {
		c.Choices = names
	}
	c.Unit = unitOf(c.Value, c.Example)
	if c.Unknown {
		w.price(&c, p)
	}
	w.out = append(w.out, c)
	return true
}

func cutAt(text, before string) int {
	if i := strings.Index(text, before); i >= 0 {
		return i
	}
	return len(text)
}

// unitOf is what stands behind the number of a value, else of an example.
func unitOf(all ...string) string {
	for _, text := range all {
		if _, unit, err := quantity.LeadingNumber(strings.TrimSpace(text)); err == nil && strings.TrimSpace(unit) != "" {
			return strings.Fields(unit)[0]
		}
	}
	return ""
}

// price says what stands in for a value and what that costs.
func (w *walker) price(c *Control, p spot) {
	key := p.field[strings.LastIndex(p.field, ".")+1:]
	above := strings.TrimSuffix(p.field, "."+key)
	for _, field := range []string{above + " " + key, p.field, lineField(p)} {
		if a, ok := w.taken[field]; ok {
			price := a.PlusMinusDB
			c.Taken, c.Price = said.Plain(a.Value+" ("+a.Source+")"), &price
			return
		}
	}
}

// lineField is how defaults of a line are remembered here: engine and key of an element.
func lineField(p spot) string {
	_, rest, _ := strings.Cut(p.at, "/line/")
	if t := strings.SplitN(rest, "/", 3); len(t) == 3 {
		return "line " + p.part + " " + strings.ReplaceAll(t[2], "/", " ")
	}
	return ""
}

// lines takes what was filled in for lines, "layouts.WHERE.ENGINE.line: KEY of KIND NAME, ...", apart; those of the shown layout first.
func (w *walker) lines(taken []source.Assumption) {
	own := "layouts." + w.layout
	for _, mine := range []bool{true, false} {
		for _, a := range taken {
			where, what, ok := strings.Cut(a.Field, ".line: ")
			if !ok || strings.HasPrefix(where, own) != mine {
				continue
			}
			key, parts, _ := strings.Cut(what, " of ")
			for _, part := range strings.Split(parts, ", ") {
				if _, known := w.taken["line "+part+" "+key]; !known {
					w.taken["line "+part+" "+key] = a
				}
			}
		}
	}
}

// namesFrom are the sections that keys name an entry of.
var namesFrom = map[string]string{"in": "spaces", "enclosure": "enclosures", "listener": "listeners", "quote": "quotes", "like": "layouts", "layout": "layouts"}

// names are those that a key may hold.
func (w *walker) names(p spot) (out []string) {
	section, ok := namesFrom[p.label]
	if !ok {
		return nil
	}
	_, v := w.root.Find(section)
	if v == nil {
		return nil
	}
	for _, k := range v.Keys {
		out = append(out, k.Text)
	}
	for _, item := range v.Items {
		out = append(out, textAt(item, "name"))
	}
	if section == "spaces" {
		out = append(out, "outside")
	}
	return out
}
