package diag

import (
	"errors"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

var update = flag.Bool("update", false, "write the outcome of the cases into their files")

// TestCases is the one table of errors: testdata/diag/document/*.txtar hold pairs of
// files, NAME.toml with a document and NAME.want with all its diagnostics, one
// a line, as "line:col: key: summary: …". The document is read as a sample
// (below). An empty NAME.want is a document without a mistake.
func TestCases(t *testing.T) {
	inputs := make(map[string]string)
	for _, name := range archives(t) {
		t.Run(filepath.Base(name), func(t *testing.T) {
			forEachCase(t, name, func(t *testing.T, input, want *txtar.File) {
				if twin, ok := inputs[string(input.Data)]; ok {
					t.Errorf("the same input as %s", twin)
				}
				inputs[string(input.Data)] = input.Name
				d := ReadDocument("", strings.NewReader(string(input.Data)))
				readSample(d)
				var got strings.Builder
				for _, x := range d.Diagnostics() {
					got.WriteString(x.Error() + "\n")
				}
				compare(t, want, got.String())
			})
		})
	}
}

// TestRendering holds WriteText against NAME.50 and NAME.80, the same document
// printed at these widths.
func TestRendering(t *testing.T) {
	name := "../../testdata/diag/document/rendering/sample.txtar"
	forEachCase(t, name, func(t *testing.T, input, want *txtar.File) {
		width, err := strconv.Atoi(strings.TrimPrefix(filepath.Ext(want.Name), "."))
		if err != nil {
			t.Fatal(err)
		}
		d := ReadDocument("families/tarnside-d2.toml", strings.NewReader(string(input.Data)))
		readSample(d)
		var got strings.Builder
		if err := d.Diagnostics().WriteText(&got, width); err != nil {
			t.Fatal(err)
		}
		compare(t, want, got.String())
	})
}

// forEachCase runs each wanted file of an archive with the input before it.
func forEachCase(t *testing.T, name string, run func(t *testing.T, input, want *txtar.File)) {
	t.Helper()
	archive := txtar.Parse([]byte(readFile(t, name)))
	var input *txtar.File
	for i := range archive.Files {
		f := &archive.Files[i]
		if strings.HasSuffix(f.Name, ".toml") {
			input = f
			continue
		}
		if input == nil || stem(f.Name) != stem(input.Name) {
			t.Fatalf("%s has no document before it", f.Name)
		}
		t.Run(f.Name, func(t *testing.T) { run(t, input, f) })
	}
	if input == nil {
		t.Fatal("no cases")
	}
	if *update {
		if err := os.WriteFile(name, txtar.Format(archive), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// compare holds an outcome against the wanted one, or updates that.
func compare(t *testing.T, want *txtar.File, got string) {
	t.Helper()
	if *update {
		want.Data = []byte(got)
	}
	if diff := gocmp.Diff(string(want.Data), got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func stem(name string) string { return strings.TrimSuffix(name, filepath.Ext(name)) }

func archives(t testing.TB) []string {
	t.Helper()
	names, err := filepath.Glob("../../testdata/diag/document/*.txtar")
	if err != nil || len(names) == 0 {
		t.Fatalf("no archives: %v", err)
	}
	return names
}

// readSample reads a document with every getter, as a reader of this house
// would.
func readSample(d *Document) {
	t := d.Root()
	t.Integer("format", 1, 1, 1)
	t.Required("title")
	t.Text("note")
	t.Choice("sale", "auction", "auction", "fixed")
	t.Number("weight", 1, 0, math.Inf(1))
	t.Number("slope", 0, math.Inf(-1), math.Inf(1))
	t.Integer("draws", 20000, 1, math.MaxInt)
	t.Flag("open", true)
	t.Date("day")
	t.Dates("valid")
	t.Integers("years")
	t.Texts("see")
	Parse(t, "guide", `an amount such as "45 EUR"`, sampleAmount)
	Parse(t, "step", `a plain amount such as "0.05"`, samplePlain)
	t.Child("hidden").Number("sound", 0.4, 0, 1)
	ids := make(map[string]bool)
	for _, p := range t.Children("point") {
		id := p.ID("id")
		if ids[id] {
			p.Report("id", "two points are called "+strconv.Quote(id), "another id", "")
		}
		ids[id] = true
		if !p.Has("state") {
			p.Warn("", "no states", "at least one", "")
		}
		for _, s := range p.Children("state") {
			readState(s)
		}
	}
	t.Finish()
}

func readState(s *Table) {
	s.ID("id")
	s.Number("score", 1, 0, 1)
	if s.IsTable("odds") {
		odds := s.Child("odds")
		for _, history := range odds.Keys() {
			odds.Number(history, 1, 0, math.Inf(1))
		}
	} else if s.IsNumber("odds") {
		s.Number("odds", 1, 0, math.Inf(1))
	}
	for i, need := range s.Items("needs") {
		if need.Table != nil {
			need.Table.ID("part")
			need.Table.Integer("qty", 1, 1, 99)
		} else if need.Text == "unobtainable" {
			s.ReportItem("needs", i, "nobody makes it", "", "")
		}
	}
}

// sampleAmount stands for a parser of another room.
func sampleAmount(s string) (string, error) {
	number, currency, ok := strings.Cut(s, " ")
	switch {
	case !ok:
		return "", errors.New("no currency")
	case strings.HasPrefix(number, "-"):
		return "", errors.New("a price cannot be negative")
	}
	return currency + number, nil
}

func samplePlain(s string) (float64, error) {
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		err = errors.New("this is no amount")
	}
	return f, err
}
