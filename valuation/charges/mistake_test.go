package charges

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"lotgauge/valuation/diag"
)

// TestOneMistakeIsOneDiagnostic spoils each value of real sheets in turn, as
// text without sense and as a refused value: nothing that follows from it is
// reported.
func TestOneMistakeIsOneDiagnostic(t *testing.T) {
	names, _ := filepath.Glob("../../testdata/reference/appraise/sheets/*.toml")
	more, _ := filepath.Glob("../../pricedata/sheets/*.toml")
	value := regexp.MustCompile(`("[^"\n]*"|\b[0-9][0-9.-]*\b|\btrue\b|\bfalse\b)[ ]*(?:[,\]}#\n]|\r\n)`)
	spoiled := 0
	for _, name := range append(names, more...) {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		text := string(raw)
		for _, at := range value.FindAllStringSubmatchIndex(text, -1) {
			from, to := at[2], at[3]
			if line := text[strings.LastIndexByte(text[:from], '\n')+1 : from]; strings.Contains(line, "#") || !strings.Contains(line, "=") {
				continue
			}
			for _, wrong := range []string{"@", "09:30:00"} {
				doc := diag.ReadDocument(name, strings.NewReader(text[:from]+wrong+text[to:]))
				Read(doc)
				spoiled++
				if list := doc.Diagnostics(); len(list) != 1 {
					var all []string
					for _, d := range list {
						all = append(all, d.Error())
					}
					t.Errorf("%s for %s:\n%s", wrong, text[from:to], strings.Join(all, "\n"))
				}
			}
		}
	}
	if spoiled < 50 {
		t.Errorf("only %d values found", spoiled)
	}
}
