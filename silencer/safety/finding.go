// Package safety says what is wrong or dangerous about an exhaust line, each with its cure and its source. It never replaces
// local codes, the limit of the maker of an engine or a licensed person.
package safety

// Finding is something wrong or dangerous about a line, with a code.
type Finding struct {
	Code     string // stable, upper-case words with dashes
	Severity string // danger | warning | caution | note
	Text     string
	Action   string
	Source   string
	Element  string
	Refuse   bool // the layout must be refused for it
	Ask      bool // the text is a question that has to be answered before the layout can be judged
}

// Codes of findings that others act on.
const (
	CodeOverLimit  = "OVER-LIMIT"
	CodeAskFirst   = "ASK-FIRST"
	CodeDoesNotFit = "DOES-NOT-FIT"
	CodeTooLong    = "TOO-LONG"
	CodeTight      = "TIGHT-FIT"
	CodeHatch      = "WILL-NOT-PASS-HATCH"
	CodeLicensed   = "LICENSED-PERSON"
)
