package live

import (
	"strconv"
	"strings"

	"hushwake/path/interview"
)

// form opens a form that answers a question.
func (m *markup) form(q *interview.Question, class string) {
	m.open("form", "data-op", "answer", "class", class, "autocomplete", "off")
	m.hidden("id", q.ID)
}

// field is one control with its label; empty where nothing is known.
func (m *markup) field(f interview.Field, id, value string, wrong, required bool) {
	m.open("p", "class", "field")
	m.leaf("label", f.Words, "for", id)
	described := "why"
	if wrong {
		described = "wrong why"
	}
	pairs := []string{"id", id, "name", "to", "aria-describedby", described, "aria-invalid", when(wrong, "true")}
	if f.Choices == nil {
		m.open("input", append(pairs, "value", value, "placeholder", f.Example, "required", when(required, ""))...)
	} else {
		m.open("select", pairs...)
		for _, c := range f.Choices {
			m.leaf("option", c.Words, "value", c.Value, "selected", when(c.Value == value, ""))
		}
		m.shut("select")
	}
	m.shut("p")
}

// slip is what was wrong with an answer, and with which of its controls.
type slip struct {
	any   bool
	value string // what stands in the control; "" = it isn't known which, and the first is marked
}

// slipped finds the control by what the error quotes.
func slipped(wrong string, tried []string) slip {
	for _, value := range tried {
		if value != "" && strings.HasPrefix(wrong, strconv.Quote(value)) {
			return slip{true, value}
		}
	}
	return slip{any: wrong != ""}
}

// in tells whether it was in a control.
func (s slip) in(value string, first bool) bool {
	return s.any && (s.value == "" && first || s.value != "" && s.value == value)
}
