package browser

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
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
