package diag

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// acceptText takes raw as the text of the document if it is text at all. A byte
// order mark is dropped; line ends of two characters stay, and shift nothing.
func (d *Document) acceptText(raw []byte) bool {
	if len(raw) > MaxDocument {
		return d.breaks(-1, Diagnostic{
			Summary:  "the file is too large",
			Expected: fmt.Sprintf("at most %d KB", MaxDocument>>10),
		})
	}
	d.text = string(bytes.TrimPrefix(raw, []byte("\uFEFF")))
	if bytes.HasPrefix(raw, []byte("\xff\xfe")) || bytes.HasPrefix(raw, []byte("\xfe\xff")) {
		return d.breaks(-1, Diagnostic{
			Summary:  "the text is encoded in UTF-16",
			Expected: "text in UTF-8",
			Try:      "saving the file as UTF-8",
		})
	}
	if i := badCharacter(d.text); i >= 0 {
		return d.breaks(i, describeByte(d.text[i]))
	}
	if strings.Trim(d.text, " \t\r\n") == "" {
		return d.breaks(-1, Diagnostic{Summary: "the file is empty", Expected: "a TOML document"})
	}
	return true
}

// badCharacter is the offset of the first byte that cannot stand in a text file
// (what is not UTF-8, a control character, a carriage return without its line
// feed), or -1. These are the characters that TOML allows nowhere, not even in a
// comment (https://toml.io/en/v1.1.0, Comment and Spec); the parser would refuse
// them too, but tells neither a binary file nor an old encoding from a slip.
func badCharacter(text string) int {
	for i, r := range text {
		switch {
		case r == '\r':
			if !strings.HasPrefix(text[i:], "\r\n") {
				return i
			}
		case r < ' ' && r != '\n' && r != '\t', r == 0x7f:
			return i
		case r == utf8.RuneError:
			if _, size := utf8.DecodeRuneInString(text[i:]); size == 1 {
				return i
			}
		}
	}
	return -1
}

// describeByte says what is wrong with a byte found by badCharacter.
func describeByte(b byte) Diagnostic {
	switch {
	case b == 0:
		return Diagnostic{Summary: "this is no text file: it has a zero byte", Expected: "text in UTF-8"}
	case b >= utf8.RuneSelf:
		return Diagnostic{
			Summary:  fmt.Sprintf("the byte 0x%02x is not UTF-8", b),
			Expected: "text in UTF-8",
			Try:      "saving the file as UTF-8",
		}
	}
	return Diagnostic{Summary: fmt.Sprintf("the control character 0x%02x cannot stand in a text file", b), Expected: "text in UTF-8"}
}
