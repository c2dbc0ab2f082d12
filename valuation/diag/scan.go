package diag

import "strings"

// A scanner walks over TOML text byte by byte. All that it looks for is ASCII,
// so that it need not know characters.
type scanner struct {
	location
	text string
	pos  int
}

// stop ends the walk: nothing is left.
func (s *scanner) stop() { s.pos = len(s.text) }

// peek is the next byte, 0 at the end.
func (s *scanner) peek() byte {
	if s.pos >= len(s.text) {
		return 0
	}
	return s.text[s.pos]
}

// skip goes past token if it comes next.
func (s *scanner) skip(token string) bool {
	if !strings.HasPrefix(s.text[min(s.pos, len(s.text)):], token) {
		return false
	}
	s.pos += len(token)
	return true
}

// until goes to the next of some bytes, or to the end.
func (s *scanner) until(stops string) {
	if n := strings.IndexAny(s.text[s.pos:], stops); n >= 0 {
		s.pos += n
	} else {
		s.stop()
	}
}

// blank goes past white space, new lines and comments.
func (s *scanner) blank() {
	for {
		switch s.peek() {
		case ' ', '\t', '\r', '\n':
			s.pos++
		case '#':
			s.until("\n")
		default:
			return
		}
	}
}

// quoted skips a string of any of the four kinds.
func (s *scanner) quoted() {
	at, quote := s.pos, s.text[s.pos:s.pos+1]
	quotes := strings.Repeat(quote, 3)
	if !s.skip(quotes) {
		quotes = quote
		s.skip(quote)
	}
	if !s.close(quotes) {
		s.unclosed = at
	}
	for range len(quotes) - 1 { // a long text may itself end in one or two quotes
		s.skip(quote)
	}
}

// close skips to behind the closing quotes, and reports whether there are any.
// A backslash keeps a double quote from closing.
func (s *scanner) close(quotes string) bool {
	for s.pos < len(s.text) {
		switch {
		case s.skip(quotes):
			return true
		case s.peek() == '\\' && quotes[0] == '"':
			s.pos += 2
		default:
			s.pos++
		}
	}
	s.stop()
	return false
}
