package table

import (
	"strings"

	pretty "github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"lotgauge/valuation/diag"
)

// A column of a grid. A flexible one gives way where the width is short: its
// text is wrapped. A spare one is left out there, those with the highest number
// first, unless all is to be shown.
type column struct {
	head  string // may have several lines
	right bool   // numbers
	flex  bool
	spare int
}

// A cell is lines of clean text.
type cell struct {
	lines []string
	tone  tone
}

// words makes a cell of lines of text; empty ones are left out.
func words(lines ...string) cell { return toned(plain, lines...) }

func toned(t tone, lines ...string) cell {
	c := cell{tone: t}
	for _, line := range lines {
		if line != "" {
			c.lines = append(c.lines, diag.Clean(line))
		}
	}
	return c
}

// width is that of the longest line.
func (c cell) width() int {
	most := 0
	for _, line := range c.lines {
		most = max(most, width(line))
	}
	return most
}

// wrapped is the cell with no line longer than most.
func (c cell) wrapped(most int) cell {
	var lines []string
	for _, line := range c.lines {
		if width(line) <= most {
			lines = append(lines, line) // keeps the spaces that align it
		} else {
			lines = append(lines, wrap(line, most)...)
		}
	}
	return cell{lines, c.tone}
}

// A grid is rows of cells under columns.
type grid struct {
	columns []column
	rows    []row
	numbers bool // the first column numbers the rows: notes stand below the second
}

// A row may have notes, which are written below it over all columns.
type row struct {
	cells []cell
	notes []string
}

func (g *grid) add(cells ...cell) { g.rows = append(g.rows, row{cells: cells}) }

// note adds a note to the last row, unless it is empty.
func (g *grid) note(s string) {
	if r := &g.rows[len(g.rows)-1]; s != "" {
		r.notes = append(r.notes, s)
	}
}

// gap is the number of columns between two columns.
const gap = 2

// leastFlex is how narrow a flexible column may become before the grid is
// written as a list instead.
const leastFlex = 12

// grid writes a grid, and where the width is too short for its columns, a list
// of its rows.
func (p *printer) grid(g *grid) {
	if len(g.rows) == 0 {
		return
	}
	g, widths, ok := g.spared(p.width-len(margin), !p.full)
	if !ok {
		p.stack(g)
		return
	}
	w := pretty.NewWriter()
	w.SetStyle(bare)
	w.SetColumnConfigs(g.configs(widths))
	after := 0 // lines of the header
	if head := g.heads(); head != nil {
		w.AppendHeader(p.cells(head, widths))
		after = height(head, widths)
	}
	for _, r := range g.rows {
		w.AppendRow(p.cells(r.cells, widths))
	}
	lines := strings.Split(w.Render(), "\n")
	p.lines(lines[:after])
	for _, r := range g.rows {
		here := height(r.cells, widths)
		p.lines(lines[after : after+here])
		after += here
		p.notes(g, r.notes)
	}
}

// lines writes what go-pretty laid out, without the blanks it fills up with.
func (p *printer) lines(lines []string) {
	for _, line := range lines {
		p.out.WriteString(strings.TrimRight(margin+line, " ") + "\n")
	}
}

func (p *printer) notes(g *grid, notes []string) {
	indent := margin + margin
	if g.numbers {
		indent += margin
	}
	for _, note := range notes {
		p.para(faint, indent, indent, note)
	}
}

// height is how many lines a row of cells takes.
func height(cells []cell, widths []int) int {
	most := 1
	for i, c := range cells {
		most = max(most, len(c.wrapped(widths[i]).lines))
	}
	return most
}

// bare is a style of our own: no borders, no rules, columns apart by a gap.
var bare = pretty.Style{
	Box: pretty.BoxStyle{MiddleVertical: strings.Repeat(" ", gap), PageSeparator: "\n"},
	Format: pretty.FormatOptions{
		Header: text.FormatDefault, Row: text.FormatDefault, Footer: text.FormatDefault,
	},
	Options: pretty.Options{SeparateColumns: true},
}

func (g *grid) configs(widths []int) []pretty.ColumnConfig {
	out := make([]pretty.ColumnConfig, len(g.columns))
	for i, c := range g.columns {
		align := text.AlignLeft
		if c.right {
			align = text.AlignRight
		}
		out[i] = pretty.ColumnConfig{Number: i + 1, Align: align, AlignHeader: align, VAlignHeader: text.VAlignBottom, WidthMin: widths[i]}
	}
	return out
}

// heads are the cells of the header, nil where no column has one.
func (g *grid) heads() []cell {
	var out []cell
	some := false
	for _, c := range g.columns {
		out = append(out, toned(faint, strings.Split(c.head, "\n")...))
		some = some || c.head != ""
	}
	if !some {
		return nil
	}
	return out
}

func (p *printer) cells(cells []cell, widths []int) pretty.Row {
	out := make(pretty.Row, len(cells))
	for i, c := range cells {
		var lines []string
		for _, line := range c.wrapped(widths[i]).lines {
			lines = append(lines, p.paint(c.tone, line))
		}
		out[i] = strings.Join(lines, "\n")
	}
	return out
}
