package diag

import (
	"slices"
	"strings"
	"unicode"
)

// Nearest is the known name that name was most likely meant to be: the one with
// the smallest edit distance, the first of equals. Upper and lower case, and
// - and _, count as the same letter. It must be near: one edit for a name of 2
// or 3 characters, two up to 7, three beyond. Where no whole name is near, names
// that begin with it are: "pelworth" finds "pellworth-ce4". The first words of
// such a name must be near, or its first characters the same; either way name
// needs at least 4 characters.
func Nearest(name string, known []string) (string, bool) {
	wanted := letters(name)
	if len(wanted) == 0 || len(wanted) > 100 {
		return "", false
	}
	limit := min(1+len(wanted)/4, 3, len(wanted)-1)
	whole := func(k []rune, limit int) int { return distance(wanted, k, limit) }
	near, found := nearest(known, limit, whole)
	if !found && len(wanted) >= 4 {
		start := func(k []rune, limit int) int { return distanceToStart(wanted, k, limit) }
		near, found = nearest(known, limit-1, start)
	}
	return near, found
}

// nearest is the first of the known names that are least far, within limit.
func nearest(known []string, limit int, far func(k []rune, limit int) int) (near string, found bool) {
	for _, k := range known {
		if d := far(letters(k), limit); d <= limit {
			near, found, limit = k, true, d-1
		}
	}
	return near, found
}

// distanceToStart is the least distance to the first words of a name, 1 where
// wanted cuts a word of it short.
func distanceToStart(wanted, name []rune, limit int) int {
	least := limit + 1
	for i, r := range name {
		if r == '-' || r == '/' || r == ' ' {
			least = min(least, distance(wanted, name[:i], limit))
		}
	}
	if n := len(wanted); len(name) > n && unicode.IsLetter(name[n]) && slices.Equal(wanted, name[:n]) {
		least = min(least, 1)
	}
	return least
}

// letters is a name as it is compared.
func letters(name string) []rune {
	return []rune(strings.ReplaceAll(strings.ToLower(name), "_", "-"))
}

// distance is how many edits turn a into b: insert, delete or replace a
// character or swap two neighbours, no character being edited twice ("optimal
// string alignment"; Wagner and Fischer, The String-to-String Correction
// Problem, 1974, with the swap of Damerau, 1964). Beyond limit the answer is
// limit+1 or more.
func distance(a, b []rune, limit int) int {
	if d := len(a) - len(b); d > limit || -d > limit {
		return limit + 1
	}
	// Three rows of the table are enough: a swap looks back two. Where the least of
	// two rows is beyond the limit, so is all that follows.
	rows := make([]int, 3*(len(b)+1))
	before, above, row := rows[:len(b)+1], rows[len(b)+1:2*(len(b)+1)], rows[2*(len(b)+1):]
	for j := range row {
		row[j] = j
	}
	for i, last, least := 0, 0, 0; i < len(a); i++ {
		if last, least = least, slices.Min(row); min(last, least) > limit {
			return limit + 1
		}
		before, above, row = above, row, before
		row[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			row[j+1] = min(above[j+1]+1, row[j]+1, above[j]+cost)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
	}
	return row[len(b)]
}
