package valuation

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"lotgauge/valuation/money"
)

// WriteTOML writes the listing as a file that ReadListing reads back equal,
// without comments. Text may hold anything: what a TOML string cannot hold as it
// is gets escaped, and what is no UTF-8 becomes the replacement character.
func (x *Listing) WriteTOML(w io.Writer) error {
	var b tomlWriter
	b.line("format", "1")
	b.text("title", x.Title)
	b.text("family", x.Family)
	b.text("variant", x.Variant)
	if !x.Date.IsZero() {
		b.line("date", x.Date.Format(dayFormat))
	}
	b.text("sale", map[bool]string{true: "fixed", false: "auction"}[x.Fixed])
	b.amount("ask", x.Ask)
	if h := x.Hammer; h != nil {
		b.line("hammer", "{ low = "+tomlText(h.Low.String())+", high = "+tomlText(h.High.String())+" }")
	}
	b.text("buy", x.Buy)
	b.text("sell", x.Sell)
	b.text("sell_parts", x.SellParts)
	if len(x.Routes) > 0 {
		b.line("routes", "["+strings.Join(ids(x.Routes, tomlText), ", ")+"]")
	}
	b.amount("keep_worth", x.KeepWorth)
	for i := range x.Findings {
		b.finding(&x.Findings[i])
	}
	_, err := w.Write(b.Bytes())
	return err
}

// tomlWriter writes keys one a line. A key without a value is left out.
type tomlWriter struct{ bytes.Buffer }

// finding writes one [[finding]]. Whether a symptom is there is always said, since
// its reader insists on it; of other findings it would be a stray key.
func (b *tomlWriter) finding(f *Finding) {
	b.WriteString("\n[[finding]]\n")
	b.text("point", f.Point)
	b.text("feature", f.Feature)
	b.text("symptom", f.Symptom)
	b.text("variant", f.Variant)
	b.text("state", f.State)
	b.text("option", f.Option)
	b.text("reading", f.Reading)
	if f.Symptom != "" {
		b.line("present", strconv.FormatBool(f.Present))
	}
	b.text("by", f.By)
	if f.Trust != nil {
		b.line("trust", strconv.FormatFloat(*f.Trust, 'g', -1, 64))
	}
	b.text("note", f.Note)
}

func (b *tomlWriter) line(key, value string) { b.WriteString(key + " = " + value + "\n") }

func (b *tomlWriter) text(key, value string) {
	if value != "" {
		b.line(key, tomlText(value))
	}
}

func (b *tomlWriter) amount(key string, a *money.Amount) {
	if a != nil {
		b.line(key, tomlText(a.String()))
	}
}

// tomlText is a text as a basic string of TOML 1.0, on one line: quotes,
// backslashes and control characters are escaped.
func tomlText(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"', r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < 0x20 || r >= 0x7f && r < 0xa0:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
