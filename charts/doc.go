// Package charts writes the offline HTML report. It knows nothing of how a number came about:
// a Report is plain data, in the units named by its fields, and Write turns it into one file
// that asks nothing of any network. Chart options are built with go-echarts, marshalled as JSON
// and drawn by the embedded copy of ECharts from a fixed script; a name from a boat file is
// only ever text.
package charts
