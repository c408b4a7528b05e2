// Package interview asks about a boat one question after another and writes the boat file of it. The questions are a table: where
// the answer stands in the file, words, why it is asked, choices, an example, what is taken when it isn't known and what that
// costs in dB. The text is the truth: an answer is an edit of it that is kept only when the file then loads. Nothing
// here knows of pages, browsers or HTTP.
package interview
