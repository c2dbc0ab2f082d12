package valuation_test

import (
	"bytes"
	"flag"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"lotgauge/checklists"
	"lotgauge/pricedata"
	"lotgauge/valuation"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// demoFolder is the built-in data folder.
func demoFolder(t testing.TB) fstest.MapFS {
	t.Helper()
	folder := fstest.MapFS{}
	for prefix, cupboard := range map[string]fs.FS{"families/": checklists.Files, "": pricedata.Files} {
		err := fs.WalkDir(cupboard, ".", func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			text, err := fs.ReadFile(cupboard, p)
			folder[prefix+p] = &fstest.MapFile{Data: text}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

func openDemo(t testing.TB) *valuation.Library {
	return valuation.Open(demoFolder(t), "", true)
}

func demoListings(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../testdata/listings/*.toml")
	if err != nil || len(files) < 6 {
		t.Fatalf("%d listings: %v", len(files), err)
	}
	return files
}

func TestDemonstrationFolderIsSound(t *testing.T) {
	done, diags := openDemo(t).Check()
	for _, d := range diags {
		t.Error(d)
	}
	if done.Families < 2 || done.Sheets < 6 || done.Rows < 150 {
		t.Errorf("proved only %+v", done)
	}
}

// TestGoldenAppraisals: the same input and seed give the same bytes, on every
// platform that the tests run on.
func TestGoldenAppraisals(t *testing.T) {
	l := openDemo(t)
	for _, file := range demoListings(t) {
		name := strings.TrimSuffix(filepath.Base(file), ".toml")
		t.Run(name, func(t *testing.T) {
			var got, again bytes.Buffer
			if err := appraise(t, l, file, valuation.Options{}).WriteJSON(&got); err != nil {
				t.Fatal(err)
			}
			if err := appraise(t, openDemo(t), file, valuation.Options{}).WriteJSON(&again); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(got.String(), again.String()); diff != "" {
				t.Errorf("another library, other bytes:\n%s", diff)
			}
			compareGolden(t, filepath.Join("../testdata/golden", name+".json"), got.String())
		})
	}
}

func compareGolden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got; -update rewrites it):\n%s", file, diff)
	}
}

// TestStepsAddUp: the column from sound price to bid adds up to the minor unit
// at every sum, ends at the worth and at the break-even bid, and the landed
// cost of that bid is covered.
func TestStepsAddUp(t *testing.T) {
	l := openDemo(t)
	for _, file := range demoListings(t) {
		a := appraise(t, l, file, valuation.Options{})
		total := decimal.Zero
		for _, s := range a.Reading.Steps {
			switch {
			case s.Currency != "":
				if s.Amount.Text() != a.Purchase.BreakEvenBid.Text() {
					t.Errorf("%s: the column ends at %s, the bid is %s", file, s.Amount.Text(), a.Purchase.BreakEvenBid.Text())
				}
			case s.Sum:
				if !total.Equal(s.Amount.Decimal) {
					t.Errorf("%s: %s is %s, the lines above add up to %s", file, s.ID, s.Amount.Text(), total)
				}
				if s.ID == "worth" && s.Amount.Text() != a.Worth.Mean.Text() {
					t.Errorf("%s: worth %s in the column, %s in the figures", file, s.Amount.Text(), a.Worth.Mean.Text())
				}
			default:
				total = total.Add(s.Amount.Decimal)
			}
		}
		if e := a.Purchase.BreakEvenLanded; e != nil && e.GreaterThan(a.Worth.Mean.Decimal) {
			t.Errorf("%s: break-even bid lands at %s, above the worth %s", file, e.Text(), a.Worth.Mean.Text())
		}
	}
}

// TestFiguresAgree holds laws that every appraisal obeys.
func TestFiguresAgree(t *testing.T) {
	l := openDemo(t)
	for _, file := range demoListings(t) {
		a := appraise(t, l, file, valuation.Options{})
		c := &comparison{T: t}
		for _, p := range a.Points {
			sum := 0.0
			for _, s := range p.States {
				sum += float64(s.Chance)
			}
			c.near(file+" "+p.ID, sum, float64(p.Applies), exactly)
		}
		chosen, best := 0.0, math.Inf(-1)
		for _, r := range a.Routes {
			chosen += float64(*r.Chosen)
			mean, _ := r.Mean.Float64()
			best = max(best, mean)
		}
		c.near(file+" chosen", chosen, 1, exactly)
		worth, _ := a.Worth.Mean.Float64()
		se, _ := a.Worth.SE.Float64()
		if worth < best-4*se-0.01 {
			t.Errorf("%s: worth %v is below the best single route %v", file, worth, best)
		}
		if p := a.Purchase; p.CarefulLoss != nil && *p.CarefulLoss > p.Tolerance {
			t.Errorf("%s: the careful bid loses money in %v of cases", file, *p.CarefulLoss)
		}
	}
}

func TestListingWithoutDate(t *testing.T) {
	x, diags := valuation.ReadListing("x.toml", strings.NewReader(`
format = 1
title = "No date"
family = "pellworth-ce4"
sale = "fixed"
ask = "60 EUR"
buy = "stall-cash"
`))
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	a, diags := openDemo(t).Appraise(x, valuation.Options{Today: time.Date(2026, 3, 14, 23, 0, 0, 0, time.UTC)})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if a.Date != "2026-03-14" {
		t.Errorf("date %s", a.Date)
	}
	if len(a.Reading.Warnings) == 0 {
		t.Error("no warning that the appraisal cannot be reproduced")
	}
}

// BenchmarkAppraise is one listing of the largest family with three reported
// symptoms, 20,000 draws and all questions; the folder is loaded before.
func BenchmarkAppraise(b *testing.B) {
	l := openDemo(b)
	x := richListing(b)
	for b.Loop() {
		if _, diags := l.Appraise(x, valuation.Options{}); diags.HasErrors() {
			b.Fatal(diags.Err())
		}
	}
}

// BenchmarkThousandListings appraises a thousand listings, the demonstration's
// over and over, in one process.
func BenchmarkThousandListings(b *testing.B) {
	l := openDemo(b)
	var listings []*valuation.Listing
	for _, file := range demoListings(b) {
		listings = append(listings, readListing(b, file))
	}
	for b.Loop() {
		for i := range 1000 {
			if _, diags := l.Appraise(listings[i%len(listings)], valuation.Options{}); diags.HasErrors() {
				b.Fatal(diags.Err())
			}
		}
	}
}

// BenchmarkLoadAndAppraise includes the reading of the folder's files.
func BenchmarkLoadAndAppraise(b *testing.B) {
	folder := demoFolder(b)
	x := richListing(b)
	for b.Loop() {
		if _, diags := valuation.Open(folder, "", true).Appraise(x, valuation.Options{}); diags.HasErrors() {
			b.Fatal(diags.Err())
		}
	}
}

func richListing(t testing.TB) *valuation.Listing {
	t.Helper()
	return readListing(t, "../testdata/listings/rich.toml")
}

func readListing(t testing.TB, file string) *valuation.Listing {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	x, diags := valuation.ReadListing(filepath.Base(file), bytes.NewReader(text))
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	return x
}
