// Package plot builds the options of the page's charts: axes and their scales, how series are told apart, lines at limits. It knows no
// layouts.
package plot
