package prices

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

// FuzzImport: whatever the map and the file, faults have a place and words, each
// row that says something is in one of the lists once, new rows are such that a
// table gives them back, and with them in it the same file adds nothing.
func FuzzImport(f *testing.F) {
	german := germanHeader + "Lok CE4 6043;;14.03.2026 18:22;verkauft;1.234,50 \x80;7,00;1;sehr gut;B\xf6rse;Karton\n\"Stromabnehmer\";schwarz;01.02.2026;Angebot;Fr. 25;frei;2,00;;;\nx\n"
	for _, c := range [][2]string{
		{"", ""}, {least, "date,item,price\n2026-01-01,lamp,5\n"}, {germanMap, german}, {germanMap, ""},
		{least + "[csv]\nquote = \"\"\nseparator = \"\\t\"", "date\titem\tprice\n2026-01-01\tlamp\t\"5\n"},
		{least + "note = \"note\"\n[csv]\ndate = \"d. mmm yy*\"", "date,item,price,note\n4. May 26,f/1,5,\"=1+2\r\n\"\"#\"\n,,,\n"},
		{"format = 1\n[csv]\nheader = false\n[columns]\ndate = 1\nitem = 2\nprice = 3\nkind = 4\ncurrency = 5\n", "2026-01-01,lamp,1e9,sold,EUR\n2026-01-01,lamp,5,sold,EUR\n"},
		{least + "[[skip]]\nwhen = { date = '2' }\n", "date,item,price\n2026-01-01,lamp,5\n1999-1-1,\"\n"},
	} {
		f.Add(c[0], c[1])
	}
	f.Fuzz(func(t *testing.T, mapText, text string) {
		doc := diag.ReadDocument("MAP.toml", strings.NewReader(mapText))
		m := ReadMap(doc)
		if faults := doc.Diagnostics(); !faults.HasErrors() {
			checkImport(t, m, text)
		} else if !doc.Broken() {
			checkPlaces(t, faults, "MAP.toml", mapText)
		}
	})
}

// FuzzImportFile is FuzzImport with maps that are good, so that more files get
// past the header.
func FuzzImportFile(f *testing.F) {
	maps := []*Map{readMap(f, germanMap), readMap(f, least+"note = \"note\"\nqty = \"qty\"\n"), readMap(f, "format = 1\n"+
		"[csv]\nheader = false\n[columns]\ndate = 1\nitem = 2\nprice = 3\nkind = 4\ncurrency = 5\nlacking = 6\ngrade = 7\npostage = 8\nsource = 9\n")}
	for _, text := range []string{germanHeader + "Lok CE4 6043;;14.03.2026 18:22;verkauft;1.234,50 \x80;7,00;1;sehr gut;B\xf6rse;Karton\n",
		"date,item,price,qty,note\n2026-01-01,lamp,5,2,\"a\nb\"\n\"\n", "2026-01-01,lamp,5,sold,EUR,a:b c:d,good,1.5,fair\n",
	} {
		for i := range maps {
			f.Add(i, text)
		}
	}
	f.Fuzz(func(t *testing.T, which int, text string) {
		checkImport(t, maps[uint(which)%uint(len(maps))], text)
	})
}

// checkImport holds an import against the laws of FuzzImport.
func checkImport(t *testing.T, m *Map, text string) {
	t.Helper()
	out, faults := m.Import("export.csv", strings.NewReader(text), nil)
	for _, d := range faults {
		if d.Summary == "" || d.Pos.File != "export.csv" && d.Pos.File != "MAP.toml" {
			t.Errorf("%+v", d)
		}
	}
	checkImported(t, out, strings.Count(text, "\n")+1)
	table := readTable(t, writeRows(columnNames[:], out.Rows))
	again, _ := m.Import("export.csv", strings.NewReader(text), table)
	if len(again.Rows) > 0 || len(again.Seen) != len(out.Rows) {
		t.Errorf("of %d rows %d are new and %d seen the second time", len(out.Rows), len(again.Rows), len(again.Seen))
	}
	if diff := cmp.Diff(out.Failed, again.Failed); diff != "" {
		t.Errorf("the second time other rows fail:\n%s", diff)
	}
}

// checkImported fails if a row is not one of a price table, or a failure does
// not say where and why.
func checkImported(t *testing.T, out *Imported, lines int) {
	t.Helper()
	for _, r := range out.Rows {
		if err := r.Check(); err != nil || r.Line < 1 || r.Line > lines {
			t.Errorf("of %d lines: %+v: %v", lines, r, err)
		}
	}
	last := 0
	for _, failure := range out.Failed {
		if failure.Line <= last || failure.Line > lines || failure.Reason == "" || oneLine(failure.Reason) != failure.Reason || oneLine(failure.Text) != failure.Text {
			t.Errorf("of %d lines, after %d: %+v", lines, last, failure)
		}
		last = failure.Line
	}
	if len(out.Rows)+len(out.Seen)+len(out.Failed)+out.Skipped > lines {
		t.Errorf("%d rows, %d failed and %d skipped of %d lines", len(out.Rows), len(out.Failed), out.Skipped, lines)
	}
}
