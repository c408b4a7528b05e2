// Package parts holds what the program answers about a part of a boat: an engine, a line, a build-up, a box, layouts over
// engine speed, the sizes of an element, and the way through mounts and hull.
package parts
