package live

import (
	_ "embed" // style and script stand in the binary
	"fmt"
	"strconv"
	"strings"

	"hushwake/charts/live/sketch"
	"hushwake/path/interview"
	"hushwake/source/spectrum"
)

//go:embed assets/interview.css
var interviewSheet string

//go:embed assets/interview.js
var interviewScript string

// screenOf is the question that an interview asks, as HTML: a picture, an answer, "I don't know" with what it costs. wrong is what was
// wrong with the answer before, with its hint on a second line; "" = nothing. At the end it says what comes next.
func screenOf(v *interview.Interview, wrong string) string {
	q := v.Next()
	var m markup
	if q == nil {
		m.ended()
		return m.String()
	}
	m.open("section", "class", "ask", "data-question", q.ID, "aria-labelledby", "question")
	m.progress(v)
	m.leaf("h2", q.Words, "id", "question", "tabindex", "-1")
	m.leaf("p", q.Why, "class", "why", "id", "why")
	m.wrong(wrong)
	m.control(v, q, slipped(wrong, v.Tried(q.ID)))
	m.terms(q)
	m.unknownWay(v, q)
	m.shut("section")
	return m.String()
}

// ended is the screen behind the last question.
func (m *markup) ended() {
	m.open("section", "class", "ask-end", "data-question", "end", "aria-labelledby", "question")
	m.leaf("h2", "That is all that is asked", "id", "question", "tabindex", "-1")
	m.leaf("p", "Your boat is below. Change what you like and see the levels move; keep it with “Save…”.")
	m.leaf("button", "Back to the questions", "type", "button", "data-op", "back", "id", "ask-back")
	m.shut("section")
}

func (m *markup) progress(v *interview.Interview) {
	at, of := v.Progress()
	m.open("p", "class", "progress")
	m.text(fmt.Sprintf("Question %d of about %d ", at, of))
	m.open("progress", "value", strconv.Itoa(at-1), "max", strconv.Itoa(of), "aria-label", "how much is answered")
	m.shut("progress")
	m.leaf("button", "Back", "type", "button", "data-op", "back", "id", "ask-back", "class", "back")
	m.shut("p")
}

// wrong stands beside the answer; its controls are described by it.
func (m *markup) wrong(text string) {
	if text == "" {
		return
	}
	said, hint, _ := strings.Cut(text, "\nhint: ")
	m.open("p", "class", "slip", "id", "wrong", "role", "alert")
	m.text(said + ". ")
	if hint != "" {
		m.leaf("span", "Try: "+hint)
	}
	m.shut("p")
}

// control is what the answer is given with.
func (m *markup) control(v *interview.Interview, q *interview.Question, wrong slip) {
	switch q.Kind {
	case interview.OfChoice, interview.OfWalls:
		m.choices(q)
	case interview.OfPlace:
		m.place(v, q, wrong)
	case interview.OfParts:
		m.parts(v, q, wrong)
	case interview.OfIdeas:
		m.ideas(v, q)
	case interview.OfText:
		m.file(v, q, wrong)
	default:
		m.figures(v, q, wrong)
	}
}

// choices are buttons with pictures: one tap answers.
func (m *markup) choices(q *interview.Question) {
	m.form(q, "choices")
	m.open("fieldset")
	m.leaf("legend", q.Words, "class", "unseen")
	for _, c := range q.Choices {
		m.open("button", "name", "to", "value", c.Value, "id", "choice-"+c.Value, "class", "choice")
		if c.Picture != "" {
			m.WriteString(sketch.SVG(c.Picture))
		}
		m.leaf("span", c.Words)
		m.shut("button")
	}
	m.shut("fieldset")
	m.shut("form")
}

// figures are fields with units as people write them.
func (m *markup) figures(v *interview.Interview, q *interview.Question, wrong slip) {
	m.open("div", "class", "ask-sides")
	m.WriteString(sketch.SVG("of-" + q.ID))
	m.form(q, "figures")
	tried := append(v.Tried(q.ID), make([]string, len(q.Fields))...)
	for i, f := range q.Fields {
		m.field(f, "figure-"+strconv.Itoa(i), tried[i], wrong.in(tried[i], i == 0), i == 0)
	}
	m.leaf("button", "Next", "class", "main")
	m.shut("form")
	m.shut("div")
}

// ideas are layouts that can be tried: a tap takes one, another tap takes it out.
func (m *markup) ideas(v *interview.Interview, q *interview.Question) {
	m.open("ul", "class", "ideas")
	for _, i := range v.Ideas() {
		m.open("li")
		m.open("button", "type", "button", "data-op", "idea", "data-id", i.ID, "id", "idea-"+i.ID, "aria-pressed", strconv.FormatBool(i.Taken), "class", "choice")
		m.WriteString(sketch.SVG("idea-" + i.ID))
		m.open("span")
		m.leaf("b", i.Words)
		m.text(" " + i.Why)
		m.shut("span")
		m.shut("button")
		m.shut("li")
	}
	m.shut("ul")
	m.form(q, "figures")
	m.leaf("button", "Show me the levels", "name", "to", "value", "done", "id", "done", "class", "main")
	m.shut("form")
}

// file takes a file that is there already.
func (m *markup) file(v *interview.Interview, q *interview.Question, wrong slip) {
	m.form(q, "figures")
	m.open("p", "class", "field")
	m.leaf("label", "A file of this machine", "for", "file")
	m.open("input", "type", "file", "id", "file", "accept", ".yaml,.yml,text/plain")
	m.shut("p")
	m.open("p", "class", "field")
	m.leaf("label", "or its text", "for", "file-text")
	m.open("textarea", "id", "file-text", "name", "to", "rows", "8", "required", "", "spellcheck", "false", "aria-invalid", when(wrong.any, "true"), "aria-describedby", when(wrong.any, "wrong"))
	m.text(strings.Join(v.Tried(q.ID), "\n"))
	m.shut("textarea")
	m.shut("p")
	m.leaf("button", "Open", "class", "main")
	m.shut("form")
}

// terms say what the words of the trade mean that stand on the screen.
func (m *markup) terms(q *interview.Question) {
	all := q.Terms()
	if len(all) == 0 {
		return
	}
	m.open("dl", "class", "terms")
	for _, t := range all {
		m.leaf("dt", t.Word)
		m.leaf("dd", t.Means)
	}
	m.shut("dl")
}

// unknownWay is "I don't know" with what is then taken and what that costs.
func (m *markup) unknownWay(v *interview.Interview, q *interview.Question) {
	if q.Kind == interview.OfIdeas {
		return
	}
	m.open("p", "class", "dont-know")
	m.leaf("button", "I don’t know", "type", "button", "data-op", "dont-know", "data-id", q.ID, "id", "dont-know", "aria-describedby", "costs")
	m.open("span", "id", "costs")
	m.cost(v, q)
	m.shut("span")
	m.shut("p")
	if v.CanFinish() {
		m.open("p", "class", "finish")
		m.leaf("button", "Show me the answer now", "type", "button", "data-op", "finish", "id", "finish", "aria-describedby", "finish-why")
		m.leaf("span", " The rest stays unknown; each can be answered later.", "id", "finish-why")
		m.shut("p")
	}
}

// cost is what is taken, what that adds in doubt, and in small where it comes from.
func (m *markup) cost(v *interview.Interview, q *interview.Question) {
	p, err := v.Price(q.ID)
	switch {
	case err != nil:
		m.text("Then something usual is taken.")
		return
	case q.Kind == interview.OfText:
		m.text("Then you are asked about your boat.")
		return
	}
	say := "Then we take: " + strings.TrimSuffix(p.Taken, ".") + "."
	switch {
	case p.DB >= 0.05:
		say += fmt.Sprintf(" It adds ± %.0f dB of doubt.", max(1, p.DB))
	case p.Source != "":
		say += " It adds no doubt."
	}
	m.text(say + " ")
	if p.Source != "" {
		m.leaf("small", "From: "+p.Source+".")
	}
}

// doubtBar says how well the level is known by now and what would help most, with a bar that shrinks.
func doubtBar(d interview.Doubt) string {
	if d.PlusMinus == 0 {
		return ""
	}
	var m markup
	m.open("div", "class", "doubt")
	m.open("p")
	m.leaf("strong", fmt.Sprintf("Doubt now ± %.0f dB", d.PlusMinus))
	m.text(fmt.Sprintf(" at the %s (about %.0f dB(A)). ", d.Seat, spectrum.Whole(d.Level)))
	m.open("meter", "min", "0", "max", "20", "value", fmt.Sprintf("%.1f", min(20, d.PlusMinus)), "low", "4", "high", "10", "optimum", "0", "aria-label", "doubt in dB")
	m.shut("meter")
	m.shut("p")
	if len(d.Shrink) > 0 {
		m.shrink(d)
	}
	m.shut("div")
	return m.String()
}

// shrink names what would help most; what has a question is asked by a tap. The rest is for wide screens.
func (m *markup) shrink(d interview.Doubt) {
	m.open("p", "class", "note")
	m.text("What would shrink it most: ")
	for i, s := range d.Shrink {
		m.open("span", "class", when(i > 0, "more"))
		if i > 0 {
			m.text("; ")
		}
		if s.ID == "" {
			m.text(s.Words)
		} else {
			m.leaf("button", s.Words, "type", "button", "data-op", "ask", "data-id", s.ID, "id", "ask-"+s.ID, "class", "link")
		}
		if to := fmt.Sprintf("%.0f", s.PlusMinus); to != fmt.Sprintf("%.0f", d.PlusMinus) { // "to 3" beside "now 3" promises nothing
			m.text(" (to ± " + to + " dB)")
		}
		m.shut("span")
	}
	m.text(".")
	m.shut("p")
}
