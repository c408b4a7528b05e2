//go:build !live

package program

var (
	packed []byte
	loader string
)
