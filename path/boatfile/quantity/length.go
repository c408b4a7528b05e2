package quantity

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path/boatfile/spelling"
	"hushwake/source/said"
)

// compoundLength reads lengths that are more than one number and one unit: 5 ft 3 in, 5' 3", and
// nominal pipe such as 5 in sch 40 or 2 in BSP. ok is false when the text is no such thing.
func compoundLength(s string) (q Quantity, ok bool, err error) {
	if q, ok, err := nominalPipe(s); ok || err != nil {
		return q, ok, err
	}
	t := spelled(s)
	value, rest, err := LeadingNumber(t)
	if err != nil {
		return Quantity{}, false, nil // reported by the ordinary reading
	}
	rest = strings.TrimLeft(rest, " \t")
	inches, isFeet := cutUnit(rest, "feet", "foot", "ft", "'")
	inches = strings.TrimLeft(inches, " \t.")
	if !isFeet || inches == "" || strings.HasPrefix(inches, "/") || !strings.ContainsAny(inches[:1], "0123456789") {
		return Quantity{}, false, nil
	}
	small, rest, err := LeadingNumber(inches)
	if err != nil {
		return Quantity{}, true, err
	}
	after, isInch := cutUnit(strings.TrimLeft(rest, " \t"), "inches", "inch", "in", "\"", "''")
	if !isInch || strings.TrimSpace(after) != "" {
		return Quantity{}, true, Bad("write 5 ft 3 in, or 5' 3\"", "%q is no length in feet and inches", spelling.Clip(s))
	}
	if small >= 12 {
		return Quantity{}, true, Bad(fmt.Sprintf("write %g ft %g in", value+math.Floor(small/12), math.Mod(small, 12)), "%q holds twelve inches or more beside the feet", spelling.Clip(s))
	}
	if strings.HasPrefix(strings.TrimSpace(t), "-") {
		small = -small
	}
	q, err = finish(value*foot+small*inch, unit{"ft", Length, 1, 0, ""}, s)
	return q, true, err
}

// cutUnit takes one of the names off the front.
func cutUnit(s string, names ...string) (string, bool) {
	for _, n := range names {
		if len(s) >= len(n) && strings.EqualFold(s[:len(n)], n) {
			return s[len(n):], true
		}
	}
	return s, false
}

// pipeSize is one nominal size: outside diameter and wall by schedule, in; 0 = not made.
type pipeSize struct {
	nominal, outside     float64
	sch10s, sch40, sch80 float64
}

// Steel pipe by nominal size (ASME B36.10M schedules 40 and 80, B36.19M schedule 10S), from memory.
var pipeSizes = []pipeSize{
	{0.125, 0.405, 0.049, 0.068, 0.095}, {0.25, 0.540, 0.065, 0.088, 0.119}, {0.375, 0.675, 0.065, 0.091, 0.126}, {0.5, 0.840, 0.083, 0.109, 0.147},
	{0.75, 1.050, 0.083, 0.113, 0.154}, {1, 1.315, 0.109, 0.133, 0.179}, {1.25, 1.660, 0.109, 0.140, 0.191}, {1.5, 1.900, 0.109, 0.145, 0.200},
	{2, 2.375, 0.109, 0.154, 0.218}, {2.5, 2.875, 0.120, 0.203, 0.276}, {3, 3.500, 0.120, 0.216, 0.300}, {3.5, 4.000, 0.120, 0.226, 0.318},
	{4, 4.500, 0.120, 0.237, 0.337}, {5, 5.563, 0.134, 0.258, 0.375}, {6, 6.625, 0.134, 0.280, 0.432}, {8, 8.625, 0.148, 0.322, 0.500},
	{10, 10.750, 0.165, 0.365, 0.594}, {12, 12.750, 0.180, 0.406, 0.688}, {14, 14.000, 0.188, 0.438, 0.750}, {16, 16.000, 0.188, 0.500, 0.844},
	{18, 18.000, 0.188, 0.562, 0.938}, {20, 20.000, 0.218, 0.594, 1.031}, {24, 24.000, 0.250, 0.688, 1.219},
}

// Bores of threaded pipe by its nominal size in inches, mm: medium series of EN 10255, from memory.
var bspBores = map[float64]float64{0.25: 8.9, 0.375: 12.5, 0.5: 16.1, 0.75: 21.7, 1: 27.3, 1.25: 36.0, 1.5: 41.9, 2: 53.1, 2.5: 68.9, 3: 80.9, 4: 105.3, 5: 129.7, 6: 155.1}

// nominalPipe reads "5 in sch 40" and "2 in BSP" as the real bore.
func nominalPipe(s string) (Quantity, bool, error) {
	low := strings.ToLower(spelled(s))
	value, rest, err := LeadingNumber(low)
	if err != nil {
		return Quantity{}, false, nil
	}
	rest, isInch := cutUnit(strings.TrimSpace(rest), "inches", "inch", "in", "\"")
	words := strings.Fields(strings.ReplaceAll(strings.ReplaceAll(rest, "sch.", "sch "), "-", " "))
	if !isInch || len(words) == 0 {
		return Quantity{}, false, nil
	}
	switch {
	case words[0] == "bsp" || words[0] == "bspt" || words[0] == "bspp":
		return bspPipe(value, s)
	case words[0] == "sch" || words[0] == "schedule" || words[0] == "nps" || strings.HasPrefix(words[0], "sch"):
		return schedulePipe(value, strings.TrimPrefix(strings.TrimPrefix(strings.Join(words, ""), "schedule"), "sch"), s)
	}
	return Quantity{}, false, nil
}

func bspPipe(size float64, s string) (Quantity, bool, error) {
	bore, ok := bspBores[size]
	if !ok {
		return Quantity{}, true, Bad("give the real bore, such as 53.1 mm", "%q: no such threaded pipe in the table", spelling.Clip(s))
	}
	return Quantity{Value: bore / 1000, Dim: Length, Text: s, Unit: "in BSP",
		Note: said.Textf("a bore of {%.1f mm} (threaded pipe, medium series of EN 10255, from memory)", bore)}, true, nil
}

func schedulePipe(size float64, schedule, s string) (Quantity, bool, error) {
	for _, p := range pipeSizes {
		if p.nominal != size {
			continue
		}
		walls := map[string]float64{"40": p.sch40, "80": p.sch80, "10s": p.sch10s}
		if p.nominal <= 8 { // above, the stainless schedules 40S and 80S part from 40 and 80
			walls["40s"], walls["80s"] = p.sch40, p.sch80
		}
		wall := walls[schedule]
		if wall == 0 {
			return Quantity{}, true, Bad("schedules 10S, 40 and 80 are known; or give the real bore", "%q: unknown schedule %q", spelling.Clip(s), spelling.Clip(schedule))
		}
		bore := (p.outside - 2*wall) * inch
		return Quantity{Value: bore, Dim: Length, Text: s, Unit: "in sch " + schedule,
			Note: said.Textf("a bore of {%.1f mm} (ASME B36.10M, from memory)", bore*1000)}, true, nil
	}
	return Quantity{}, true, Bad("give the real bore, such as 128.2 mm", "%q: no such nominal pipe size", spelling.Clip(s))
}
