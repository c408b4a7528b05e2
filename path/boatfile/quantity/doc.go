// Package quantity reads figures with their units as people write them, and prints them again. Values are SI inside, but for
// rpm, hours and decibels. It knows no file and no boat.
package quantity
