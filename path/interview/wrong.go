package interview

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"hushwake/path/boatfile/decode"
	"hushwake/path/boatfile/spelling"
)

// withExample is an error with an example of what is wanted where it has no hint of its own.
func (q *Question) withExample(err error) error {
	if err == nil || strings.Contains(err.Error(), "\nhint: ") {
		return err
	}
	example := "1.2 m"
	if len(q.Fields) > 0 {
		example = q.Fields[0].Example
	}
	return fmt.Errorf("%w\nhint: such as %s", err, example)
}

// inFile is where in the file something stands, at the front of what is said about it.
var inFile = regexp.MustCompile(`^(boat|hull|engines|spaces|partitions|enclosures|listeners|layouts|readings|quotes)[^:"]*: `)

// plainly is the first thing that is wrong, without its place: the reader sees a question, not the file.
func plainly(err error) error {
	var all *decode.Errors
	if !errors.As(err, &all) || len(all.Problems) == 0 {
		return err
	}
	p := all.Problems[0]
	p.Message = inFile.ReplaceAllString(p.Message, "")
	if p.Hint == "" {
		return errors.New(p.Message)
	}
	return fmt.Errorf("%s\nhint: %s", p.Message, p.Hint)
}

func unlisted(value string, all []Choice) error {
	var words []string
	for _, c := range all {
		words = append(words, c.Value)
	}
	hint := spelling.DidYouMean(value, words)
	if hint == "" || len(value) < 3 {
		hint = "one of " + strings.Join(words, ", ")
	}
	return fmt.Errorf("%q is none of the choices\nhint: %s", spelling.Clip(value), hint)
}
