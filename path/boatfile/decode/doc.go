// Package decode reads YAML into nodes with their places, and mappings of nodes into texts, words, numbers and quantities. Whatever
// is wrong, odd or filled in is noted at its place. It knows no boat.
package decode
