package table

import (
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"lotgauge/valuation/diag"
)

// Options say what the output is for.
type Options struct {
	Width  int  // columns of a line, at least MinWidth
	Colour bool // whether colour codes may be used
	Full   bool // everything that is known, not only what a bidder decides by
}

// MinWidth is the narrowest width that anything can be laid out in.
const MinWidth = 40

// A tone is what a piece of text is, as far as colour can say it.
type tone uint8

const (
	plain tone = iota
	strong
	faint
	good
	warn
	bad
)

var codes = map[tone]text.Colors{
	strong: {text.Bold},
	faint:  {text.Faint},
	good:   {text.Bold, text.FgGreen},
	warn:   {text.FgYellow},
	bad:    {text.Bold, text.FgRed},
}

// A printer collects the output.
type printer struct {
	out    strings.Builder
	width  int
	colour bool
	full   bool
}

func newPrinter(o Options) *printer {
	return &printer{width: max(o.Width, MinWidth), colour: o.Colour, full: o.Full}
}

// writeTo writes what has been collected, in one piece.
func (p *printer) writeTo(w io.Writer) error {
	_, err := io.WriteString(w, p.out.String())
	return err
}

// most is how many rows of a section are shown: short, or all there are.
func (p *printer) most(short, all int) int {
	if p.full {
		return all
	}
	return min(short, all)
}

// paint colours one line of text that has been measured already.
func (p *printer) paint(t tone, s string) string {
	if !p.colour || t == plain || s == "" {
		return s
	}
	return codes[t].EscapeSeq() + s + text.EscapeReset
}

// line writes one line as it is; it must be clean and fit.
func (p *printer) line(t tone, s string) {
	p.out.WriteString(p.paint(t, s) + "\n")
}

func (p *printer) blank() { p.out.WriteByte('\n') }

// heading opens a section.
func (p *printer) heading(s string) {
	p.blank()
	p.para(strong, "", "", s)
}

// para writes text wrapped to the width, its first line after the indent first
// and the others after the indent rest.
func (p *printer) para(t tone, first, rest, s string) {
	indent := first
	for _, line := range wrap(diag.Clean(s), p.width-max(len(first), len(rest))) {
		p.out.WriteString(indent)
		p.line(t, line)
		indent = rest
	}
}

// note writes a paragraph of a section.
func (p *printer) note(t tone, s string) { p.para(t, margin, margin, s) }

// item writes an entry of a list, its lines but the first indented more.
func (p *printer) item(t tone, s string) { p.para(t, margin, margin+margin, s) }

// margin is the indent of what stands below a heading.
const margin = "  "
