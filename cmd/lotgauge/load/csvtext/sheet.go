package csvtext

import (
	"bytes"
	"slices"
	"strings"
	"time"

	"lotgauge/valuation/prices"
)

// A sheet is a file of rates, line by line.
type sheet struct {
	head  string // a byte order mark, or nothing
	nl    string // ends new lines
	lines []rateLine
	names []string // of the columns after the date's, in the header's order
	at    int      // of the header in lines
	comma bool     // lines end in one
}

// rateLine is a line; day is zero for those that hold no rates.
type rateLine struct {
	text, end string
	day       time.Time
}

// readSheet cuts a file into its lines once prices.ReadRates finds it sound. No
// cell of such a file holds a comma or a line end.
func readSheet(name string, text []byte) (*sheet, error) {
	_, diags := prices.ReadRates(name, bytes.NewReader(text))
	if err := diags.Err(); err != nil {
		return nil, err
	}
	s := &sheet{nl: endOfLine(text), at: -1}
	if bytes.HasPrefix(text, mark) {
		s.head, text = string(mark), text[len(mark):]
	}
	for line := range strings.Lines(string(text)) {
		l := rateLine{text: strings.TrimRight(line, "\r\n")}
		l.end = line[len(l.text):]
		switch bare := strings.TrimRight(l.text, " \r"); {
		case bare == "" || bare[0] == comment:
		case s.at < 0:
			s.at = len(s.lines)
			s.header(bare)
		default:
			date, _, _ := strings.Cut(bare, ",")
			l.day, _ = dayOf(date) // ReadRates has read it
		}
		s.lines = append(s.lines, l)
	}
	return s, nil
}

// header takes the names of the columns in.
func (s *sheet) header(line string) {
	cells := strings.Split(line, ",")
	if s.comma = len(cells) > 1 && bare(cells[len(cells)-1]) == ""; s.comma {
		cells = cells[:len(cells)-1]
	}
	for _, cell := range cells[1:] {
		s.names = append(s.names, bare(cell))
	}
}

// bare is a cell without the spaces and quotes that are allowed around it.
func bare(cell string) string {
	cell = strings.TrimSpace(cell)
	if n := len(cell); n >= 2 && cell[0] == '"' && cell[n-1] == '"' {
		return cell[1 : n-1]
	}
	return cell
}

// dayOf reads a date as the bank writes it: 2026-03-14 in the history, 14 March
// 2026 in the file of one day.
func dayOf(cell string) (time.Time, error) {
	day, err := time.Parse(time.DateOnly, bare(cell))
	if err != nil {
		day, err = time.Parse("2 January 2006", bare(cell))
	}
	return day, err
}

// rates are the cells of a line by the names of their columns.
func (s *sheet) rates(l rateLine) map[string]string {
	out := map[string]string{}
	for i, cell := range strings.Split(l.text, ",")[1:] {
		if i < len(s.names) {
			out[s.names[i]] = bare(cell)
		}
	}
	return out
}

// none tells a cell that says there is no rate.
func none(rate string) bool { return rate == "" || rate == "N/A" }

// add adds columns to the header and an empty cell for each to every row.
func (s *sheet) add(names []string) {
	if len(names) == 0 {
		return
	}
	h := &s.lines[s.at]
	h.text = s.closed(append(s.open(h.text, len(s.names)+1), names...))
	for i := range s.lines {
		if l := &s.lines[i]; !l.day.IsZero() {
			l.text = s.closed(append(s.open(l.text, len(s.names)+1), make([]string, len(names))...))
		}
	}
	s.names = append(s.names, names...)
}

// open cuts a line into its first n cells.
func (s *sheet) open(line string, n int) []string {
	cells := strings.Split(strings.TrimRight(line, " \r"), ",")
	for len(cells) < n {
		cells = append(cells, "")
	}
	return cells[:n]
}

// closed joins cells to a line.
func (s *sheet) closed(cells []string) string {
	line := strings.Join(cells, ",")
	if s.comma {
		line += ","
	}
	return line
}

// row is a line of a day that s has not.
func (s *sheet) row(day time.Time, rates map[string]string) rateLine {
	cells := []string{day.Format(time.DateOnly)}
	for _, name := range s.names {
		cells = append(cells, rates[name])
	}
	return rateLine{text: s.closed(cells), end: s.nl, day: day}
}

// insert puts lines where the order of s has them: newest first as the bank
// writes, or oldest first, told by the first and the last day that s has.
func (s *sheet) insert(fresh []rateLine) {
	var days []time.Time
	for _, l := range s.lines {
		if !l.day.IsZero() {
			days = append(days, l.day)
		}
	}
	order := func(a, b time.Time) int { return b.Compare(a) }
	if n := len(days); n > 1 && days[0].Before(days[n-1]) {
		order = time.Time.Compare
	}
	slices.SortFunc(fresh, func(a, b rateLine) int { return order(a.day, b.day) })
	if n := len(s.lines) - 1; s.lines[n].end == "" && len(fresh) > 0 {
		s.lines[n].end = s.nl
	}
	out := s.lines[: s.at+1 : s.at+1]
	var above []rateLine // remarks, which stay with what they stand above
	for _, l := range s.lines[s.at+1:] {
		if l.day.IsZero() {
			above = append(above, l)
			continue
		}
		for len(fresh) > 0 && order(fresh[0].day, l.day) < 0 {
			out, fresh = append(out, fresh[0]), fresh[1:]
		}
		out = append(append(out, above...), l)
		above = nil
	}
	s.lines = slices.Concat(out, above, fresh)
}

// text is the sheet as a file.
func (s *sheet) text() []byte {
	var b bytes.Buffer
	b.WriteString(s.head)
	for _, l := range s.lines {
		b.WriteString(l.text + l.end)
	}
	return b.Bytes()
}
