package csvtext

import (
	"bytes"
	"cmp"
	"slices"
	"strings"
	"time"

	"lotgauge/valuation/prices"
)

// A Merge is what a newer file of rates brought to the text of an older one.
type Merge struct {
	Text       []byte
	New        []time.Time // days that the older file had not, ascending
	Changed    []Change    // rates that it had otherwise
	Currencies []string    // columns that it had not
}

// A Change is a rate that a newer file has otherwise. Was is "" where there was
// none.
type Change struct {
	Day      time.Time
	Currency string
	Was, Is  string
}

// MergeRates merges two files of exchange rates, in the layout that
// [prices.ReadRates] reads. The days and currencies of the newer one are taken
// over, its rates put in the place of those that the older one has otherwise;
// what it has nothing about stays as it is, remarks and line ends too. New days
// are put in where the older file's order has them, new columns behind the
// others. Text that is nil is a file with no day yet: the newer one is taken as
// it is.
//
// The errors are diag.Lists, of mistakes in the one file or the other; name and
// newerName are their names.
func MergeRates(name string, text []byte, newerName string, newer []byte) (*Merge, error) {
	from, err := readSheet(newerName, newer)
	if err != nil {
		return nil, err
	}
	if text == nil {
		return from.whole(newer), nil
	}
	to, err := readSheet(name, text)
	if err != nil {
		return nil, err
	}
	m := &Merge{}
	m.widen(to, from)
	m.update(to, from)
	m.Text = to.text()
	_, diags := prices.ReadRates(name, bytes.NewReader(m.Text))
	return m, diags.Err()
}

// whole is the merge into nothing.
func (s *sheet) whole(text []byte) *Merge {
	m := &Merge{Text: text, Currencies: s.names}
	for _, l := range s.lines {
		if !l.day.IsZero() {
			m.New = append(m.New, l.day)
		}
	}
	slices.SortFunc(m.New, time.Time.Compare)
	return m
}

// widen adds the columns of from that have any rate and that s has not.
func (m *Merge) widen(s, from *sheet) {
	rated := map[string]bool{}
	for _, l := range from.lines {
		if l.day.IsZero() {
			continue
		}
		for name, rate := range from.rates(l) {
			rated[name] = rated[name] || !none(rate)
		}
	}
	for _, name := range from.names {
		if name != "" && rated[name] && !slices.Contains(s.names, name) {
			m.Currencies = append(m.Currencies, name)
		}
	}
	s.add(m.Currencies)
}

// update takes the rates of from over into s.
func (m *Merge) update(s, from *sheet) {
	have := map[time.Time]int{}
	for i, l := range s.lines {
		if !l.day.IsZero() {
			have[l.day] = i
		}
	}
	var fresh []rateLine
	for _, l := range from.lines {
		if l.day.IsZero() {
			continue
		}
		rates := from.rates(l)
		if i, known := have[l.day]; known {
			m.change(s, &s.lines[i], rates)
			continue
		}
		m.New = append(m.New, l.day)
		fresh = append(fresh, s.row(l.day, rates))
	}
	slices.SortFunc(m.New, time.Time.Compare)
	slices.SortFunc(m.Changed, func(a, b Change) int {
		return cmp.Or(a.Day.Compare(b.Day), cmp.Compare(a.Currency, b.Currency))
	})
	s.insert(fresh)
}

// change puts the rates of a day into its line.
func (m *Merge) change(s *sheet, l *rateLine, rates map[string]string) {
	cells := s.open(l.text, len(s.names)+1)
	differs := false
	for i, name := range s.names {
		was, is := bare(cells[i+1]), rates[name]
		if none(is) || equal(was, is) {
			continue
		}
		if none(was) {
			was = ""
		}
		if was != "" || !slices.Contains(m.Currencies, name) {
			m.Changed = append(m.Changed, Change{l.day, name, was, is})
		}
		cells[i+1], differs = is, true
	}
	if differs {
		l.text = s.closed(cells)
	}
}

// equal tells whether two numbers differ in nothing but zeros at their end.
func equal(a, b string) bool {
	short := func(s string) string {
		if strings.Contains(s, ".") {
			s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
		}
		return s
	}
	return short(a) == short(b)
}
