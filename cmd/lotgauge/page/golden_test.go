package page

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func written(t testing.TB, a *valuation.Appraisal) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, a); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestGolden holds whole pages against those on file, which the browser tests
// look at.
func TestGolden(t *testing.T) {
	for name, a := range map[string]*valuation.Appraisal{
		"rich": rich(), "walk-away": walkAway(), "unpriced": unpriced(), "hostile": hostile(),
	} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join("testdata", name+".html")
			got := written(t, a)
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("%s (-update rewrites it):\n%s", file, diff)
			}
		})
	}
}

func TestSameBytes(t *testing.T) {
	for name, a := range fixtures() {
		first := written(t, a)
		for range 5 {
			if again := written(t, a); again != first {
				t.Fatalf("%s: two pages of one appraisal differ:\n%s", name, cmp.Diff(first, again))
			}
		}
	}
}

// TestUnchanged shows that writing a page leaves the appraisal as it was.
func TestUnchanged(t *testing.T) {
	a := rich()
	written(t, a)
	if diff := cmp.Diff(rich(), a); diff != "" {
		t.Error(diff)
	}
}

type fullDisk struct{}

var errFull = errors.New("the disk is full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrors(t *testing.T) {
	if err := Write(fullDisk{}, rich()); !errors.Is(err, errFull) {
		t.Errorf("a full disk gives %v", err)
	}
	var b bytes.Buffer
	if err := Write(&b, nil); err == nil || b.Len() > 0 {
		t.Errorf("no appraisal gives %v and %d bytes", err, b.Len())
	}
}

func BenchmarkWrite(b *testing.B) {
	a := rich()
	for b.Loop() {
		var out bytes.Buffer
		if err := Write(&out, a); err != nil {
			b.Fatal(err)
		}
		b.SetBytes(int64(out.Len()))
	}
}
