package prices

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

const header = "date,item,kind,grade,lacking,price,currency,postage,qty,source,note\n"

// readTable reads a table that has no faults.
func readTable(t *testing.T, text string) *Table {
	t.Helper()
	table, faults := ReadTable("prices.csv", strings.NewReader(text))
	if len(faults) > 0 {
		t.Fatalf("faults in the table: %v", faults.Sorted())
	}
	return table
}

// readRates reads rates that have no faults.
func readRates(t *testing.T, text string) *Rates {
	t.Helper()
	rates, faults := ReadRates("rates.csv", strings.NewReader(text))
	if len(faults) > 0 {
		t.Fatalf("faults in the rates: %v", faults.Sorted())
	}
	return rates
}

// reference is the text of a file of reference values.
func reference(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// referenceJSON decodes a file of reference values.
func referenceJSON(t *testing.T, name string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(reference(t, name)), into); err != nil {
		t.Fatal(err)
	}
}

// on is a day written as in the files.
func on(text string) time.Time {
	d, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return d
}

// near fails unless got is want up to a relative tolerance, absolute below 1.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*max(1, math.Abs(want))) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// wantFaults compares the diagnostics of a file, each on a line.
func wantFaults(t *testing.T, got diag.List, want ...string) {
	t.Helper()
	var lines []string
	for _, d := range got {
		lines = append(lines, d.Error())
	}
	if diff := cmp.Diff(want, lines); diff != "" {
		t.Errorf("diagnostics differ (-want +got):\n%s", diff)
	}
}
