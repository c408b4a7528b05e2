package charts

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"hushwake/charts/gloss"
	"hushwake/charts/plot"
	"hushwake/path/report"
)

// quotesSection brings the offers to one basis and says which can't be judged, and why.
func quotesSection(r *report.Page, u unitSet) section {
	s := section{ID: "quotes", Title: "The quotes on one basis: " + bestOffer(r), Terms: gloss.Of("insertion loss", "back pressure"), matter: matter{Lead: []string{
		"Losses are brought to dB(A) for this engine's own spectrum, pressures to this engine's rated flow and temperature. Grade words such as residential or critical are not regulated and mean nothing here. " +
			"Nothing is safe to order before its questions are answered in writing."}}}
	money := currency(r)
	order := offerOrder(r.Offers)
	s.Lists = []list{ranking(r, order)}
	if l := unjudged(r, order); len(l.Items) > 0 {
		s.Lists = append(s.Lists, l)
	}
	if len(r.OfferEars) > 0 {
		s.Lists = append(s.Lists, list{Title: "To the ear", Items: itemsOf(r.OfferEars)})
	}
	s.Folds = []fold{{Label: "The offers in figures", matter: matter{Tables: []table{withoutEmptyColumns(offerTable(r, u, money, order)), withoutEmptyColumns(offerBasis(r, u, order)), offerOctaves(r, order)}}}}
	if accept := acceptanceTable(r, order); len(accept.Rows) > 0 {
		s.Folds = append(s.Folds, fold{Label: "To accept the work by", matter: matter{Tables: []table{accept}}})
	}
	return s
}

// bestOffer names the one that ranks first.
func bestOffer(r *report.Page) string {
	for _, o := range r.Offers {
		if o.Judged && o.Rank == 1 && (o.Layout < 0 || !r.Layouts[o.Layout].Refused) {
			return o.Name + " ranks first"
		}
	}
	return "none can be ordered as quoted"
}

// offerOrder puts the judged offers first, by rank, then the rest as handed over.
func offerOrder(offers []report.Offer) []int {
	order := plot.UpTo(len(offers))
	key := func(i int) int {
		if !offers[i].Judged || offers[i].Rank == 0 {
			return len(offers) + 1
		}
		return offers[i].Rank
	}
	sort.SliceStable(order, func(a, b int) bool { return key(order[a]) < key(order[b]) })
	return order
}

func ranking(r *report.Page, order []int) list {
	l := list{Title: "Those that can be judged, best first"}
	for _, i := range order {
		o := r.Offers[i]
		if !o.Judged {
			continue
		}
		it := item{Kind: verdict(r, o), Text: sentence(o.Name, o.Why)}
		if o.Layout >= 0 && r.Layouts[o.Layout].Refused {
			it.Detail = r.Layouts[o.Layout].Refusals
		}
		l.Items = append(l.Items, it)
	}
	if len(l.Items) == 0 {
		l.Items = []item{{Text: "None of the offers can be judged as quoted."}}
	}
	return l
}

func unjudged(r *report.Page, order []int) list {
	l := list{Title: "Those that can't be judged as quoted, and why"}
	for _, i := range order {
		if o := r.Offers[i]; !o.Judged {
			why := o.Why
			if why == "" {
				why = "no reason was handed over"
			}
			l.Items = append(l.Items, item{Kind: "can't be judged", Text: sentence(o.Name, why)})
		}
	}
	return l
}

func sentence(name, why string) string {
	switch {
	case why == "":
		return name + "."
	case strings.HasPrefix(why, name):
		return capital(why)
	}
	return capital(name) + ": " + why
}

// offerName adds the number by which the offer goes in the charts.
func offerName(r *report.Page, o report.Offer) string {
	if o.Layout < 0 {
		return o.Name
	}
	return o.Name + " (layout " + tag(r, o.Layout) + ")"
}

func verdict(r *report.Page, o report.Offer) string {
	switch {
	case !o.Judged:
		return "can't be judged"
	case o.Layout >= 0 && r.Layouts[o.Layout].Refused:
		return "refused"
	case o.Rank > 0:
		return fmt.Sprintf("rank %d", o.Rank)
	}
	return "not ranked"
}

// but leads a remark on the fit.
func but(fits *bool) string {
	if fits != nil && *fits {
		return ", but tight: "
	}
	return ": "
}

func offerTable(r *report.Page, u unitSet, money quantity, order []int) table {
	t := table{Caption: "Offers brought to one basis", Cards: true, Head: []string{"Offer", "verdict", "takes off, dB(A)", "pressure drop hot as quoted, " + u.pressure.unit,
		"whole line" + asRead(r) + ", " + u.pressure.unit, "limit, " + u.pressure.unit, "price, " + money.unit, "with its priced extras", "fits", "lead time"}}
	for _, i := range order {
		o := r.Offers[i]
		hot := u.pressure.bare(o.HotKPa)
		if o.HotHighKPa != nil {
			hot += " or " + u.pressure.bare(o.HotHighKPa)
		}
		fit := fits(o.Fits)
		if o.FitNote != "" {
			fit += but(o.Fits) + o.FitNote
		}
		t.Rows = append(t.Rows, []cell{words(offerName(r, o)), words(verdict(r, o)), num(decibelA.bare(o.LossDBA)), num(hot), num(u.pressure.bare(o.LineKPa)),
			num(u.pressure.bare(o.LimitKPa)), num(money.bare(o.Price)), num(money.bare(o.PriceWhole)), words(fit), words(o.LeadTime)})
	}
	return t
}

// asRead says of the back pressure of lines that readings on board moved it, unlike the losses that offers quote.
func asRead(r *report.Page) string {
	if slices.ContainsFunc(r.Offers, func(o report.Offer) bool { return o.LineRead }) {
		return " by readings on board"
	}
	return ""
}

func offerBasis(r *report.Page, u unitSet, order []int) table {
	t := table{Caption: "What was quoted, and on what basis", Cards: true, Head: []string{"Offer", "claim", "loss given as", "pressure as quoted, " + u.pressure.unit,
		"basis of the pressure", "not included"}}
	for _, i := range order {
		o := r.Offers[i]
		t.Rows = append(t.Rows, []cell{words(o.Name), words(o.Claim), words(o.LossBasis), num(u.pressure.bare(o.QuotedKPa)), words(o.QuotedBasis), words(strings.Join(o.NotIncluded, ", "))})
	}
	return t
}

// offerOctaves are the losses of the offers that state them by octave.
func offerOctaves(r *report.Page, order []int) table {
	t := table{Caption: "Octave losses as quoted, dB", Head: append([]string{"Offer"}, bandNames(r)...)}
	for _, i := range order {
		if o := r.Offers[i]; len(o.LossDB) == len(r.BandsHz) {
			t.Rows = append(t.Rows, bandRow(o.Name, o.LossDB))
		}
	}
	return t
}

func acceptanceTable(r *report.Page, order []int) table {
	t := table{Caption: "What the meter should read after fitting", Cards: true, Head: []string{"Offer", "place", "dB(A)", "accept from, to", "conditions"},
		Notes: []string{"A reading outside the band means that something is not as quoted, not as drawn, or not as measured: look before you pay."}}
	for _, i := range order {
		if !r.Offers[i].Judged {
			t.Rows = append(t.Rows, []cell{words(r.Offers[i].Name), words(""), num("–"), num("–"), words("none can be named until it can be judged")})
			continue
		}
		for _, a := range r.Offers[i].Acceptance {
			t.Rows = append(t.Rows, []cell{words(r.Offers[i].Name), words(r.Listeners[a.Listener].Name), num(decibelA.bare(a.LevelDBA)),
				num(decibelA.span(a.LowDBA, a.HighDBA)), words(a.Conditions)})
		}
	}
	return t
}
