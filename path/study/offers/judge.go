// Package offers brings makers' quotes to one basis, says what they leave open, and ranks those that can be judged.
package offers

import (
	"fmt"
	"math"
	"strings"

	"hushwake/path"
	"hushwake/source/said"
	"hushwake/source/spectrum"
)

// Judge brings an offer to the duty and says what is missing to judge it.
func Judge(q path.Quote, d Duty) Judged {
	j := Judged{Name: q.Name, Judgeable: true}
	var why []string
	why = append(why, j.sound(q, d)...)
	why = append(why, j.pressure(q, d)...)
	j.prices(q)
	j.otherQuestions(q, d)
	if len(why) > 0 {
		j.Judgeable = false
		j.Verdict = fmt.Sprintf("%s can't be judged as quoted because %s.", q.Name, strings.Join(why, ", and "))
		return j
	}
	j.Verdict = fmt.Sprintf("%s can be judged: %s; %s.", q.Name, j.LossBasis, j.DropBasis)
	return j
}

// sound reads what the offer says of the noise; it gives the reasons why that can't be judged.
func (j *Judged) sound(q path.Quote, d Duty) (why []string) {
	switch {
	case q.InsertionLoss != nil:
		j.octaves(q, d)
	case q.Level != nil:
		why = j.promised(q, d)
	case q.Overall != nil:
		j.overall(q, d)
	default:
		why = append(why, claimReason(q))
		j.question("Insertion loss in the octave bands 31.5 Hz to 8 kHz, and the test it comes from?")
	}
	j.claim(q)
	if q.Test == "" && (q.InsertionLoss != nil || q.Overall != nil) {
		j.question("Measured or calculated, by which test, with hot flow or without? (A standard for exhaust silencers exists.)")
	}
	return why
}

// claim asks what a claim means: a figure at one frequency, a figure without octaves, or a grade word.
func (j *Judged) claim(q path.Quote) {
	switch {
	case q.Claim == "":
	case hasFigures(q.Claim) && strings.Contains(q.Claim, "Hz"):
		j.question(fmt.Sprintf("\"%s\" is one frequency only: what is the loss in the other octaves, above all at 125 Hz and below?", q.Claim))
	default:
		j.question(fmt.Sprintf("What does \"%s\" mean in octave losses? Grade words follow no standard and differ from maker to maker.", q.Claim))
	}
}

func hasFigures(s string) bool { return strings.ContainsAny(s, "0123456789") }

func claimReason(q path.Quote) string {
	switch {
	case q.Claim == "":
		return "it states no loss of sound at all"
	case hasFigures(q.Claim):
		return fmt.Sprintf("its claim (\"%s\") does not say in which octaves, so that no loss can be reckoned from it", q.Claim)
	}
	return fmt.Sprintf("it names a grade (\"%s\"), which is no figure of loss", q.Claim)
}

func (j *Judged) octaves(q path.Quote, d Duty) {
	b := *q.InsertionLoss
	j.Loss, j.LossBasis = &b, "octave losses as stated"
	if d.Unsilenced != nil {
		v := d.Unsilenced.DBA() - d.Unsilenced.Minus(b).DBA()
		j.LossDBA = &v
		j.LossBasis += fmt.Sprintf(", %.0f dB(A) on %s exhaust", v, d.whose("this"))
	}
	for i, v := range b {
		switch {
		case v > 50:
			j.question(fmt.Sprintf("%.0f dB at %g Hz is more than is usually left in place after flanking and flow noise: measured how?", v, spectrum.Nominal[i]))
		case v < 0:
			j.question(fmt.Sprintf("The loss at %g Hz is negative: is that meant?", spectrum.Nominal[i]))
		}
	}
}

func (j *Judged) overall(q path.Quote, d Duty) {
	v := *q.Overall
	j.LossDBA = &v
	j.LossBasis = fmt.Sprintf("one overall figure of %.0f dB, spread over the octaves by us, so with a wide band", v)
	j.question("The octave losses behind the overall figure, and the spectrum it was reckoned with? One figure holds for one engine only.")
	if d.Unsilenced != nil && lowShare(*d.Unsilenced) > 0.5 {
		j.Warnings = append(j.Warnings, q.Name+": most of this exhaust's energy lies at 125 Hz and below, where silencers do least; an overall figure may flatter")
	}
}

// lowShare is the part of the energy at 125 Hz and below.
func lowShare(b spectrum.Bands) float64 {
	return spectrum.Power(spectrum.Sum(b[:3]...) - b.Total())
}

// promised turns a level at a distance into the loss it takes: Lw - 10 lg(4 pi r^2) in the free field.
func (j *Judged) promised(q path.Quote, d Duty) (why []string) {
	l := *q.Level
	if l.Distance <= 0 {
		j.question("At which distance and angle from the outlet does the promised level hold?")
		return []string{"it promises a level without a distance"}
	}
	if !l.AngleOK {
		j.question("At which angle to the outlet's axis does the promised level hold?")
	}
	if l.Load == "" {
		j.question("At which load and speed does the promised level hold, and with which background?")
	}
	j.question("Octave losses as well: a level at one place depends on the engine it was taken on.")
	j.LossBasis = said.Textf("a level of %.0f dB(A) at {%g m}", l.Level, l.Distance)
	if d.Unsilenced == nil {
		return nil
	}
	v := d.promisedOf(l.Load).DBA() - 10*math.Log10(4*math.Pi*l.Distance*l.Distance) - l.Level
	j.LossDBA = &v
	j.LossBasis += fmt.Sprintf(", which on %s exhaust takes %.0f dB(A) of loss", d.whose("this"), v)
	if v < 0 {
		j.Warnings = append(j.Warnings, fmt.Sprintf("%s: the promised level is above the unsilenced one: the distance or the load can't be right", q.Name))
	}
	return nil
}

// promisedOf is the spectrum that a promise of a level is about: full load unless it says part load.
func (d Duty) promisedOf(load string) spectrum.Bands {
	for _, word := range []string{"part", "cruise", "half", "idle", "running"} {
		if d.AtRated == nil || strings.Contains(strings.ToLower(load), word) {
			return *d.Unsilenced
		}
	}
	return *d.AtRated
}

// prices adds the extras up.
func (j *Judged) prices(q path.Quote) {
	if j.Price = q.Price; q.Price == nil {
		j.question("The price, what it includes, and how long it holds?")
		return
	}
	total := *q.Price
	for _, e := range q.Extras {
		if e.Price == nil {
			j.UnpricedExtras = append(j.UnpricedExtras, e.What)
			continue
		}
		total += *e.Price
	}
	j.Total = &total
	if len(j.UnpricedExtras) > 0 {
		j.question("The price of: " + strings.Join(j.UnpricedExtras, ", ") + "?")
	}
}

// usualParts that an offer should name as included or extra (common practice).
var usualParts = []string{"flanges", "gaskets", "lagging", "brackets"}

// otherQuestions asks for what else an order needs.
func (j *Judged) otherQuestions(q path.Quote, d Duty) {
	named := strings.ToLower(strings.Join(q.Includes, " "))
	for _, e := range q.Extras {
		named += " " + strings.ToLower(e.What)
	}
	var open []string
	for _, p := range usualParts {
		if !strings.Contains(named, strings.TrimSuffix(p, "s")) {
			open = append(open, p)
		}
	}
	if len(open) > 0 {
		j.question("Included or extra: " + strings.Join(open, ", ") + "?")
	}
	var sizes []string
	for _, s := range []struct {
		name    string
		missing bool
	}{{"length", q.Length == 0}, {"outer diameter", q.Diameter == 0}, {"bore of the ports", q.Bore == 0}, {"mass", q.Mass == nil}} {
		if s.missing {
			sizes = append(sizes, s.name)
		}
	}
	if len(sizes) > 0 {
		j.question("Dimensions: " + strings.Join(sizes, ", ") + "?")
	}
	if q.LeadTime == "" {
		j.question("Delivery time?")
	}
	if q.Bore > 0 && d.Bore > 0 && math.Abs(q.Bore-d.Bore) > 0.05*d.Bore {
		j.Warnings = append(j.Warnings, said.Textf("%s: its ports of {%.0f mm} do not match the pipe of {%.0f mm}: adapters cost loss and money", q.Name, 1000*q.Bore, 1000*d.Bore))
	}
}
