package load

import (
	"io"
	"os"
)

// StandardInput is how messages name a listing that was piped in.
const StandardInput = "standard input"

// Listing opens a listing file and returns the name that messages give it. The
// path "-" is stdin. Anything but a regular file is refused before it is read.
func Listing(path string, stdin io.Reader) (io.ReadCloser, string, error) {
	if path == "-" {
		return io.NopCloser(stdin), StandardInput, nil
	}
	name := Short(path)
	info, err := os.Stat(path)
	if err != nil {
		return nil, name, refused(name, err)
	}
	if err := readable(info); err != nil {
		return nil, name, &Error{Path: name, What: err.Error(), Mistaken: true,
			Hint: "name a listing file, or - to read one from standard input"}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, name, refused(name, err)
	}
	return f, name, nil
}
