package silencer

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
)
