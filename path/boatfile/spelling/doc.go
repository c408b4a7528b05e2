// Package spelling finds the word that was meant.
package spelling
