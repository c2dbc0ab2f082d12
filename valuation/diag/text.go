package diag

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// maxShown is how many diagnostics WriteText prints before it only counts.
const maxShown = 100

// WriteText prints the list in its order, one block a diagnostic: a line that
// says where and what, then what was expected and what to try, indented. Lines
// are wrapped to width characters (0: not at all); a longer word is left whole,
// so that a file name can be copied. Of more than a hundred diagnostics the
// rest is only counted, warnings first; one more is shown, as it takes no more
// room than to say so.
func (l List) WriteText(w io.Writer, width int) error {
	shown := l
	if len(l) > maxShown+1 {
		shown = l.mostImportant(maxShown)
	}
	var b strings.Builder
	for _, d := range shown {
		head, details := d.parts()
		wrap(&b, head, "", "    ", width)
		for _, detail := range details {
			wrap(&b, detail, "    ", "      ", width)
		}
	}
	if cut := len(l) - len(shown); cut > 0 {
		wrap(&b, fmt.Sprintf("%d more are not shown", cut), "", "    ", width)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// mostImportant is the list cut to n diagnostics: the first errors, and the
// first warnings if there is room, in their order. A warning must not push an
// error out of sight, and the order of the file helps who goes through it from
// top to bottom.
func (l List) mostImportant(n int) List {
	room := n
	var kept []int
	for _, wanted := range []bool{true, false} {
		for i, d := range l {
			if room > 0 && isError(d) == wanted {
				kept = append(kept, i)
				room--
			}
		}
	}
	slices.Sort(kept)
	shown := make(List, len(kept))
	for i, k := range kept {
		shown[i] = l[k]
	}
	return shown
}

// wrap writes text as lines of at most width characters, the first after the
// indent first, the others after the indent rest.
func wrap(b *strings.Builder, text, first, rest string, width int) {
	b.WriteString(first)
	used := len(first)
	for i, word := range strings.Split(text, " ") {
		length := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case width <= 0 || used+1+length <= width:
			b.WriteByte(' ')
			used++
		default:
			b.WriteString("\n" + rest)
			used = len(rest)
		}
		b.WriteString(word)
		used += length
	}
	b.WriteByte('\n')
}
