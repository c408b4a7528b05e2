// Package live is the page that one can change: a desk, which turns messages into edits of a boat file and its answers into
// pieces of the page, and the page itself with its style and its small script. Host and transport are left to others: the
// same messages go by HTTP to a program on the reader's machine or to a worker inside the page.
//
// HTML and SVG are strings written by Go alone, so that all of it runs where no template does.
//
// # Messages
//
// A message is a JSON object with op and what it needs (see hushwake/path/live.Message); the desk has a few of its own:
//
//	units     to: metric | imperial
//	speeds    works out the chosen layout over engine speed
//	gains     works out what would help most
//	sounds    renders the layouts at the chosen place, from the full figures; the fragment "hear" holds them until text or place change
//	more      at: shows all that could be said of a thing, or not any more
//	against   shows what tells the text from that in to
//	text      answers with the text itself, in "text"
//
// An answer is
//
//	{"stamp", "form": "quick"|"full"|"", "left": steps to the full form, "errors": [{at, line, column, message, hint}],
//	 "figures": {"stamp", "form", "layouts": [{name, listeners: [{name, level_dba, low_dba, high_dba}]}]} or null,
//	 "fragments": {id: html}, "dirty", "can_undo", "can_redo"}
//
// Fragments that have not changed since the last answer to the same page (a name that the page gives itself: "page" in the
// message) are left out.
package live
