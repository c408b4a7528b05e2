// Package charts writes the offline HTML report. It knows nothing of how a number came about.
package charts
