package prices

import (
	"fmt"
	"strings"
	"unicode"
)

// numberFormat is how a file writes numbers.
type numberFormat struct {
	decimal   rune
	thousands rune // 0: digits are not grouped
}

// plain writes a number of the file as a price table does: 1.234,50 as 1234.50.
// Grouped digits must be in threes, so that a number of the wrong format is not
// read as another: 12.50 in a file said to have decimal commas is refused, and not
// 1250. How countries write numbers is in the Unicode Common Locale Data
// Repository, https://cldr.unicode.org; those that group by twos as well (lakh)
// are not read.
func (f numberFormat) plain(text string) (string, error) {
	whole, fraction, point := strings.Cut(unifyAll(text), string(unify(f.decimal)))
	groups := []string{whole}
	if f.thousands != 0 {
		groups = strings.Split(whole, string(f.thousands))
	}
	for i, group := range groups {
		if !allDigits(group) || len(groups) > 1 && (len(group) > 3 || i > 0 && len(group) < 3) {
			return "", f.objection(text)
		}
	}
	plain := strings.Join(groups, "")
	if point {
		if !allDigits(fraction) {
			return "", f.objection(text)
		}
		plain += "." + fraction
	}
	return plain, nil
}

// objection says that a text is no number, and how the map has numbers.
func (f numberFormat) objection(text string) error {
	if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "−") {
		return fmt.Errorf("%s is negative", quote(text))
	}
	grouped := "digits not grouped"
	if f.thousands != 0 {
		grouped = fmt.Sprintf("thousands grouped with %q", f.thousands)
	}
	return fmt.Errorf("%s is not a number with decimals after %q and %s", quote(text), f.decimal, grouped)
}

// splitMoney takes a price apart into the number and a currency that stands
// before or after it. What has signs or marks there stays whole, and will be
// refused as a number.
func splitMoney(text string) (number, label string) {
	from := strings.IndexFunc(text, isDigit)
	if from < 0 {
		return text, ""
	}
	to := strings.LastIndexFunc(text, isDigit) + 1
	before, after := strings.TrimFunc(text[:from], isSpace), strings.TrimFunc(text[to:], isSpace)
	label = before + after
	if before != "" && after != "" || strings.ContainsAny(label, "+-−–,'") || !strings.ContainsFunc(label, isCurrency) {
		return strings.TrimFunc(text, isSpace), ""
	}
	return text[from:to], label
}

// isCurrency reports a character that names of currencies are made of.
func isCurrency(r rune) bool { return unicode.IsLetter(r) || unicode.Is(unicode.Sc, r) }

// unify gives marks of thousands that look alike in print one form: spaces that
// do not break, and the apostrophe of typographers.
func unify(r rune) rune {
	switch r {
	case '\u00a0', '\u2009', '\u202f':
		return ' '
	case '’':
		return '\''
	}
	return r
}

// unifyAll is unify for each character.
func unifyAll(text string) string { return strings.Map(unify, text) }

// isDigit reports a digit 0 to 9.
func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// isSpace reports a space of any kind.
func isSpace(r rune) bool { return unicode.IsSpace(r) || unify(r) == ' ' }

// allDigits reports whether a text is one digit or more and nothing else.
func allDigits(text string) bool {
	return text != "" && !strings.ContainsFunc(text, func(r rune) bool { return !isDigit(r) })
}
