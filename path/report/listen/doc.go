// Package listen holds what a comparison sounds like: layouts at places as samples by one gain, for files with their text and for the
// page. Levels are true against each other.
package listen
