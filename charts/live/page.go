package live

import (
	_ "embed" // style and script stand in the binary
	"encoding/base64"
	"encoding/json"
	"maps"
	"strings"

	"hushwake/charts/picture"
	"hushwake/charts/player"
	"hushwake/charts/style"
)

//go:embed assets/page.css
var pageSheet string

//go:embed assets/page.js
var pageScript string

// The interview and the player bring their own part of both.
var styleSheet, script = pageSheet + interviewSheet + player.Sheet, pageScript + interviewScript + player.Script

// PageOptions say what a page is made of.
type PageOptions struct {
	Name string // of the file
	// Desk gives the page its first pieces, to be read without scripts. A page that anybody on the machine may fetch has none: it
	// gets them with its first message, which carries the token.
	Desk *Desk
	// Worker is the script of a worker that holds the program; "" = the page asks its host by POST /do. Once it is given
	// {program, name, text} it answers {id, message} with {id, answer}, and {failed: words} when it can't go on.
	Worker  string
	Program string // handed to the worker as it stands; it holds no "<"
	Naming  bool   // saving asks for a name
}

// Page is the whole page: one HTML text that fetches nothing from elsewhere, its style and scripts bound by a content policy.
func Page(o PageOptions) []byte {
	var m markup
	sheet := style.Base + styleSheet + picture.StyleSheet()
	first := map[string]string{}
	if o.Desk != nil {
		var a answer
		if json.Unmarshal(o.Desk.Handle([]byte(`{"op":"show"}`)), &a) == nil {
			first = a.Fragments
			maps.DeleteFunc(first, func(id, _ string) bool { return strings.HasPrefix(id, "controls-") }) // of no use without scripts
		}
	}
	m.WriteString("<!DOCTYPE html>\n")
	m.open("html", "lang", "en")
	m.head(o, sheet)
	m.open("body", "data-transport", transport(o), "data-name", o.Name)
	m.body(o, first)
	if o.Worker != "" {
		m.inert("worker", o.Worker)
		m.inert("program", o.Program)
		m.inert("boat-file", base64.StdEncoding.EncodeToString(o.Desk.Text()))
	}
	m.WriteString("<script>" + script + "</script>")
	m.shut("body")
	m.shut("html")
	return []byte(m.String())
}

func transport(o PageOptions) string {
	if o.Worker != "" {
		return "worker"
	}
	return "host"
}

// Policy is the content policy of a page, for hosts that also send it as a header.
func Policy(o PageOptions) string {
	return policy(o, style.Base+styleSheet+picture.StyleSheet())
}

// policy lets the page run its own script and style sheet and ask its own host, or the worker that it holds.
func policy(o PageOptions, sheet string) string {
	p := "default-src 'none'; script-src " + style.Hash(script)
	if o.Worker != "" {
		p += " 'wasm-unsafe-eval'; worker-src blob:"
	} else {
		p += "; connect-src 'self'"
	}
	return p + "; style-src " + style.Hash(sheet) + "; img-src data:; base-uri 'none'; form-action 'none'"
}

func (m *markup) head(o PageOptions, sheet string) {
	m.open("head")
	m.open("meta", "charset", "utf-8")
	m.open("meta", "name", "viewport", "content", "width=device-width, initial-scale=1")
	m.open("meta", "http-equiv", "Content-Security-Policy", "content", policy(o, sheet))
	m.open("meta", "name", "referrer", "content", "no-referrer")
	title := "Exhaust noise"
	if o.Name != "" {
		title += ": " + o.Name
	}
	m.leaf("title", title)
	m.WriteString("<style>" + sheet + "</style>")
	m.shut("head")
}

// inert holds what is no script of the page: text that can't end its element.
func (m *markup) inert(id, text string) {
	m.open("script", "type", "text/plain", "id", id)
	m.WriteString(strings.ReplaceAll(text, "</", `<\/`))
	m.shut("script")
}

// slot is where a fragment goes.
func (m *markup) slot(tag, id string, first map[string]string, pairs ...string) {
	m.open(tag, append([]string{"data-fragment", id}, pairs...)...)
	m.WriteString(first[id])
	m.shut(tag)
}

// section is a headed part of the page with one fragment.
func (m *markup) section(id, title string, first map[string]string) {
	m.open("section", "class", "below", "aria-labelledby", "h-"+id)
	m.leaf("h2", title, "id", "h-"+id)
	m.slot("div", id, first)
	m.shut("section")
}

func (m *markup) body(o PageOptions, first map[string]string) {
	m.leaf("a", "To the boat", "class", "skip", "href", "#main")
	m.open("header", "class", "top")
	m.slot("h1", "title", first)
	m.leaf("p", "", "id", "state", "class", "state")
	m.slot("div", "bar", first, "class", "bar", "role", "group", "aria-label", "the whole file")
	m.shut("header")
	m.open("noscript")
	m.leaf("p", "This page shows the last result; changing it needs its script.", "class", "empty")
	m.shut("noscript")
	m.leaf("p", "", "id", "spoken", "class", "unseen", "aria-live", "polite")
	m.open("main", "id", "main", "tabindex", "-1")
	m.slot("div", "problems", first)
	m.slot("div", "doubt", first)
	m.slot("div", "interview", first)
	m.slot("div", "result", first, "class", "result")
	m.slot("div", "advice", first, "class", "advice")
	m.columns(first)
	m.section("hear", "Hear the layouts", first)
	m.section("ways", "What one hears, by how it gets there", first)
	m.section("steps", "From the engine to the ear", first)
	m.section("gains", "What would help most", first)
	m.section("speeds", "Over engine speed", first)
	m.section("readings", "Add a reading", first)
	m.shut("main")
	m.saving(o, first)
}

// columns are controls, boat and layouts side by side.
func (m *markup) columns(first map[string]string) {
	m.open("div", "class", "columns")
	m.open("section", "class", "changes", "aria-labelledby", "h-controls")
	m.leaf("h2", "Change it", "id", "h-controls")
	for _, g := range groups {
		m.slot("div", "controls-"+g.id, first)
	}
	m.shut("section")
	m.open("section", "class", "shown", "aria-labelledby", "h-boat")
	m.leaf("h2", "On the boat", "id", "h-boat")
	m.slot("div", "boat", first)
	m.shut("section")
	m.open("section", "class", "beside", "aria-labelledby", "h-layouts")
	m.leaf("h2", "Layouts side by side", "id", "h-layouts")
	m.slot("div", "layouts", first)
	m.shut("section")
	m.shut("div")
}

// saving is the dialog that shows what changes before anything is written.
func (m *markup) saving(o PageOptions, first map[string]string) {
	m.open("dialog", "id", "save", "aria-labelledby", "h-save")
	m.open("form", "method", "dialog")
	m.leaf("h2", "What saving changes in the file", "id", "h-save")
	m.slot("div", "changes", first)
	if o.Naming {
		m.open("p")
		m.leaf("label", "Name of the file ", "for", "save-as")
		m.open("input", "id", "save-as", "value", o.Name, "autocomplete", "off")
		m.shut("p")
	}
	m.leaf("p", "", "id", "saved", "role", "status")
	m.leaf("button", "Save", "value", "save", "class", "main")
	m.leaf("button", "Write over what is there", "value", "over", "class", "clash", "hidden", "")
	m.leaf("button", "Take what is there, drop mine", "value", "theirs", "class", "clash", "hidden", "")
	m.leaf("button", "Back", "value", "no")
	m.shut("form")
	m.shut("dialog")
}
