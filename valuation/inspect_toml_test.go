package valuation_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"lotgauge/valuation"
)

// ignoreTables leaves out where a listing was read from.
var ignoreTables = cmpopts.IgnoreUnexported(valuation.Listing{}, valuation.Finding{})

// checkRoundTrip: a listing written and read again is equal, and writing that
// gives the same bytes.
func checkRoundTrip(t *testing.T, x *valuation.Listing) {
	t.Helper()
	var first, second bytes.Buffer
	if err := x.WriteTOML(&first); err != nil {
		t.Fatal(err)
	}
	y, diags := valuation.ReadListing(x.File, bytes.NewReader(first.Bytes()))
	if diags.HasErrors() {
		t.Fatalf("%v\n%s", diags, first.String())
	}
	if diff := cmp.Diff(x, y, ignoreTables); diff != "" {
		t.Errorf("-written +read:\n%s\n%s", diff, first.String())
	}
	if err := y.WriteTOML(&second); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(first.String(), second.String()); diff != "" {
		t.Errorf("written again:\n%s", diff)
	}
}

func TestWriteDemoListings(t *testing.T) {
	for _, file := range demoListings(t) {
		checkRoundTrip(t, readListing(t, file))
	}
}

// everyListingKey uses every key a listing may have.
const everyListingKey = `format = 1
title = "A \"rare\" one: 50% off\nC:\\trains\t\u0000\u001b[31m\u007f\u009b ü ☃ 🚂 = + - @"
family = "f"
variant = "6043"
date = 2026-03-14
sale = "fixed"
ask = "38.5 GBP"
hammer = { low = "40 JPY", high = "95.12345678 JPY" }
buy = "a"
sell = "b"
sell_parts = "c"
routes = ["keep", "part-out"]
keep_worth = "150 EUR"

[[finding]]
point = "roof"
state = "sound"
by = "hand"
trust = 0.1
note = "''' \"\"\" # no comment"

[[finding]]
point = "roof"
option = "early"
by = "photo"
trust = 1

[[finding]]
point = "wheels"
reading = "14.05 mm"
by = "hand"
trust = 1e-9

[[finding]]
point = "inside"
by = "hidden"

[[finding]]
feature = "livery"
option = "red"
by = "seller"

[[finding]]
symptom = "dead"
present = false
by = "track"
trust = 0

[[finding]]
symptom = "hums"
present = true
by = "track"

[[finding]]
variant = "6043"
by = "seller"
`

func TestWriteEveryKey(t *testing.T) {
	x := parse(t, everyListingKey)
	checkRoundTrip(t, x)
	var got bytes.Buffer
	if err := x.WriteTOML(&got); err != nil {
		t.Fatal(err)
	}
	if strings.ContainsAny(got.String(), "\x00\x1b\x7f\u009b\t\r") {
		t.Errorf("control characters in\n%q", got.String())
	}
	for _, line := range strings.Split(everyListingKey, "\n") {
		if key, _, ok := strings.Cut(line, " = "); ok && !strings.Contains(got.String(), key+" = ") {
			t.Errorf("no key %s in\n%s", key, got.String())
		}
	}
}

// TestWriteToBrokenWriter: the error of the writer is handed on.
func TestWriteToBrokenWriter(t *testing.T) {
	full := errors.New("no space left")
	x := &valuation.Listing{Title: "x", Family: "f"}
	if err := x.WriteTOML(brokenWriter{full}); !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
}

type brokenWriter struct{ err error }

func (w brokenWriter) Write([]byte) (int, error) { return 0, w.err }

// FuzzWriteTOML: whatever ReadListing accepts, WriteTOML writes so that it reads
// back equal; and any text may stand as a title and a note.
func FuzzWriteTOML(f *testing.F) {
	files, err := filepath.Glob("../testdata/listings/*.toml")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add(everyListingKey)
	f.Add("\xff\x00\u2028\ufeff\"\\")
	f.Fuzz(func(t *testing.T, text string) {
		if x, diags := valuation.ReadListing("x.toml", strings.NewReader(text)); !diags.HasErrors() {
			checkRoundTrip(t, x)
		}
		clean := strings.ToValidUTF8(text, "\ufffd")
		x := &valuation.Listing{File: "x.toml", Title: "t" + clean, Family: "f"}
		x.Findings = []valuation.Finding{{Point: "p" + clean, State: "s", By: "hand", Note: clean, Present: true}}
		if len(text) < 10_000 {
			checkRoundTrip(t, x)
		}
	})
}
