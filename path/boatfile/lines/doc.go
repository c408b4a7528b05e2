// Package lines reads the lines of a boat file: every kind of element with its keys, defaults, help and schema, and the quotes that
// may stand among them.
package lines
