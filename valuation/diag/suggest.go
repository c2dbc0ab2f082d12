package diag

import "strings"

// Nearest is the known name that name was most likely meant to be: the one with
// the smallest edit distance, the first of equals. Upper and lower case, and
// - and _, count as the same letter. It must be near: one edit for a name of 2
// or 3 characters, two up to 7, three beyond.
func Nearest(name string, known []string) (string, bool) {
	wanted := letters(name)
	if len(wanted) == 0 || len(wanted) > 100 {
		return "", false
	}
	limit := min(1+len(wanted)/4, 3, len(wanted)-1)
	nearest, found := "", false
	for _, k := range known {
		if d := distance(wanted, letters(k), limit); d <= limit {
			nearest, found, limit = k, true, d-1
		}
	}
	return nearest, found
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
	// Three rows of the table are enough: a swap looks back two.
	before, above, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
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
