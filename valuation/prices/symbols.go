package prices

// symbols numbers the different texts of a column, so that a row keeps four
// bytes however often a text is repeated. The empty text is number 0.
type symbols struct {
	ids   map[string]uint32
	texts []string
	// recent has, in the slot of its hash, the number of a text found lately.
	// Looking there first spares most rows the map.
	recent [slots]uint32
}

const slots = 1 << 11

// newSymbols is a numbering that knows the empty text only.
func newSymbols() symbols {
	return symbols{ids: map[string]uint32{"": 0}, texts: []string{""}}
}

// slot hashes a text by its length and its last four bytes, where ids differ
// most, multiplied as in Knuth, The Art of Computer Programming 3, section 6.4.
func slot(text string) uint32 {
	h, n := uint32(len(text)), len(text)
	if n >= 4 {
		h += uint32(text[n-4]) | uint32(text[n-3])<<8 | uint32(text[n-2])<<16 | uint32(text[n-1])<<24
	} else {
		for i := range n {
			h = h<<8 | uint32(text[i])
		}
	}
	return h * 2654435769 / (1 << 32 / slots)
}

// find is the number of a text seen before.
func (s *symbols) find(text string) (uint32, bool) {
	if text == "" {
		return 0, true
	}
	at := &s.recent[slot(text)]
	if s.texts[*at] == text {
		return *at, true
	}
	id, known := s.ids[text]
	if known {
		*at = id
	}
	return id, known
}

// add numbers a text that find does not know. The text is copied: those of a
// record share one string, which would be kept alive as a whole.
func (s *symbols) add(text string) uint32 {
	id, own := uint32(len(s.texts)), string(append([]byte(nil), text...))
	s.ids[own], s.texts = id, append(s.texts, own)
	return id
}

// intern is find, or else add.
func (s *symbols) intern(text string) uint32 {
	if id, known := s.find(text); known {
		return id
	}
	return s.add(text)
}
