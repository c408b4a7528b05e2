package charts

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"hushwake/charts/drawable"
	"hushwake/charts/player"
	"hushwake/charts/style"
	"hushwake/path/report"
	"hushwake/path/report/form"
	"hushwake/path/report/parts"
)

// page is what the template sees.
type page struct {
	Title, Boat, Version, Provenance string
	CSP                              string
	CSS                              template.CSS
	Library                          template.HTML // packed, as base64
	Hash                             string        // of the library unpacked
	Boot                             template.JS
	Player                           template.JS // empty = no sound is on the page
	Headline                         string
	Say                              []string // what stands under it, in a sentence or two
	Dangers                          []item
	Glance                           table
	Folds                            []fold
	Sections                         []section
}

func pageOf(r *report.Page) (*page, error) {
	p := newPage(r.Boat, r.Version, footOf(r))
	u := unitsOf(r.Imperial)
	d := &drawer{}
	cautions := saidOnce(r)
	p.Title, p.Provenance = "Exhaust noise: "+r.Boat, capital(r.Provenance)
	p.Headline, p.Say = adviceOf(r, u)
	p.Dangers, p.Glance = dangers(r), nowAndThen(r, d)
	p.Folds = []fold{{Label: "How sure that is, and what it asks of the engine", matter: matter{Lead: append(slices.Clone(r.Answer), engineCost(r, u)...)}}}
	if r.Sounds != nil {
		p.Player, p.CSP = template.JS(player.Script), policy(styleOf(footOf(r)), player.Script)
	}
	p.Sections = append(sectionsOf(r, u, d), cautionsSection(r, cautions))
	return p, d.err
}

// footOf tells on paper from which file the page was made.
func footOf(r *report.Page) string {
	if r.Hash == "" {
		return r.File
	}
	return r.File + ", " + r.Hash[:min(len(r.Hash), 12)]
}

// newPage is an empty page with its scripts and style.
func newPage(heading, version, foot string) *page {
	sheet := styleOf(foot)
	return &page{Title: heading, Boat: heading, Version: version, CSS: template.CSS(sheet), CSP: policy(sheet),
		Library: template.HTML(packed()), Hash: strings.Trim(style.Hash(unpacked()), "'"), Boot: template.JS(bootScript)}
}

// write fills the template in; nothing is written where a chart cannot be drawn.
func (p *page) write(w io.Writer) error {
	for i := range p.Sections {
		s := &p.Sections[i]
		if err := marshal(s.Figures); err != nil {
			return err
		}
		for k := range s.Folds {
			if err := marshal(s.Folds[k].Figures); err != nil {
				return err
			}
		}
	}
	var b bytes.Buffer
	err := parsed.Execute(&b, p)
	if err == nil {
		_, err = w.Write(style.Raised(bytes.Map(seen, b.Bytes())))
	}
	if err != nil {
		return fmt.Errorf("charts: page: %w", err)
	}
	return nil
}

// seen drops what turns the order of letters about or can't be seen, and the marks of quantities: a name must read as it is.
func seen(c rune) rune {
	if c >= utf8.RuneSelf && unicode.In(c, unicode.Cf, unicode.Noncharacter_Code_Point) {
		return -1
	}
	return c
}

// sectionsOf is the page in its order, but for the cautions that end it: what an owner asks, what the yard needs, what an
// acoustician looks at, what it all stands on. Quotes and enclosures only appear where there are any.
func sectionsOf(r *report.Page, u unitSet, d *drawer) []section {
	s := []section{boatSection(r, d), placesSection(r, u, d)}
	if r.Sounds != nil {
		s = append(s, hearSection(r))
	}
	s = append(s, waysSection(r, d), stepsSection(r, d), helpsSection(r), questionsSection(r), yardSection(r, u, d))
	if len(r.Offers) > 0 {
		s = append(s, quotesSection(r, u))
	}
	if len(r.Enclosures) > 0 {
		s = append(s, enclosureSection(r, u, d))
	}
	return append(s, sweepSection(r, u), tradeoffSection(r, u), spectraSection(r), lossSection(r), assumedSection(r), verifiedSection(r))
}

// marshal turns the options of each figure into the JSON that stands in the page.
func marshal(figures []figure) error {
	for i := range figures {
		f := &figures[i]
		if f.Plot == nil {
			continue
		}
		b, err := f.Plot.Marshal(f.Title)
		if err != nil {
			return err
		}
		f.JSON = template.JS(b)
	}
	return nil
}

// behind puts the figures from the n-th on behind a fold.
func (s *section) behind(n int, label string) {
	if len(s.Figures) > n {
		s.Folds = append(s.Folds, fold{Label: fmt.Sprintf("%s (%d)", label, len(s.Figures)-n), matter: matter{Figures: s.Figures[n:]}})
		s.Figures = s.Figures[:n]
	}
}

func assumedSection(r *report.Page) section {
	s := section{ID: "assumed", Title: "What was assumed"}
	if len(r.Assumptions) == 0 {
		s.Empty = "Nothing was assumed: the boat file states every value."
	} else {
		all := largestFirst(r.Assumptions)
		s.Title = fmt.Sprintf("What was assumed: %d values, the largest worth %s", len(all), decibel.text(all[0].PlusMinus))
		s.Lead = []string{"Every value that the boat file left open, what was put in its place, where that comes from, and how far it may move the answer, the largest first. Replace those with what is true on board."}
		t := table{Caption: "Assumptions", Cards: true, Head: []string{"What", "value", "±dB", "source"}}
		for _, a := range all {
			t.Rows = append(t.Rows, []cell{words(form.FieldWords(a.Field)), words(a.Value), num(decibel.bare(a.PlusMinus)), words(a.Source)})
		}
		s.Folds = []fold{{Label: "All of them", matter: matter{Tables: []table{t}}}}
	}
	if len(r.Warnings) > 0 {
		l := list{}
		for _, w := range r.Warnings {
			l.Items = append(l.Items, item{Kind: "warning", Text: ended(w)})
		}
		s.Folds = append(s.Folds, fold{Label: form.Counted(len(r.Warnings), "warning") + " of the models and the file", matter: matter{Lists: []list{l}}})
	}
	return s
}

// largestFirst orders what was assumed by how far it may move the answer.
func largestFirst(all []parts.Assumption) []parts.Assumption {
	out := slices.Clone(all)
	slices.SortStableFunc(out, func(a, b parts.Assumption) int { return cmp.Compare(orElse(b.PlusMinus, -1), orElse(a.PlusMinus, -1)) })
	return out
}

func verifiedSection(r *report.Page) section {
	s := section{ID: "verified", Title: "What this is checked against, and what not"}
	passed := 0
	t := table{Caption: "Values worked out again, and what they should be", Cards: true, Head: []string{"What", "source", "expected", "ours", "tolerance", "verdict"}}
	for _, c := range r.VerifiedBy {
		v := cell{Text: "failed", Class: "bad"}
		if c.Passed {
			passed++
			v = cell{Text: "passed"}
		}
		t.Rows = append(t.Rows, []cell{words(c.What), words(c.Source), num(c.Expected), num(c.Ours), num(c.Tolerance), v})
	}
	if len(t.Rows) > 0 {
		s.Title = fmt.Sprintf("Checked against %d values, of which %d hold; and what is not checked", len(t.Rows), passed)
		s.Lead = []string{fmt.Sprintf("%d of the %d checks run for this page pass, one or more of each source: values out of books, standards and papers, others worked apart from this program, and rules of the trade. The verify command runs every one.", passed, len(t.Rows))}
		s.Folds = []fold{{Label: "The checks", matter: matter{Tables: []table{t}}}}
	} else {
		s.Lead = []string{"No checks were handed over for this page."}
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

// Write checks the report and writes it as one HTML file. Nothing is written if the data cannot
// be shown honestly; the same report gives the same bytes.
func Write(w io.Writer, r *report.Page) error {
	if err := drawable.Check(r); err != nil {
		return err
	}
	p, err := pageOf(r)
	if err != nil {
		return errors.Join(errors.New("charts: a picture cannot be drawn"), err)
	}
	return p.write(w)
}
