package structure

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"hushwake/source/spectrum"
)

// Bridges are what leads past the mounts; "none" where there is no such part.
type Bridges struct {
	Shaft, Exhaust, Pipes string
}

// None says that nothing of the kind leads past the mounts.
const None = "none"

// BridgeKinds lists what a part may be: shaft, exhaust or pipes.
func BridgeKinds(part string) []string {
	var out []string
	for k := range shares[part] {
		out = append(out, k)
	}
	sort.Strings(out)
	if part != "pipes" {
		out = append(out, None)
	}
	return out
}

// bridge is one of them with its share of the power that rigid feet would pass.
type bridge struct {
	part, kind string
	db         float64
}

// list is the bridges there are, the largest share first.
func (b Bridges) list() (out []bridge) {
	for _, p := range [][2]string{{"shaft", b.Shaft}, {"exhaust", b.Exhaust}, {"pipes", b.Pipes}} {
		if db, ok := shares[p[0]][p[1]]; ok {
			out = append(out, bridge{p[0], p[1], db})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].db > out[j].db })
	return out
}

// Share is the part of the rigid power that all bridges pass, 0 to 1.
func (b Bridges) Share() (sum float64) {
	for _, x := range b.list() {
		sum += spectrum.Power(x.db)
	}
	return sum
}

// Largest names the part that passes most: shaft, exhaust or pipes; "" where nothing does.
func (b Bridges) Largest() string {
	if all := b.list(); len(all) > 0 {
		return all[0].part
	}
	return ""
}

// Text names the bridges with their shares.
func (b Bridges) Text() string {
	var out []string
	for _, x := range b.list() {
		out = append(out, fmt.Sprintf("%s %s %.0f dB", x.part, x.kind, x.db))
	}
	if len(out) == 0 {
		return "nothing"
	}
	return strings.Join(out, ", ")
}

func (b Bridges) check() error {
	for _, p := range [][2]string{{"shaft", b.Shaft}, {"exhaust", b.Exhaust}, {"pipes", b.Pipes}} {
		if _, ok := shares[p[0]][p[1]]; !ok && p[1] != None {
			return fmt.Errorf("%s %q is not known\nhint: %s", p[0], p[1], strings.Join(BridgeKinds(p[0]), ", "))
		}
	}
	return nil
}

// Bridged is what is left of the mounts' insertion loss with the bridges beside them, dB:
// -10 lg(t + (1 - t) b), t = 10^(-IL/10). Where the mounts bring nothing the bridges take nothing.
func (b Bridges) Bridged(il spectrum.Bands) spectrum.Bands {
	share := b.Share()
	for i, v := range il {
		if t := spectrum.Power(-v); t < 1 {
			il[i] = -10 * math.Log10(t+(1-t)*math.Min(share, 1))
		}
	}
	return il
}
