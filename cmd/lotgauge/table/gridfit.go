package table

import (
	"slices"
	"strings"
)

// spared is the grid that fits into room, without as many of its spare columns
// as it takes, and its columns' widths; the whole grid, and false, where none
// does.
func (g *grid) spared(room int, spare bool) (*grid, []int, bool) {
	less := g
	for {
		widths, ok := less.fit(room)
		if ok {
			return less, widths, true
		}
		most := 0
		for i, c := range less.columns {
			if c.spare > less.columns[most].spare {
				most = i
			}
		}
		if !spare || less.columns[most].spare == 0 {
			return g, nil, false
		}
		less = less.without(most)
	}
}

// without is the grid without a column.
func (g *grid) without(i int) *grid {
	less := &grid{columns: slices.Delete(slices.Clone(g.columns), i, i+1), numbers: g.numbers}
	for _, r := range g.rows {
		less.rows = append(less.rows, row{slices.Delete(slices.Clone(r.cells), i, i+1), r.notes})
	}
	return less
}

// fit returns the columns' widths within room, false where there is not enough.
func (g *grid) fit(room int) (widths []int, ok bool) {
	widths = make([]int, len(g.columns))
	for _, r := range append([]row{{cells: g.heads()}}, g.rows...) {
		for i, c := range r.cells {
			widths[i] = max(widths[i], c.width())
		}
	}
	room -= gap * (len(widths) - 1)
	var flexible []int
	for i, c := range g.columns {
		if c.flex {
			flexible = append(flexible, i)
		} else {
			room -= widths[i]
		}
	}
	return widths, share(widths, flexible, room)
}

// share cuts the widths of the flexible columns to fit into room together: the
// widest first, none below leastFlex unless it was narrower before.
func share(widths, flexible []int, room int) bool {
	for {
		sum, widest := 0, -1
		for _, i := range flexible {
			sum += widths[i]
			if widest < 0 || widths[i] > widths[widest] {
				widest = i
			}
		}
		switch {
		case sum <= room:
			return true
		case widest < 0 || widths[widest] <= leastFlex:
			return false
		}
		widths[widest]--
	}
}

// stack writes each row of a grid as its first cell, and below it the others,
// each after its column's head. The number of a numbered row stands before what
// it numbers.
func (p *printer) stack(g *grid) {
	for _, r := range g.rows {
		title, rest := r.cells[0], 1
		if g.numbers && len(r.cells) > 1 {
			title, rest = numbered(title, r.cells[1]), 2
		}
		for i, line := range title.lines {
			p.para(title.tone, margin+strings.Repeat(margin, min(i, 1)), margin+margin, line)
		}
		if facts := g.facts(r.cells, rest); len(facts) > 0 {
			p.para(plain, margin+margin, margin+margin, strings.Join(facts, "; "))
		}
		p.notes(g, r.notes)
	}
}

// numbered is a cell with its number before it.
func numbered(number, c cell) cell {
	if len(c.lines) == 0 {
		return number
	}
	lines := slices.Clone(c.lines)
	lines[0] = strings.Join(number.lines, "") + " " + lines[0]
	return cell{lines, c.tone}
}

// facts are the cells from the given one on, each after its column's head.
func (g *grid) facts(cells []cell, from int) []string {
	var out []string
	for i := from; i < len(cells); i++ {
		if len(cells[i].lines) == 0 {
			continue
		}
		what := strings.TrimSpace(strings.Join(cells[i].lines, ", "))
		if g.columns[i].right {
			what = tied(what)
		}
		if head := strings.ReplaceAll(g.columns[i].head, "\n", " "); head != "" {
			what = head + ": " + what
		}
		out = append(out, what)
	}
	return out
}
