// Package voyage answers about days at sea: dose and fuel of every layout, the speed at which a mile is the quietest, what no
// silencer takes out.
package voyage
