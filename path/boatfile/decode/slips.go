package decode

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"hushwake/path/boatfile/quantity"
	"hushwake/path/boatfile/spelling"
)

var (
	noBlank = regexp.MustCompile(`^(\s*(?:- +)?)([A-Za-z][A-Za-z_ ]*):([^\s/].*?)\s*$`)
	// GluedKey is a key with no blank between its colon and its value.
	GluedKey   = regexp.MustCompile(`^([a-z][a-z_]*):(\S.*)$`)
	tabbed     = regexp.MustCompile(`^ *\t`)
	badStart   = regexp.MustCompile("(?:: +|- +|[\\[{,] *)([>?%@`|][^,}\\]]*)")
	twoColons  = regexp.MustCompile(`^(\s*(?:- +)?[A-Za-z][A-Za-z_ ]*: +)([^"'{\[#]*[^\s"'{\[#]: .*?)\s*(?: #.*)?$`)
	flowColons = regexp.MustCompile(`[{,] *[A-Za-z][A-Za-z_ ]*: +([^\s"'{\[\]},#:]+: +[^"'{\[\]},#:]*[^\s"'{\[\]},#:]) *[,}]`)
	wholeText  = regexp.MustCompile(`^[-+]?\d+$`)
	startsAs   = regexp.MustCompile(`^\d+( *[^\d\s].*)?$`)
	gluedSizes = regexp.MustCompile(`^(\S+ *[A-Za-z"']+) +([-+]?\d.*)$`)
)

// slipNear looks at the lines round a syntax error for the slips that people make, so that the cause is said and not
// what the YAML reader stumbled over later.
func slipNear(data []byte, p Problem) Problem {
	lines := strings.Split(string(data), "\n")
	for i := min(p.Line, len(lines)); i > 0 && i >= p.Line-2; i-- {
		if q, ok := slipIn(strings.TrimRight(lines[i-1], "\r"), i); ok {
			return q
		}
	}
	return p
}

func slipIn(line string, n int) (Problem, bool) {
	at := func(bytes int, hint, format string, args ...any) (Problem, bool) {
		return Problem{Line: n, Column: utf8.RuneCountInString(line[:bytes]) + 1, Message: fmt.Sprintf(format, args...), Hint: hint}, true
	}
	if tabbed.MatchString(line) {
		return at(0, "indent with blanks, not tabs", "a tab indents this line")
	}
	if m := noBlank.FindStringSubmatchIndex(line); m != nil {
		text, value := line[m[4]:m[7]], line[m[6]:m[7]]
		return at(m[4], "write "+line[m[4]:m[5]]+": "+value, "no blank behind the colon of %q", spelling.Clip(text))
	}
	if m := badStart.FindStringSubmatchIndex(line); m != nil {
		text := strings.TrimSpace(line[m[2]:m[3]])
		return at(m[2], startHint(text), "%q begins with a sign that YAML keeps for itself", spelling.Clip(text))
	}
	m := twoColons.FindStringSubmatchIndex(line)
	if m == nil { // in braces; several words before the colon are rather two values without their comma
		m = flowColons.FindStringSubmatchIndex(line)
	}
	if n := len(m); n > 0 {
		text := line[m[n-2]:m[n-1]]
		return at(m[n-2], fmt.Sprintf("write %q", text), "%q holds a colon and a blank; such a text needs quotes", spelling.Clip(text))
	}
	return Problem{}, false
}

// startHint says how a text is written that begins with a sign of YAML's own.
func startHint(text string) string {
	figure, says := quantity.Hedged(text)
	switch {
	case text == "?":
		return "write unknown"
	case says == quantity.AtLeast && figure != "":
		return "write at least " + figure
	}
	return fmt.Sprintf("write %q", text)
}

// unglue parts "cylinders:6" of a mapping in braces, which YAML takes for a key without a value.
func (b *builder) unglue(k, v *Node) (*Node, *Node) {
	m := GluedKey.FindStringSubmatch(k.Text)
	if m == nil || v.Kind != Null {
		return k, v
	}
	b.problems = append(b.problems, Problem{Line: k.Line, Column: k.Column, Message: fmt.Sprintf("no blank behind the colon of %q", spelling.Clip(k.Text)), Hint: "write " + m[1] + ": " + m[2]})
	return &Node{Text: m[1], Line: k.Line, Column: k.Column}, &Node{Text: m[2], Line: k.Line, Column: k.Column + len(m[1]) + 1}
}

// joined puts a figure with a decimal comma together again, which YAML takes apart inside brackets: nothing stands
// between the two parts but the comma.
func joined(before, next *Node) (*Node, bool) {
	if before == nil || next == nil || before.Kind != Scalar || next.Kind != Scalar || before.Line != next.Line ||
		next.Column != before.Column+utf8.RuneCountInString(before.Text)+1 || !wholeText.MatchString(before.Text) {
		return nil, false
	}
	m := startsAs.FindStringSubmatch(next.Text)
	if m == nil || m[1] == "" || strings.EqualFold(strings.TrimSpace(m[1]), "dB") {
		return nil, false
	}
	return &Node{Text: before.Text + "," + next.Text, Line: before.Line, Column: before.Column}, true
}

// glued says that a list lacks a comma between two sizes.
func (r *Reader) glued(items []*Node, what string) bool {
	for _, item := range items {
		if m := gluedSizes.FindStringSubmatch(item.Text); m != nil && item.Kind == Scalar {
			_, first := quantity.Parse(m[1], quantity.Length)
			if _, all := quantity.Parse(item.Text, quantity.Length); first == nil && all != nil {
				r.Wrong(item, "write "+m[1]+", "+m[2], "%s: a comma is missing in %q", what, spelling.Clip(item.Text))
				return true
			}
		}
	}
	return false
}

// otherWords are what people write for the words of the file.
var otherWords = map[string]string{
	"4-stroke": "four-stroke", "4 stroke": "four-stroke", "4stroke": "four-stroke", "4": "four-stroke", "four": "four-stroke", "2-stroke": "two-stroke", "2 stroke": "two-stroke", "2stroke": "two-stroke", "2": "two-stroke", "two": "two-stroke",
	"none": "natural", "no": "natural", "naturally aspirated": "natural", "na": "natural", "n/a": "natural", "turbo": "turbocharged", "turbocharger": "turbocharged", "roots": "blower", "supercharged": "blower",
	"v": "vee", "straight": "inline", "in line": "inline", "gasoline": "petrol", "gasolene": "petrol", "gas oil": "diesel", "lpg": "gas", "backward": "aft", "back": "aft", "astern": "aft", "ahead": "forward", "left": "port", "right": "starboard", "upwards": "up", "vertical": "up", "transom": "aft",
	"fibreglass": "grp", "fiberglass": "grp", "glass fibre": "grp", "gfrp": "grp", "frp": "grp", "plastic": "grp", "plywood": "wood", "timber": "wood", "aluminum": "aluminium", "alloy": "aluminium",
	"rusty": "old", "rusted": "old", "worn": "old", "burnt through": "holed", "leaking": "holed", "dirty": "sooted", "clogged": "sooted",
	"muffler": "silencer", "exhaust silencer": "silencer", "waterlock": "lift_chamber", "water_lift": "lift_chamber", "waterlift": "lift_chamber", "bend": "elbow", "expansion_chamber": "chamber", "resonator": "side_branch", "flex": "bellows", "reducer": "cone", "diffuser": "cone", "tube": "pipe", "reactive": "baffled", "absorptive": "packed", "absorption": "packed", "glass pack": "packed",
	"generator": "constant-speed", "constant": "constant-speed", "prop": "propeller", "fixed pitch propeller": "propeller", "fixed pitch": "propeller", "fixed": "rigid", "bolted": "rigid", "hard": "rigid", "flexible": "soft", "in": "inlet", "intake": "inlet", "exhaust": "outlet", "out": "outlet",
}

// Meant words the hint for a word that is not known.
func Meant(word string, allowed []string) string {
	other := otherWords[strings.ToLower(strings.TrimSpace(word))]
	if slices.Contains(allowed, other) {
		return "write " + other
	}
	if other == "silencer" && slices.Contains(allowed, "baffled") {
		return "write unknown, or what its inside is: " + Listed(allowed)
	}
	return spelling.DidYouMean(word, allowed)
}

// otherKeys are what people call the keys of the file; the first that the place knows is meant.
var otherKeys = map[string][]string{
	"back_pressure": {"pressure_drop", "back_pressure_limit"}, "backpressure": {"pressure_drop", "back_pressure_limit"}, "pressure_loss": {"pressure_drop"}, "loss": {"pressure_drop"}, "attenuation": {"insertion_loss"}, "noise_reduction": {"insertion_loss"}, "reduction": {"insertion_loss"},
	"exhaust": {"exhausts"}, "weight": {"mass"}, "cost": {"price"}, "diameter": {"bore"}, "id": {"bore"}, "width": {"bore"}, "position": {"at"}, "location": {"at"}, "place": {"at"}, "space": {"in"}, "room": {"in"}, "thickness": {"wall"}, "direction": {"pointing", "facing"}, "material": {"build_up"}, "layers": {"build_up"}, "construction": {"build_up"},
	"max_back_pressure": {"back_pressure_limit"}, "rpm": {"speed"}, "hp": {"power"}, "kw": {"power"}, "strokes": {"cycle"}, "stroke": {"cycle"}, "turbo": {"aspiration"}, "dimensions": {"size"}, "delivery": {"lead_time"}, "insulation": {"lagging"}, "lagged": {"lagging"}, "gap": {"open_area"}, "delta_p": {"pressure_drop"}, "temp": {"temperature"}, "uncertainty": {"plus_minus"},
	"top": {"roof"}, "ceiling": {"roof"}, "deckhead": {"roof"}, "bottom": {"floor"}, "sole": {"floor"}, "left": {"port"}, "right": {"starboard"}, "front": {"forward"}, "bow": {"forward"}, "back": {"aft"}, "rear": {"aft"}, "stern": {"aft"},
}

// meantKey words the hint for a key that is not known.
func meantKey(key string, allowed, have []string) string {
	for _, other := range otherKeys[strings.ToLower(strings.ReplaceAll(strings.TrimSpace(key), " ", "_"))] {
		if slices.Contains(allowed, other) && !slices.Contains(have, other) {
			return "did you mean \"" + other + "\"?"
		}
	}
	return spelling.DidYouMean(key, allowed)
}

// usualUnit is the unit that a length is most likely meant in where it stands without one: places and rooms in metres,
// small bores in inches, else millimetres.
func usualUnit(what string, v float64) string {
	words := strings.Fields(strings.TrimSpace(what))
	if len(words) == 0 {
		return "mm"
	}
	switch key := words[len(words)-1]; {
	case slices.Contains([]string{"at", "size", "from", "to", "length", "rise", "height", "distance", "rooms", "hatch"}, key) && v > -30 && v < 30:
		return "m"
	case key == "bore" && v >= 1 && v <= 12:
		return "in"
	}
	return "mm"
}
