package browser

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"lotgauge/cmd/lotgauge/page"
	"lotgauge/valuation"
)

// sheet is a page in the source of a PDF.
var sheet = regexp.MustCompile(`/Type\s*/Page\b`)

// TestPrint: an appraisal prints on two sheets of A4.
func TestPrint(t *testing.T) {
	for name, file := range pages(t) {
		if name == "hostile" { // as long as its texts are
			continue
		}
		t.Run(name, func(t *testing.T) {
			x := open(t, file, laptop)
			pdf := run(t, x, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize(), chromedp.PDFPrintBackground()))
			if n := len(sheet.FindAll(pdf, -1)); n < 1 || n > 2 {
				t.Errorf("it takes %d sheets", n)
			}
			if dir := os.Getenv("LOTGAUGE_SHOTS"); dir != "" {
				if err := os.WriteFile(filepath.Join(dir, strings.ReplaceAll(name, " ", "-")+".pdf"), pdf, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			x.quiet(t)
		})
	}
}

// TestPrintSheet: a sheet to take along prints on few pages, each check in one
// piece and to be read at a stall, on either size of paper: both sides of one
// sheet of A4, or of two of A5. A family of forty checks needs a third side of A4.
func TestPrintSheet(t *testing.T) {
	for family, sides := range map[string]int{"pellworth-ce4": 3, "quillmore-t8": 2, "tarnside-r12": 2, "tarnside-s3": 2} {
		for size, width := range map[string]int64{"a4": 718, "a5": 499} { // of the paper less its margins, px
			t.Run(family+" "+size, func(t *testing.T) {
				x := open(t, sheetToPrint(t, family, size == "a5"), phone)
				pdf := run(t, x, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize(), chromedp.PDFPrintBackground()))
				most := sides
				if size == "a5" {
					most = 4
				}
				if n := len(sheet.FindAll(pdf, -1)); n < 1 || n > most {
					t.Errorf("it takes %d pages", n)
				}
				order(t, x, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 700, DeviceScaleFactor: 1})
				order(t, x, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
				x.legible(t)
				x.quiet(t)
			})
		}
	}
}

// legible reports what cannot be read at a stall, or may be torn apart.
func (x *tab) legible(t *testing.T) {
	t.Helper()
	for _, wrong := range ask[[]string](t, x, `
		const out = [], all = s => [...document.querySelectorAll(s)], style = e => getComputedStyle(e);
		const points = e => parseFloat(style(e).fontSize) * 0.75, say = (what, e) => out.push(what + ": " + e.textContent.trim().slice(0, 60));
		for (const e of all(".check tbody th, .check tbody td")) if (points(e) < 7) say("under 7 points", e);
		for (const e of all(".ends")) {
			const bold = e.querySelector("b");
			if (points(bold) < points(e.closest("th")) || style(bold).fontWeight < 600) say("said too softly", e);
		}
		for (const e of all(".check")) {
			if (style(e).display !== "inline-block" || style(e).breakInside !== "avoid") say("may be broken", e);
			const headed = e.querySelector(".columns").getClientRects().length > 0;
			if (headed === e.classList.contains("tight")) say(headed ? "headed in vain" : "figures without a heading", e);
		}
		for (const e of all(".years")) {
			const r = document.createRange();
			r.selectNodeContents(e);
			if (r.getClientRects().length > 1) say("years on two lines", e);
		}
		return out;`) {
		t.Error(wrong)
	}
}

// sheetToPrint writes the sheet of a built-in family and returns its path.
func sheetToPrint(t *testing.T, family string, small bool) string {
	t.Helper()
	l, day := valuation.Open(demonstration(t), "", true), time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	o := valuation.ReckonOptions{Buy: "stall-cash", Finds: 20}
	o.Today, o.Draws = day, 5000
	r, diags := l.Reckon(family, o)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	f, diags := l.Family(family)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	mind := strings.Repeat("What to mind, said as long as it is. ", 4)
	file := filepath.Join(t.TempDir(), family+".html")
	w, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	s := page.Sheet{
		Reckoner: r, Family: f, Small: small, Date: day, Finds: 500, Draws: 20000, Seed: 1, Folder: "built-in",
		Cautions: []string{mind, mind, mind[:100], mind[:70]}, Demonstration: true,
	}
	if err := page.WriteSheet(w, s); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return file
}
