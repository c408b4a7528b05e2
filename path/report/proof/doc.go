// Package proof says what speaks for the program: published values computed with it, and the record of measured boats.
package proof
