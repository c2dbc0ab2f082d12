package field

import (
	"bytes"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"lotgauge/checklists"
	"lotgauge/pricedata"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// demonstration is the built-in data folder, to be changed by the test.
func demonstration(t testing.TB) fstest.MapFS {
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

// demoPage is a page of families of the demonstration folder, with an engine
// that is none.
func demoPage(t testing.TB, families ...string) Page {
	t.Helper()
	return Page{
		Data: demonstration(t), Demonstration: true, Families: families,
		Engine: Engine{Wasm: compress(program()), Script: []byte("class Go {}\n")},
	}
}

// TestGatherSameFigures: from what the page carries, every demonstration
// listing is appraised, byte for byte, as from the whole folder.
func TestGatherSameFigures(t *testing.T) {
	files, err := filepath.Glob("../../../testdata/listings/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no listings: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			x, diags := valuation.ReadListing("x", bytes.NewReader(text))
			if diags.HasErrors() {
				t.Fatal(diags)
			}
			p := demoPage(t, x.Family)
			d, err := gather(p)
			if err != nil {
				t.Fatal(err)
			}
			carried := fstest.MapFS{}
			for name, text := range d.Files {
				carried[name] = &fstest.MapFile{Data: []byte(text)}
			}
			if diff := cmp.Diff(appraisal(t, p.Data, x), appraisal(t, carried, x)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func appraisal(t *testing.T, folder fs.FS, x *valuation.Listing) string {
	t.Helper()
	a, diags := valuation.Open(folder, "", true).Appraise(x, valuation.Options{Draws: 1000})
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	var b strings.Builder
	if err := a.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestGatherTakesLittle: a page of one family has that family, all sheets, and
// only the price rows that it needs.
func TestGatherTakesLittle(t *testing.T) {
	d, err := gather(demoPage(t, "quillmore-t8"))
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"families/quillmore-t8.toml", "prices.csv", "rates.csv", "settings.toml",
		"sheets/abroad-import.toml", "sheets/northquay.toml", "sheets/private-letter.toml",
		"sheets/private-parcel.toml", "sheets/private-post.toml", "sheets/stall-cash.toml",
	}
	got := slices.Sorted(maps.Keys(d.Files))
	if diff := cmp.Diff(want, slices.DeleteFunc(got, func(s string) bool {
		return strings.HasPrefix(s, "families/") && s != want[0] // those that define parts for it
	})); diff != "" {
		t.Error(diff)
	}
	if strings.Contains(d.Files[pricesFile], "tarnside-s3/") || !strings.Contains(d.Files[pricesFile], "quillmore-t8/") {
		t.Error("the price rows are not those of the family")
	}
	var bought []string
	for _, s := range d.Sheets {
		bought = append(bought, s.ID+" "+s.Currency)
	}
	if diff := cmp.Diff([]string{"abroad-import CHF", "northquay GBP", "private-post EUR", "stall-cash EUR"}, bought); diff != "" {
		t.Error(diff)
	}
	if d.Buy != "northquay" || d.Currency != "EUR" || d.Draws != 20000 || d.LastRate != "2026-11-20" {
		t.Errorf("settings %q %q %d, last rate %q", d.Buy, d.Currency, d.Draws, d.LastRate)
	}
}

// TestGatherForeignParts: a family comes with the file that defines a part of
// its, and without those of others.
func TestGatherForeignParts(t *testing.T) {
	p := demoPage(t, "borrower")
	folder := p.Data.(fstest.MapFS)
	folder["families/borrower.toml"] = &fstest.MapFile{Data: []byte(`format = 1
id = "borrower"
title = "Borrower"
grade = [{ id = "good", score = 70, factor = 1.0 }]
[[variant]]
id = "1"
title = "the only one"
guide = "100 EUR"
[[point]]
id = "pantograph"
title = "Pantograph"
state = [{ id = "sound" }, { id = "missing", score = 0.0, needs = ["ce4-pantograph-grey"] }]
`)}
	d, err := gather(p)
	if err != nil {
		t.Fatal(err)
	}
	if d.Files["families/pellworth-ce4.toml"] == "" || d.Files["families/tarnside-s3.toml"] != "" {
		t.Errorf("carries %q", slices.Sorted(maps.Keys(d.Files)))
	}
	if len(d.Families) != 1 {
		t.Errorf("shows %+v", d.Families)
	}
	if !strings.Contains(d.Files[pricesFile], "ce4-pantograph-grey") || strings.Contains(d.Files[pricesFile], "ce4-body-red") {
		t.Error("the price rows are not those of the parts needed")
	}
}

// TestGatherFaults: a mistake in what the page would carry is told at home.
func TestGatherFaults(t *testing.T) {
	file := func(name, text string) func(fstest.MapFS) {
		return func(f fstest.MapFS) { f[name] = &fstest.MapFile{Data: []byte(text)} }
	}
	for _, c := range []struct {
		name   string
		family string
		change func(fstest.MapFS)
		want   string
	}{
		{"unknown family", "pelworth-ce4", nil, "pellworth-ce4"},
		{"no settings", largest, func(f fstest.MapFS) { delete(f, settingsFile) }, "settings.toml"},
		{"a mistake in the settings", largest, file(settingsFile, "format = 1\ncurency = \"EUR\"\n"), "no home currency"},
		{"a bad price row", largest, file(pricesFile, "date,item,kind,price,currency\n2024-01-01,a,sold,x,EUR\n"), "prices.csv:2"},
		{"a bad rate", largest, file(ratesFile, "Date,USD\n2024-01-05,x\n"), "rates.csv:2"},
		{"a bad sheet", largest, file("sheets/bad.toml", "format = 1\n"), "sheets/bad.toml"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := demoPage(t, c.family)
			if c.change != nil {
				c.change(p.Data.(fstest.MapFS))
			}
			if _, err := gather(p); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("said %v, not %q", err, c.want)
			}
		})
	}
}

// TestGatherBuy: the sheet for new finds goes along beside that of the settings,
// which finds without one are bought by; it must be one to buy by.
func TestGatherBuy(t *testing.T) {
	p := demoPage(t, largest)
	p.Buy = "stall-cash"
	d, err := gather(p)
	if err != nil || d.NewBuy != "stall-cash" || d.Buy != "northquay" {
		t.Fatalf("%+v, %v", d, err)
	}
	for id, want := range map[string]string{"stal-cash": "stall-cash", "private-letter": "one to sell by"} {
		p.Buy = id
		var list diag.List
		if _, err := gather(p); !errors.As(err, &list) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: said %v, not %q", id, err, want)
		}
	}
}

// TestGatherWithoutRates: a folder may have no rates.
func TestGatherWithoutRates(t *testing.T) {
	p := demoPage(t, largest)
	delete(p.Data.(fstest.MapFS), ratesFile)
	d, err := gather(p)
	if err != nil || d.LastRate != "" {
		t.Errorf("last rate %q, %v", d.LastRate, err)
	}
}

const largest = "pellworth-ce4"
