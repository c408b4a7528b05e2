// Package loopback serves one boat file that is being changed to pages on this machine, and is the only thing that writes it.
package loopback
