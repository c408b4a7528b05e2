// Package report holds what the program answers about a whole boat: for each command a document with the keys that
// scripts rely on, a sheet of rows, and a text for a person; and the data of the offline pages. Documents and sheets are in SI
// units, as named in each key; texts and pages in the units asked for. It knows no flags, files or drawing.
package report
