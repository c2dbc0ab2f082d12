package table

import (
	"fmt"
	"strings"

	"lotgauge/valuation"
)

// amount is money with its currency, "41.00 GBP", or "-" where there is none.
func amount(m *valuation.Money, currency string) string {
	if m == nil {
		return "-"
	}
	return m.Text() + " " + currency
}

// figure is money without its currency, for columns that name it in the head.
func figure(m *valuation.Money) string {
	if m == nil {
		return "-"
	}
	return m.Text()
}

// certain is from where a chance is as good as 1, and negligible below which an
// answer is not worth a line.
const (
	certain    = 1 - 1e-9
	negligible = 0.005
)

// percent is a chance in a column: "31%". What is possible is never shown as
// 0%, and what is not certain never as 100%.
func percent(s valuation.Share) string {
	p := 100 * float64(s)
	switch {
	case p > 0 && p < 0.5:
		return "<1%"
	case s < certain && p >= 99.5:
		return ">99%"
	}
	return fmt.Sprintf("%d%%", int(p+0.5))
}

// in100 is a chance in a sentence: "in 31 of 100".
func in100(s valuation.Share) string {
	p := 100 * float64(s)
	switch {
	case p <= 0:
		return "in none of 100"
	case p < 0.5:
		return "in fewer than 1 of 100"
	case s >= certain:
		return "in all of 100"
	case p >= 99.5:
		return "in more than 99 of 100"
	}
	return fmt.Sprintf("in %d of 100", int(p+0.5))
}

// score is a score from 0 to 100.
func score(t valuation.Tenth) string { return fmt.Sprintf("%.1f", float64(t)) }

// pieces is an expected number of pieces.
func pieces(s valuation.Share) string {
	if s > 0 && s < 0.005 {
		return "<0.01"
	}
	return fmt.Sprintf("%.2f", float64(s))
}

// counted is a number with its noun, "1 part" or "2 parts".
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if stem, ok := strings.CutSuffix(noun, "y"); ok {
		return fmt.Sprintf("%d %sies", n, stem)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// grouped is a whole number with spaces between its thousands, "20 000".
func grouped(n int) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + " " + s[i:]
	}
	return s
}

// aligned pads amounts so that their decimal points stand below each other when
// they are set flush right, whatever their decimals and currencies.
func aligned(amounts []string) []string {
	tail := func(s string) int {
		if i := strings.IndexAny(s, ". "); i >= 0 {
			return len(s) - i
		}
		return 0
	}
	most := 0
	for _, s := range amounts {
		most = max(most, tail(s))
	}
	out := make([]string, len(amounts))
	for i, s := range amounts {
		out[i] = s + strings.Repeat(" ", most-tail(s))
	}
	return out
}

// by says in words what a finding rests on.
func by(evidence string) string {
	switch evidence {
	case "hand":
		return "in the hand"
	case "track":
		return "on the track"
	case "photo":
		return "a photo"
	case "seller":
		return "the seller"
	case "hidden":
		return "not shown"
	}
	return evidence
}

// routeName says in words what a route is.
func routeName(id string) string {
	switch id {
	case "sell-restored":
		return "restore and sell"
	case "sell-running":
		return "get running and sell"
	case "sell-as-found":
		return "sell as found"
	case "part-out":
		return "sell in parts"
	case "keep":
		return "restore and keep"
	}
	return id
}

// listed joins names: "a, b and c".
func listed(names []string) string { return joined(names, " and ") }

// either joins alternatives: "a, b or c".
func either(names []string) string { return joined(names, " or ") }

func joined(names []string, last string) string {
	n := len(names) - 1
	if n < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:n], ", ") + last + names[n]
}

// sentence ends a text with a full stop, unless it ends in one already.
func sentence(s string) string {
	if s == "" || strings.ContainsRune(".!?…", []rune(s)[len([]rune(s))-1]) {
		return s
	}
	return s + "."
}
