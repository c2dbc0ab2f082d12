package csvtext

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
)

// mark is the byte order mark that some spreadsheets begin UTF-8 with.
var mark = []byte("\uFEFF")

// comment begins a line that is a remark.
const comment = '#'

// Header is the names of the columns of a CSV text, nil where it has none that
// can be read.
func Header(text []byte) []string {
	cells, err := headerOf(text)
	if err != nil {
		return nil
	}
	return cells
}

// headerOf is the first record of a CSV text, nil where there is none yet.
func headerOf(text []byte) ([]string, error) {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, mark)))
	r.Comment = comment
	cells, err := r.Read()
	if errors.Is(err, io.EOF) {
		return nil, nil
	}
	return cells, err
}

// endOfLine is how the text ends its lines, judged by the last one that is
// ended.
func endOfLine(text []byte) string {
	i := bytes.LastIndexByte(text, '\n')
	if i > 0 && text[i-1] == '\r' || i < 0 && bytes.HasSuffix(text, []byte{'\r'}) {
		return "\r\n"
	}
	return "\n"
}

// ended is the text with its last line ended.
func ended(text []byte) []byte {
	switch {
	case len(text) == 0, text[len(text)-1] == '\n', bytes.Equal(text, mark):
		return text
	case text[len(text)-1] == '\r': // half of an end
		return append(text, '\n')
	}
	return append(text, endOfLine(text)...)
}

// openQuote is the line, from 1, of a record with a quoted text that does not
// end before the file does, 0 where there is none: what is written behind such
// a text would become part of it. Records are told apart as encoding/csv does;
// lines without a quote are passed over.
func openQuote(text []byte) int {
	text = bytes.TrimPrefix(text, mark)
	for line := 1; len(text) > 0; {
		end := lineLength(text)
		if text[0] != comment && bytes.IndexByte(text[:end], '"') >= 0 {
			var closed bool
			if end, closed = record(text); !closed {
				return line
			}
		}
		line += bytes.Count(text[:end], newline)
		text = text[end:]
	}
	return 0
}

var newline = []byte{'\n'}

// lineLength is the length of the first line with its end.
func lineLength(text []byte) int {
	if i := bytes.IndexByte(text, '\n'); i >= 0 {
		return i + 1
	}
	return len(text)
}

// record is the length of the record that the text begins with; closed is false
// where a quoted text in it does not end. Where quotes are not as they should
// be the record ends with the line, as for encoding/csv.
func record(text []byte) (length int, closed bool) {
	rest := text
	for {
		if len(rest) == 0 || rest[0] != '"' {
			i := bytes.IndexAny(rest, ",\n")
			if i < 0 || rest[i] == '\n' || bytes.IndexByte(rest[:i], '"') >= 0 {
				break
			}
			rest = rest[i+1:]
			continue
		}
		n := quotedLength(rest)
		if n == 0 {
			return len(text), false
		}
		if rest = rest[n:]; len(rest) == 0 || rest[0] != ',' {
			break
		}
		rest = rest[1:]
	}
	return len(text) - len(rest) + lineLength(rest), true
}

// quotedLength is the length of the quoted text that rest begins with, its
// quotes included; 0 where it does not end.
func quotedLength(rest []byte) int {
	for n := 1; ; n += 2 {
		i := bytes.IndexByte(rest[n:], '"')
		if i < 0 {
			return 0
		}
		if n += i; n+1 == len(rest) || rest[n+1] != '"' {
			return n + 1
		}
	}
}
