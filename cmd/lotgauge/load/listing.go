package load

import "io"

// StandardInput is how messages name a listing that was piped in.
const StandardInput = "standard input"

// Listing opens a listing file and returns the name that messages give it. The
// path "-" is stdin. Anything but a regular file is refused before it is read.
func Listing(path string, stdin io.Reader) (io.ReadCloser, string, error) {
	if path == "-" {
		return io.NopCloser(stdin), StandardInput, nil
	}
	name := Short(path)
	f, err := sound(path, name, "name a listing file, or - to read one from standard input")
	if err != nil {
		return nil, name, err
	}
	return f, name, nil
}
