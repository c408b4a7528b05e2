package quantity

import (
	"fmt"
	"slices"
	"strings"

	"hushwake/path/boatfile/spelling"
)

func parseFigure(text string, dims ...Dim) (Quantity, error) {
	s := strings.TrimSpace(text)
	if len(s) > 120 {
		return Quantity{}, Bad("", "%q is too long for a quantity", spelling.Clip(s))
	}
	if wants(dims, Length) {
		if q, ok, err := compoundLength(s); ok || err != nil {
			return q, err
		}
	}
	if wants(dims, Area) {
		if q, ok, err := openingArea(s); ok || err != nil {
			return q, err
		}
	}
	value, rest, err := LeadingNumber(s)
	if err != nil {
		return Quantity{}, err
	}
	name := normalUnit(rest)
	if name == "" {
		return bareNumber(value, s, dims)
	}
	return withUnit(value, name, s, dims)
}

func wants(dims []Dim, d Dim) bool {
	for _, w := range dims {
		if w == d {
			return true
		}
	}
	return false
}

// kindsWanted words what fits, with units.
func KindsWanted(dims []Dim) string {
	var parts []string
	for _, d := range dims {
		parts = append(parts, d.Phrase()+" such as "+d.Example())
	}
	return strings.Join(parts, ", or ")
}

func bareNumber(value float64, text string, dims []Dim) (Quantity, error) {
	if wants(dims, Number) {
		return Quantity{Value: value, Dim: Number, Text: text}, nil
	}
	return Quantity{}, Bad(bareHint(text, dims), "%q has no unit; %s fits", spelling.Clip(text), KindsWanted(dims))
}

func bareHint(text string, dims []Dim) string {
	if len(dims) == 0 {
		return ""
	}
	names := UnitNames(dims[0])
	if v, _, err := LeadingNumber(text); dims[0] == Fraction && err == nil && v <= 1 {
		return fmt.Sprintf("write %g %% if that is what was meant", 100*v)
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("write %s %s if that is what was meant; units: %s", text, names[0], strings.Join(names, ", "))
}

func withUnit(value float64, name, text string, dims []Dim) (Quantity, error) {
	found := lookUnit(name)
	for _, d := range dims {
		for _, u := range found {
			if u.dim == d {
				return finish(value, u, text)
			}
		}
	}
	if len(found) > 0 {
		return Quantity{}, Bad(weightingHint(text, found[0], dims), "%q is %s; %s fits", spelling.Clip(text), found[0].dim.Phrase(), KindsWanted(dims))
	}
	return Quantity{}, unknownUnit(name, text, dims)
}

// weightingHint asks for the weighting that a bare dB leaves open, and for the degrees that are meant.
func weightingHint(text string, u unit, dims []Dim) string {
	if v, _, err := LeadingNumber(text); u.dim == Angle && wants(dims, Temperature) && err == nil {
		return fmt.Sprintf("write %g °C, or %g °F, whichever is meant", v, v)
	}
	if u.dim == Level && (wants(dims, LevelA) || wants(dims, LevelC)) {
		return fmt.Sprintf("dB alone leaves the weighting open; write %sA if it is dB(A)", strings.ReplaceAll(text, " (", "("))
	}
	return "write " + KindsWanted(dims)
}

func unknownUnit(name, text string, dims []Dim) error {
	var names []string
	for _, d := range dims {
		names = append(names, slices.Sorted(slices.Values(Spellings(d)))...)
	}
	hint := ""
	if near := spelling.Nearest(name, names); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	} else if len(dims) > 0 {
		hint = "units: " + strings.Join(UnitNames(dims[0]), ", ")
	}
	return Bad(hint, "unknown unit %q in %q; %s fits", spelling.Clip(name), spelling.Clip(text), KindsWanted(dims))
}
