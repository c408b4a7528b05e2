// Package publish writes an owner's boat file as a measured case of the record, without what tells whose boat it is.
package publish
