package prices

import (
	"fmt"
	"testing"
)

// Texts keep their number however many there are and in whatever order they
// come, also where several share a slot.
func TestSymbols(t *testing.T) {
	s := newSymbols()
	if id, known := s.find(""); id != 0 || !known {
		t.Error("the empty text is not number 0")
	}
	if _, known := s.find("new"); known {
		t.Error("a text is known that was never added")
	}
	const n = 3 * slots
	for round := range 3 {
		for i := range n {
			want := uint32(i + 1)
			if id := s.intern(fmt.Sprintf("part-%d", i)); id != want {
				t.Fatalf("round %d: number %d, want %d", round, id, want)
			}
		}
	}
	if len(s.texts) != n+1 || s.texts[n] != fmt.Sprintf("part-%d", n-1) {
		t.Errorf("%d texts, the last %q", len(s.texts), s.texts[len(s.texts)-1])
	}
}

// A text outlives the memory it was read from.
func TestSymbolsCopy(t *testing.T) {
	s := newSymbols()
	line := []byte("shoe,sold")
	id := s.intern(string(line[:4]))
	copy(line, "xxxx")
	if s.texts[id] != "shoe" {
		t.Errorf("the text became %q", s.texts[id])
	}
}
