package csvtext

import (
	"bytes"
	"strings"

	"lotgauge/valuation/prices"
)

// A spreadsheet takes a cell that begins with one of these for a formula, and a
// formula can send off what stands in other cells: "CSV Injection", OWASP,
// https://owasp.org/www-community/attacks/CSV_Injection (the list is theirs).
const formula = "=+-@\t\r"

// guard is what keeps it from doing so.
const guard = '\''

// Guard puts an apostrophe before text that a spreadsheet would take for a
// formula, and before text that one stands before already, so that [Unguard]
// can tell the one from the other.
func Guard(text string) string {
	if guarded := strings.TrimLeft(text, string(guard)); guarded != "" && strings.IndexByte(formula, guarded[0]) >= 0 {
		return string(guard) + text
	}
	return text
}

// Unguard undoes Guard.
func Unguard(text string) string {
	if rest, ok := strings.CutPrefix(text, string(guard)); ok && Guard(rest) != rest {
		return rest
	}
	return text
}

// Export is a price table of the rows for a spreadsheet: every cell guarded. It
// begins with a byte order mark if there is any letter beyond ASCII, which some
// programs would else misread.
func Export(rows []prices.Row) []byte {
	out := appendCells(nil, Columns, "\n")
	for _, row := range rows {
		cells := prices.FormatRow(Columns, row)
		for i := range cells {
			cells[i] = Guard(cells[i])
		}
		out = appendCells(out, cells, "\n")
	}
	if bytes.IndexFunc(out, func(r rune) bool { return r >= 0x80 }) >= 0 {
		out = append(bytes.Clone(mark), out...)
	}
	return out
}

// Unguarded is a CSV text with Unguard done to every cell. All else stays, and
// so does the number of lines.
func Unguarded(text []byte) []byte {
	if bytes.IndexByte(text, guard) < 0 {
		return text
	}
	out := make([]byte, 0, len(text))
	if bytes.HasPrefix(text, mark) {
		out, text = append(out, mark...), text[len(mark):]
	}
	for len(text) > 0 {
		end := lineLength(text)
		if text[0] != comment {
			end, _ = record(text)
			out = unguardRecord(out, text[:end])
		} else {
			out = append(out, text[:end]...)
		}
		text = text[end:]
	}
	return out
}

// unguardRecord adds a record with its cells unguarded.
func unguardRecord(out, text []byte) []byte {
	for len(text) > 0 {
		n := cellLength(text)
		cell := text[:n]
		if cell[0] == '"' {
			out, cell = append(out, '"'), cell[1:]
		}
		inside := strings.TrimSuffix(strings.TrimSuffix(string(cell), "\n"), "\r") // the end of the line is none of it
		if Unguard(inside) != inside {
			cell = cell[1:]
		}
		out = append(out, cell...)
		text = text[n:]
	}
	return out
}

// cellLength is the length of the first cell with what ends it.
func cellLength(text []byte) int {
	n := 0
	if text[0] == '"' {
		if n = quotedLength(text); n == 0 {
			return len(text)
		}
	}
	if i := bytes.IndexByte(text[n:], ','); i >= 0 {
		return n + i + 1
	}
	return len(text)
}
