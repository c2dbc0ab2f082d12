package load

import (
	"bytes"
	"fmt"
	"io"
	"os"
)

// Source reads a file that a command takes something from, and returns the name
// that messages give it. The path "-" is stdin. Anything but a regular file is
// refused before it is read, and so is one longer than most bytes. what says
// what the file is to be, for the hint.
func Source(path string, stdin io.Reader, most int64, what string) (text []byte, name string, err error) {
	in, name := stdin, StandardInput
	if path != "-" {
		name = Short(path)
		f, err := sound(path, name, "name "+what+", or - to read it from standard input")
		if err != nil {
			return nil, name, err
		}
		defer f.Close()
		in = f
	}
	var b bytes.Buffer
	if _, err := b.ReadFrom(io.LimitReader(in, most+1)); err != nil {
		return nil, name, refused(name, err)
	}
	if int64(b.Len()) > most {
		return nil, name, &Error{Path: name, What: fmt.Sprintf("is longer than the %d MB that are read", most>>20), Mistaken: true}
	}
	return b.Bytes(), name, nil
}

// sound opens a regular file.
func sound(path, name, hint string) (*os.File, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, refused(name, err)
	}
	if err := readable(info); err != nil {
		return nil, &Error{Path: name, What: err.Error(), Mistaken: true, Hint: hint}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, refused(name, err)
	}
	return f, nil
}
