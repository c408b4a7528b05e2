package advice

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hushwake/path/study/draws"
	"hushwake/source/spectrum"
)

// Advice is what to do.
type Advice struct {
	Layout    string   // "" where nothing can be advised
	Same      []string // layouts that nobody tells from it anywhere
	Mend      bool     // an engine lacks air or grows too hot in its box: that is mended first
	Open      bool     // a layout leaves slots open: nothing is to be taken before they are filled
	Sentences []string
	Firm      int // of the sentences, up to the limits that the choice stays over: these are never cut
}

// Text is the advice in one paragraph.
func (a Advice) Text() string { return strings.Join(a.Sentences, " ") }

// Advise says which layout to take, which sound the same, what the next dearer one buys, and what the
// choice costs at other seats. Seats count by their hours and limits; the first is spoken of first.
func Advise(all []Choice, seats []Seat, first int, currency string) Advice {
	all = known(all)
	gs := groups(all, seats)
	if len(gs) == 0 {
		return Advice{Sentences: append([]string{"Nothing can be advised: every layout of the file " + outText(all) + "."}, open(all)...)}
	}
	take, cheaper, dearer := choose(gs, seats)
	a := Advice{Layout: take[0].Layout}
	for _, c := range take[1:] {
		a.Same = append(a.Same, c.Layout)
	}
	a.Sentences = open(all)
	a.Open = len(a.Sentences) > 0
	s := speech{all: all, seats: seats, first: first, currency: currency}
	if text := s.mend(take[0]); text != "" {
		a.Sentences, a.Mend = append(a.Sentences, text), true
	}
	a.Firm = len(a.Sentences) + 1
	if s.limitsExceeded(take[0]) != "" {
		a.Firm++
	}
	a.Sentences = append(a.Sentences, s.take(take, a.Open)...)
	if text := s.safer(take[0]); text != "" {
		a.Sentences = slices.Insert(a.Sentences, a.Firm, text)
		a.Firm++
	}
	if unmoved := s.unmoved(gs); unmoved != "" {
		a.Sentences = slices.Insert(a.Sentences, a.Firm+1, unmoved)
	}
	if text := s.stepped(cheaper, take); text != "" {
		a.Sentences = append(a.Sentences, text)
	}
	if text := s.dearer(take, dearer); text != "" {
		a.Sentences = append(a.Sentences, text)
	}
	if text := s.tradeoff(take[0], gs); text != "" {
		a.Sentences = append(a.Sentences, text)
	}
	return a
}

// outText says why no layout can be advised.
func outText(all []Choice) string {
	asked := 0
	for _, c := range all {
		if c.Asked {
			asked++
		}
	}
	switch asked {
	case 0:
		return "is refused"
	case len(all):
		return "has to be asked about first"
	}
	return "is refused or has to be asked about first"
}

// safer names the cheapest layout that is without a danger of the choice, brings no other and is nowhere heard to be louder.
func (s speech) safer(c Choice) string {
	var best Choice
	for _, o := range s.all {
		if o.Out || len(without(c.Dangers, o.Dangers)) == 0 || len(without(o.Dangers, c.Dangers)) > 0 || o.harm() > c.harm() || o.Cooked && !c.Cooked {
			continue
		}
		louder := false
		for seat := range s.seats {
			louder = louder || !Same(o, c, seat) && median(o, seat) > median(c, seat)
		}
		if !louder && (best.Layout == "" || (group{o}).price() < (group{best}).price()) {
			best = o
		}
	}
	if best.Layout == "" {
		return ""
	}
	text, lower := quoted(best.Layout), without(c.Dangers, best.Dangers)
	if away := without(lower, best.Lesser); len(away) > 0 {
		text, lower = text+" takes a danger away: "+Listed(away), without(lower, away)
	}
	if len(lower) > 0 {
		text += " lessens a danger but keeps it: " + Listed(lower)
	}
	if more := (group{best}).price() - (group{c}).price(); more > 0 && !math.IsInf(more, 0) {
		text = fmt.Sprintf("For %.0f %s more ", more, s.currency) + text
	}
	return text + "."
}

// without are those of a that are not in b.
func without(a, b []string) []string {
	return slices.DeleteFunc(slices.Clone(a), func(d string) bool { return slices.Contains(b, d) })
}

// open tells of the layouts that leave slots open what fills them.
func open(all []Choice) (sentences []string) {
	for _, c := range all {
		if c.Slots != "" {
			sentences = append(sentences, fmt.Sprintf("%s has open slots: %s searches what to put into them.", quoted(c.Layout), c.Slots))
		}
	}
	return sentences
}

// speech is what the sentences are told from.
type speech struct {
	all      []Choice
	seats    []Seat
	first    int
	currency string
}

// unmoved names the seats at which no layout changes what one hears.
func (s speech) unmoved(gs []group) string {
	var names []string
	count := 0
	for seat := range s.seats {
		same := true
		count = 0
		for _, g := range gs {
			for _, c := range g {
				same = same && Same(c, gs[0][0], seat)
				count++
			}
		}
		if same {
			names = append(names, s.seats[seat].Name)
		}
	}
	if len(names) == 0 || count < 2 {
		return ""
	}
	return fmt.Sprintf("At %s no layout of the file changes what one hears.", Listed(names))
}

// take says what to take, or what comes first of the whole ones where another has open slots, how loud it is against
// today and why it; which limits it stays over; and how sure that is.
func (s speech) take(g group, open bool) []string {
	c, what := g[0], "Take %s%s: %s"
	if open {
		what = "Of those without, %s%s comes first: %s"
	}
	v := c.Levels[s.first]
	first := fmt.Sprintf(what, quoted(c.Layout), s.priced(c), s.level(c)) + s.against(c)
	if why := s.why(g); strings.HasPrefix(why, "of the ") {
		first += "; " + why
	} else if why != "" {
		first += ", " + why
	}
	all := []string{first + "."}
	if over := s.limitsExceeded(c); over != "" {
		all = append(all, over)
	}
	return append(all, fmt.Sprintf("At %s eight cases of ten lie between %.0f and %.0f dB(A).", s.seats[s.first].Name, spectrum.Whole(draws.Quantile(v, 0.1)), spectrum.Whole(draws.Quantile(v, 0.9))))
}

// against is the change from today at the first seat.
func (s speech) against(c Choice) string {
	t, ok := s.today()
	if !ok || t.Layout == c.Layout {
		return ""
	}
	d := median(c, s.first) - median(t, s.first)
	text := ", as today"
	if !Same(c, t, s.first) {
		text = fmt.Sprintf(", %.0f dB %s today (%s)", math.Abs(spectrum.Whole(d)), underOver(d), heard(c, t, s.first))
		if t.Wet != c.Wet {
			text += ", " + unmeasured
		}
	}
	return text
}

// why is the reason for the first of a group: against today where it isn't quieter there at the first seat, and of those
// that sound the same; "" = none but its level.
func (s speech) why(g group) string {
	var all []string
	if t, ok := s.today(); ok && t.Layout != g[0].Layout && !slices.ContainsFunc(g, func(c Choice) bool { return c.Today }) &&
		(Same(g[0], t, s.first) || median(g[0], s.first) > median(t, s.first)) {
		if text := s.inspite(g[0], t); text != "" {
			all = append(all, text)
		}
	}
	if len(g) > 1 {
		all = append(all, fmt.Sprintf("of the %d that sound the same it %s", len(g), s.reason(g)))
	}
	return strings.Join(all, "; ")
}

// mend says what must be mended in the box before the choice can be taken; "" = nothing.
func (s speech) mend(c Choice) string {
	fault := ""
	switch {
	case c.Cooked:
		fault = "an engine grows too hot"
	case c.Starved:
		fault = "an engine lacks air"
	default:
		return ""
	}
	in := quoted(c.Layout)
	if !slices.ContainsFunc(s.all, func(o Choice) bool { return !o.Out && !o.Cooked && !o.Starved }) {
		in = "every layout that could be taken"
	}
	return fmt.Sprintf("Mend the box first: in %s %s.", in, fault)
}

// inspite says why a choice is taken that is louder at the first seat than what is on board.
func (s speech) inspite(c, today Choice) string {
	var quieter []string
	for i, seat := range s.seats {
		if d := median(today, i) - median(c, i); d > 0 && !Same(c, today, i) {
			quieter = append(quieter, fmt.Sprintf("%s (%.0f dB under today)", seat.Name, spectrum.Whole(d)))
		}
	}
	switch {
	case len(quieter) > 0:
		return "for the sake of " + Listed(quieter)
	case today.Out:
		return "as that of today is refused or can't be judged"
	case today.harm() > c.harm() || today.Cooked && !c.Cooked:
		return "to spare the engine"
	}
	return ""
}

// level is the level at the first seat in words.
func (s speech) level(c Choice) string {
	return fmt.Sprintf("%.0f dB(A) at %s", spectrum.Whole(median(c, s.first)), s.seats[s.first].Name)
}

// reason says why the first of a group is taken.
func (s speech) reason(g group) string {
	c := g[0]
	any := func(is func(Choice) bool) bool {
		for _, o := range g[1:] {
			if is(o) {
				return true
			}
		}
		return false
	}
	money := "for the least money"
	if math.IsInf(g.price(), 1) {
		money = "though its price isn't stated in full"
	}
	switch {
	case any(func(o Choice) bool { return o.Cooked }) && !c.Cooked:
		return "keeps the engine cool " + money
	case any(func(o Choice) bool { return o.harm() > c.harm() }):
		return "spares the engine " + money
	case any(func(o Choice) bool { return o.Tight }) && !c.Tight:
		return "fits best " + money
	case math.IsInf(g.price(), 1):
		return "is the quietest by the figures, as no price of them is stated in full"
	case any(func(o Choice) bool { return (group{o}).price() <= g.price() }):
		if len(g) == 2 {
			return "costs no more than the other"
		}
		return "costs no more than the others"
	case any(func(o Choice) bool { return math.IsInf((group{o}).price(), 1) }):
		return "costs least of those whose price is stated in full"
	}
	return "costs least"
}

// limitsExceeded names the seats at which the choice stays over a limit of the file.
func (s speech) limitsExceeded(c Choice) string {
	var names []string
	for i, seat := range s.seats {
		if seat.Limit != nil && median(c, i) > *seat.Limit {
			names = append(names, seat.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "It stays over the limit of the file at " + Listed(names) + "."
}

// stepped says what the choice buys over the next cheaper that is not on board already.
func (s speech) stepped(cheaper, take group) string {
	if cheaper == nil || cheaper[0].Today || math.IsInf(take.price(), 1) {
		return ""
	}
	seat := buys(cheaper[0], take[0])
	if seat < 0 {
		return ""
	}
	return fmt.Sprintf("Over the next cheaper, %s, it buys %s.", quoted(cheaper[0].Layout), s.bought(cheaper, take, seat))
}

// bought is the gain of b over a at a seat with what it costs more.
func (s speech) bought(a, b group, seat int) string {
	d := median(b[0], seat) - median(a[0], seat)
	text := fmt.Sprintf("%.0f dB at %s (%s)", -spectrum.Whole(d), s.seats[seat].Name, heard(b[0], a[0], seat))
	if more := b.price() - a.price(); !math.IsInf(more, 0) && !math.IsNaN(more) {
		text += fmt.Sprintf(" for %.0f %s more", more, s.currency)
	}
	return text
}

// dearer says what the next dearer group buys, or that none buys anything.
func (s speech) dearer(take, next group) string {
	if next == nil {
		for _, o := range s.all {
			if !o.Out && (group{o}).price() > take.price() && o.Layout != take[0].Layout && !math.IsInf(take.price(), 1) {
				return "Nothing dearer buys what one hears."
			}
		}
		return ""
	}
	bought := s.bought(take, next, buys(take[0], next[0]))
	if math.IsInf(next.price(), 1) {
		return fmt.Sprintf("What %s costs isn't stated%s; it buys %s.", quoted(next[0].Layout), s.from(next[0]), bought)
	}
	return fmt.Sprintf("The next dearer, %s, buys %s.", quoted(next[0].Layout), bought)
}

// tradeoff names the seat at which the choice is loudest of all, where that is heard.
func (s speech) tradeoff(c Choice, gs []group) string {
	for seat := range s.seats {
		quietest, loudest := gs[0][0], gs[0][0]
		for _, g := range gs {
			for _, o := range g {
				if median(o, seat) < median(quietest, seat) {
					quietest = o
				}
				if median(o, seat) > median(loudest, seat) {
					loudest = o
				}
			}
		}
		if d := median(c, seat) - median(quietest, seat); d >= justHeard && !Same(c, quietest, seat) {
			how := ""
			if Same(c, loudest, seat) {
				how = "among the loudest there, "
			}
			if c.Layout == loudest.Layout {
				how = "the loudest of them there, "
			}
			return fmt.Sprintf("At %s it is %s%.0f dB louder than %s (%s).", s.seats[seat].Name, how, spectrum.Whole(d), quoted(quietest.Layout), heard(c, quietest, seat))
		}
	}
	return ""
}

func (s speech) today() (Choice, bool) {
	for _, c := range s.all {
		if c.Today {
			return c, true
		}
	}
	return Choice{}, false
}

func (s speech) priced(c Choice) string {
	switch {
	case c.Today:
		return " as it is"
	case c.Price != nil && c.From:
		return fmt.Sprintf(" (from %.0f %s)", *c.Price, s.currency)
	case c.Price != nil:
		return fmt.Sprintf(" (%.0f %s)", *c.Price, s.currency)
	}
	return ""
}

// from is what is stated of a price that is not known in full.
func (s speech) from(c Choice) string {
	if c.Price == nil {
		return ""
	}
	return fmt.Sprintf(" in full (from %.0f %s)", *c.Price, s.currency)
}
