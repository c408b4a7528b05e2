// Package controls lists the values of a boat file that can be changed, by its schema: stated or not, what fits, what not knowing
// costs.
package controls
