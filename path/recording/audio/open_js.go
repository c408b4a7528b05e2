package audio

import "errors"

// Open says that a page in a browser opens no files; so none of what reads them is in its program.
func Open(string) (*File, error) {
	return nil, errors.New("a page in a browser reads no recordings\nhint: use the file with hushwake itself")
}
