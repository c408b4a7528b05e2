// Package pictures takes from a comparison what the pictures of its layouts show. It knows no drawing: inputs of
// charts/picture come out.
package pictures
