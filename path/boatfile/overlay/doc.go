// Package overlay writes out what a boat file states as a difference: layouts that are like another, and changes of a layout to the
// file's own sections. Trees go in and come out; what is changed is left as it was.
package overlay
