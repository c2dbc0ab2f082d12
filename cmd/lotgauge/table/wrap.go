package table

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/jedib0t/go-pretty/v6/text"
)

// width is the number of terminal columns that clean text takes: none for a
// combining mark, two for a wide character.
func width(s string) int { return text.StringWidthWithoutEscSequences(s) }

// wrap breaks clean text into lines of at most most columns, between words, and
// within a word only if it is longer than a line. Empty text is one empty line.
// Words that a hard space ties together count as one.
func wrap(s string, most int) []string {
	var lines []string
	line, used := "", 0
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return r != hard && unicode.IsSpace(r) }) {
		word = strings.ReplaceAll(word, string(hard), " ")
		w := width(word)
		if line != "" && used+1+w <= most {
			line += " " + word
			used += 1 + w
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for w > most {
			head := chop(word, most)
			lines = append(lines, head)
			word = word[len(head):]
			w = width(word)
		}
		line, used = word, w
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// Broken is a clean line in lines of at most most columns, the further ones
// indented more than the first.
func Broken(line string, most int) []string {
	if width(line) <= most {
		return []string{line}
	}
	rest := strings.TrimLeft(line, " ")
	indent := strings.Repeat(" ", min(len(line)-len(rest), most/2))
	var out []string
	for _, part := range wrap(rest, most-len(indent)-len(margin)) {
		out = append(out, indent+part)
		if len(out) == 1 {
			indent += margin
		}
	}
	return out
}

// hard is the no-break space: a space at which no line ends.
const hard = '\u00a0'

// tied is text that is kept on one line, an amount with its currency.
func tied(s string) string { return strings.ReplaceAll(s, " ", string(hard)) }

// chop is the longest beginning of s that takes at most most columns, but at
// least one character.
func chop(s string, most int) string {
	used := 0
	for i, r := range s {
		used += text.RuneWidth(r)
		if used > most && i > 0 {
			return s[:i]
		}
	}
	return s
}

// clipped is a text cut to most characters, with how many it has. What is shown
// as part of the character before it (an accent, a skin tone, the rest of a
// joined emoji) is not parted from it.
func clipped(s string, most int) string {
	runes := []rune(s)
	if len(runes) <= most {
		return s
	}
	cut := most
	for cut > most/2 && (unicode.In(runes[cut], unicode.M, unicode.Sk, unicode.Cf) || unicode.Is(unicode.Cf, runes[cut-1])) {
		cut--
	}
	return fmt.Sprintf("%s… (%s characters)", strings.TrimRight(string(runes[:cut]), " "), grouped(len(runes)))
}
