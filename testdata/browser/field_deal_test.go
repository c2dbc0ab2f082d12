package browser

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lotgauge/cmd/lotgauge/field"
)

// openStall opens the page made for cash at a stall.
func openStall(t *testing.T, s screen) *handset {
	t.Helper()
	p := fieldPage(t)
	p.Buy = "stall-cash"
	var b bytes.Buffer
	if err := field.Build(&b, p); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "field.html")
	if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	x := openPhone(t, "file://"+filepath.ToSlash(file), s)
	x.wait(`document.querySelector("h1, .prices")`)
	return x
}

// shown tells whether what a selector finds is in sight: whole within the screen,
// with nothing over it, and not cut off by what it scrolls in.
func (x *handset) shown(selector string) bool {
	x.t.Helper()
	return ask[bool](x.t, x.tab, `
		const e = document.querySelector(`+quote(selector)+`);
		if (!e) return false;
		const r = e.getBoundingClientRect(), over = (x, y) => e.contains(document.elementFromPoint(x, y));
		return r.width > 0 && r.top >= 0 && r.left >= 0 && r.bottom <= innerHeight && r.right <= innerWidth
			&& over(r.left + r.width / 2, r.top + 3) && over(r.left + r.width / 2, r.bottom - 3)`)
}

// TestFieldSheet: on a page made for a stall finds are bought there, also after
// one that was not; the sheet stands beside the figures, and one tap leads to the
// others.
func TestFieldSheet(t *testing.T) {
	for _, s := range []screen{upright, uprightInk, across, acrossInk} {
		t.Run(s.name, func(t *testing.T) {
			x := openStall(t, s)
			bought := func(sheet, currency string) {
				t.Helper()
				x.wait(`document.querySelector(".price.main .amount").textContent.endsWith("\u00a0` + currency + `")`)
				if got := ask[string](t, x.tab, `return document.querySelector("[data-key='bought by']").textContent`); got != sheet+", "+currency {
					t.Errorf("bought by %q, not %q in %s", got, sheet, currency)
				}
				if !x.shown("[data-key='bought by']") {
					t.Error("the sheet is not in sight")
				}
			}
			x.tap("New find")
			x.wait(`document.querySelector("[data-key=sheets]")`)
			ask[any](t, x.tab, `now.sheet = "abroad-import"; draw()`) // the longest title
			if high := ask[int](t, x.tab, `return Math.round(document.querySelector("[data-key=sheets] span").getClientRects()[0].height)`); high > 40 {
				t.Errorf("beside a long title the label is %d high", high)
			}
			x.picture("new with a long title")
			ask[any](t, x.tab, `now.sheet = ""; draw()`)
			x.tap("family " + largest)
			bought("Cash at a stall", "EUR")
			x.settled()
			x.picture("stall")
			x.tap("bought by")
			x.wait(`document.getElementById("sheets")`)
			x.picture("sheets")
			if !x.shown("[data-key='sheet northquay']") {
				t.Error("the other sheets are not in sight")
			}
			x.tap("sheet northquay")
			bought("Northquay Rooms", "GBP")
			x.tap("‹ Finds")
			x.tap("New find")
			x.tap("family " + largest)
			bought("Cash at a stall", "EUR")
			x.quiet(t)
		})
	}
}

// TestFieldFixedPrice: what Deal marks is what the listing file says, whatever is
// tapped: a fixed price without a price is an auction, and it is said what is
// missing.
func TestFieldFixedPrice(t *testing.T) {
	x := openField(t, upright)
	x.tap("New find")
	x.tap("family " + largest)
	x.tap("Deal")
	agree := func(when string, fixed, missing bool) {
		t.Helper()
		x.wait(`document.getElementById("sale")`)
		got := ask[struct {
			Marked []string
			File   string
		}](t, x.tab, `return {
			Marked: [...document.querySelectorAll("#sale [aria-pressed=true]")].map(e => e.textContent),
			File: engine.call("toml", record().find)}`)
		want := map[bool]string{true: "Fixed price", false: "Auction"}[fixed]
		if strings.Join(got.Marked, ", ") != want || strings.Contains(got.File, `sale = "fixed"`) != fixed {
			t.Errorf("%s: marked %q, not %s; the file: %s", when, got.Marked, want, got.File)
		}
		if strings.Contains(x.text(), "needs a price") != missing {
			t.Errorf("%s: what is missing is said: %v", when, !missing)
		}
	}
	agree("begun", false, true)
	x.picture("no price")
	x.enter("ask", "60")
	agree("with a price", true, false)
	x.tap("Auction")
	agree("as an auction", false, false)
	ask[any](t, x.tab, `document.getElementById("ask").value = ""; document.getElementById("ask").dispatchEvent(new Event("input"))`)
	agree("as an auction without a price", false, false)
	x.tap("Fixed price")
	agree("asked to be fixed", false, true)
	x.enter("ask", "60")
	agree("with a price again", true, false)
	x.quiet(t)
}
