// Package outdoor gives spreading, outlet directivity, air absorption and shielding in the open.
package outdoor
