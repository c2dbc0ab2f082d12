package diag

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Clean makes text from anywhere safe to print on a terminal, in one line.
// Control characters (C0, DEL, C1), line and paragraph separators and the
// characters that turn the writing direction around (Unicode's Bidi_Control)
// become visible escapes such as \n, \x1b or \u202e; what is not UTF-8 becomes
// U+FFFD. Everything else stays as it is.
func Clean(s string) string {
	if !utf8.ValidString(s) {
		s = strings.ToValidUTF8(s, "\uFFFD")
	}
	if strings.IndexFunc(s, harmful) < 0 {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if harmful(r) {
			b.WriteString(escape(r))
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// harmful reports a character that a terminal would obey rather than print. All
// below DEL but the C0 controls are fine, which is nearly all there is.
func harmful(r rune) bool {
	if r < 0x7f {
		return r < ' '
	}
	return unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp, unicode.Bidi_Control)
}

// escape writes a harmful character as one would in a Go or TOML string.
func escape(r rune) string {
	switch {
	case r == '\n':
		return `\n`
	case r == '\r':
		return `\r`
	case r == '\t':
		return `\t`
	case r <= 0xff:
		return fmt.Sprintf(`\x%02x`, r)
	}
	return fmt.Sprintf(`\u%04x`, r)
}
