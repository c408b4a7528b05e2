package charts

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io"
	"slices"
	"sort"
	"strings"

	"hushwake/path/report"
	"hushwake/path/report/parts"
)

// page is what the template sees.
type page struct {
	Title, Boat, Version, Provenance string
	CSP                              string
	CSS                              template.CSS
	Library, Boot                    template.JS
	Answer                           []string
	Engine                           []string // what the first layout asks of each engine
	Glance                           table
	Refused, Next                    list
	Dangers                          string
	Sections                         []section
}

func pageOf(r *report.Page) *page {
	p := newPage(r.Boat, r.Version)
	p.Title, p.Provenance, p.Refused = "Exhaust noise: "+r.Boat, capital(r.Provenance), refusedList(r)
	for _, a := range r.Answer {
		if strings.TrimSpace(a) != "" {
			p.Answer = append(p.Answer, a)
		}
	}
	u := unitsOf(r.Imperial)
	cautions := saidOnce(r)
	p.Engine, p.Glance, p.Next, p.Dangers = engineCost(r, u), glance(r, u), nextSteps(r), cautionCount(cautions)
	p.Sections = append(sectionsOf(r, u), cautionsSection(r, cautions))
	return p
}

// newPage is an empty page with its scripts and style.
func newPage(heading, version string) *page {
	return &page{Title: heading, Boat: heading, Version: version,
		CSS: template.CSS(styleSheet), Library: template.JS(library), Boot: template.JS(bootScript), CSP: policy()}
}

// write fills the template in; nothing is written where a chart cannot be drawn.
func (p *page) write(w io.Writer) error {
	for i := range p.Sections {
		if err := errors.Join(marshal(p.Sections[i].Figures), marshal(p.Sections[i].More)); err != nil {
			return err
		}
	}
	var b bytes.Buffer
	err := parsed.Execute(&b, p)
	if err == nil {
		_, err = w.Write(b.Bytes())
	}
	if err != nil {
		return fmt.Errorf("charts: page: %w", err)
	}
	return nil
}

// sectionsOf is the page in its order, but for the cautions that end it. Quotes and enclosures only appear where there are any.
func sectionsOf(r *report.Page, u unitSet) []section {
	s := []section{levelsSection(r), tradeoffSection(r, u), routesSection(r), chainSection(r), spectraSection(r), lossSection(r),
		alongSection(r, u), sweepSection(r, u), priceSection(r, u)}
	if len(r.Offers) > 0 {
		s = append(s, quotesSection(r, u))
	}
	if len(r.Enclosures) > 0 {
		s = append(s, enclosureSection(r, u))
	}
	return append(s, assumedSection(r), verifiedSection(r))
}

// marshal turns the options of each figure into the JSON that stands in the page.
func marshal(figures []figure) error {
	for i := range figures {
		f := &figures[i]
		if f.Plot == nil {
			continue
		}
		b, err := f.Plot.json(f.Title)
		if err != nil {
			return err
		}
		f.JSON = template.JS(b)
	}
	return nil
}

func assumedSection(r *report.Page) section {
	s := section{ID: "assumed", Title: "What was assumed", Lead: []string{
		"Every value that the boat file left open, what was put in its place, where that comes from, and how far it may move the answer, the largest first. Replace those with what is true on board."}}
	if len(r.Assumptions) == 0 {
		s.Empty = "Nothing was assumed: the boat file states every value."
	} else {
		t := table{Caption: "Assumptions", Head: []string{"What", "value", "±dB", "source"}}
		for _, a := range largestFirst(r.Assumptions) {
			t.Rows = append(t.Rows, []cell{words(a.Field), words(a.Value), num(decibel.bare(a.PlusMinus)), words(a.Source)})
		}
		s.Tables = []table{t}
	}
	if len(r.Warnings) > 0 {
		l := list{Title: "Warnings"}
		for _, w := range r.Warnings {
			l.Items = append(l.Items, item{Kind: "warning", Text: ended(w)})
		}
		s.Lists = []list{l}
	}
	return s
}

// largestFirst orders what was assumed by how far it may move the answer.
func largestFirst(all []parts.Assumption) []parts.Assumption {
	out := slices.Clone(all)
	by := func(a parts.Assumption) float64 { return orElse(a.PlusMinus, -1) }
	sort.SliceStable(out, func(i, j int) bool { return by(out[i]) > by(out[j]) })
	return out
}

func verifiedSection(r *report.Page) section {
	s := section{ID: "verified", Title: "What this is checked against, and what not"}
	passed := 0
	t := table{Caption: "Published checks", Head: []string{"What", "source", "expected", "ours", "tolerance", "verdict"}}
	for _, c := range r.VerifiedBy {
		v := cell{Text: "failed", Class: "bad"}
		if c.Passed {
			passed++
			v = cell{Text: "passed"}
		}
		t.Rows = append(t.Rows, []cell{words(c.What), words(c.Source), num(c.Expected), num(c.Ours), num(c.Tolerance), v})
	}
	if len(t.Rows) > 0 {
		s.Lead = []string{fmt.Sprintf("%d of the %d published checks shown here pass. The verify command lists every one.", passed, len(t.Rows))}
		s.Tables = []table{t}
	} else {
		s.Lead = []string{"No published checks were handed over for this page."}
	}
	l := list{Title: "Not validated"}
	for _, n := range r.NotValidated {
		l.Items = append(l.Items, item{Text: n})
	}
	if len(l.Items) == 0 {
		l.Items = []item{{Text: "No list of what remains unvalidated was handed over: take nothing as proven on a real boat."}}
	}
	s.Lists = []list{l}
	return s
}
