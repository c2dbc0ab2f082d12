package valuation_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"lotgauge/valuation"
)

// folderWithout is the reference folder without the files under a path, and with
// others put in.
func folderWithout(t *testing.T, under string, more map[string]string) *valuation.Library {
	t.Helper()
	folder := fstest.MapFS{}
	for name, file := range referenceFiles(t) {
		if !strings.HasPrefix(name, under) {
			folder[name] = file
		}
	}
	for name, text := range more {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return valuation.Open(folder, "data", false)
}

// TestMissingParts: what is missing is what is named, by the check and by an
// appraisal, and once.
func TestMissingParts(t *testing.T) {
	gb := "2024-11-20,quillmore-t3/318,sold,good,,40,GBP,,1,,\n"
	const columns = "date,item,kind,grade,lacking,price,currency,postage,qty,source,note\n"
	one := map[string]string{"prices.csv": columns + "2024-11-20,shoe,sold,,,4,EUR,,1,,\n" + gb}
	many := map[string]string{"prices.csv": columns + "2024-11-20,shoe,sold,,,4,EUR,,1,,\n" + gb + gb + gb, "rates.csv": "Date,USD\n2024-11-20,1.05\n"}
	for _, c := range []struct {
		name, without string
		more          map[string]string
		want          string
		not           string
	}{
		{"sheets", "sheets/", nil, "data/sheets: no such folder: expected a folder of TOML files", "settings.toml"},
		{"families", "families/", nil, "data/families: no such folder: expected a folder of TOML files", "settings.toml"},
		{"rates, of one row", "rates.csv", one, "data/prices.csv:3: there is no rates.csv, and so no rate of GBP: expected exchange rates in data/rates.csv; try lotgauge rates update FILE", "rows need"},
		{"column, of three rows", "rates.csv", many, "data/prices.csv:3: rates.csv has no column GBP, which 3 rows need, this one first: expected a column GBP", "prices.csv:4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, diags := folderWithout(t, c.without, c.more).Check()
			var all []string
			for _, d := range diags {
				all = append(all, d.Error())
			}
			got := strings.Join(all, "\n")
			if strings.Count(got, c.want) != 1 || strings.Contains(got, c.not) {
				t.Errorf("got\n%s\nwant once\n%s\nand no %s", got, c.want, c.not)
			}
		})
	}
	_, diags := folderWithout(t, "sheets/", nil).Appraise(parse(t, head), valuation.Options{})
	if got, want := diags.Error(), "data/sheets: no such folder: expected a folder of TOML files"; got != want {
		t.Errorf("an appraisal says %q, want %q", got, want)
	}
}

// TestPartThatCannotBeRead: a part of one family whose id cannot be read is one
// mistake, also where other families use the part or have such mistakes too.
func TestPartThatCannotBeRead(t *testing.T) {
	const file = "families/quillmore-t3.toml"
	text := string(referenceFiles(t)[file].Data)
	i, j := strings.Index(text, "[[part]]"), strings.Index(text, "[[rule]]")
	borrower := patch{"families/quillmore-t4.toml", "", strings.Replace(text[:i]+text[j:], `id = "quillmore-t3"`, `id = "quillmore-t4"`, 1)}
	for _, c := range []struct{ what, old, new string }{
		{"a number", `id = "lamp-brass"`, "id = 7"},
		{"a misspelt key", `id = "lamp-brass"`, `idd = "lamp-brass"`},
		{"left out", "id = \"lamp-brass\"\n", ""},
		{"a misspelt table", "[[part]]\nid = \"lamp-brass\"", "[[prat]]\nid = \"lamp-brass\""},
	} {
		l := patched(t, patch{file, c.old, c.new}, borrower)
		if _, diags := l.Check(); len(diags) != 1 || diags[0].Pos.File != "data/"+file {
			t.Errorf("%s:\n%s", c.what, lines(diags))
		}
		if _, diags := l.Family("quillmore-t4"); len(diags) != 1 {
			t.Errorf("%s, in the family that borrows it:\n%s", c.what, lines(diags))
		}
	}
	twin := func(id string) string {
		return strings.NewReplacer(`id = "quillmore-t3"`, `id = "`+id+`"`, `id = "lamp-brass"`, "group = \"lamp\"", "[[part]]\nid = \"", "[[part]]\nid = \""+id).Replace(text[:j])
	}
	l := patched(t, patch{file, "", twin("quillmore-t3")}, patch{"families/quillmore-t4.toml", "", twin("quillmore-t4")})
	if _, diags := l.Check(); strings.Contains(lines(diags), `part ""`) {
		t.Errorf("parts without an id are taken for one:\n%s", lines(diags))
	}
}

// TestTwoFaultsInARow: an unknown grade does not hide an unknown state.
func TestTwoFaultsInARow(t *testing.T) {
	bad := patch{"prices.csv", "sold,good,,52.00", "sold,goood,tyres:gone lamp:missing,52.00"}
	want := `data/prices.csv:2: grade: family quillmore-t3 has no grade "goood": expected one of fair, good or excellent; try good
data/prices.csv:2: lacking: point "tyres" has no state "gone": expected one of sound or perished
data/prices.csv:2: lacking: family quillmore-t3 has no point "lamp": expected one of tyres, pickup, reverser, lamps, paint or smoke-unit; try lamps`
	_, checked := patched(t, bad).Check()
	_, appraised := patched(t, bad).Appraise(parse(t, head), valuation.Options{})
	for name, diags := range map[string]interface{ Error() string }{"check": checked, "appraise": appraised} {
		if !strings.Contains(diags.Error(), "(and 2 more)") {
			t.Errorf("%s: %v", name, diags)
		}
	}
	var got []string
	for _, d := range checked {
		got = append(got, d.Error())
	}
	if strings.Join(got, "\n") != want {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), want)
	}
}

// TestRefusedValuesHaveNoFollowers: nothing is said that rests on a value which
// was refused.
func TestRefusedValuesHaveNoFollowers(t *testing.T) {
	for text, want := range map[string]string{
		head + "sale = \"fixed\"\nask = \"75,50 EUR\"": `x.toml:6:7: ask: "75,50" has a comma: decimals follow a point, and digits are not grouped: expected money such as "38 GBP"; try "75.50 EUR"`,
		head + "ask = \"EUR 75\"":                      `x.toml:5:7: ask: "EUR" is not a plain number: expected money such as "38 GBP"; try "75 EUR"`,
		head + "hammer = { low = \"4,5 GBP\", high = \"9 GBP\" }": `x.toml:5:18: hammer.low: "4,5" has a comma: decimals follow a point, and digits are not grouped: ` +
			`expected money such as "38 GBP"; try "4.5 GBP"`,
		head + "sale = \"fixed\"\nask = 75 EUR":                            `x.toml:6:7: text without quotes: expected quotes around it; try "75 EUR"`,
		strings.Replace(head, "date = 2026-03-14", "date = 14.03.2026", 1): `x.toml:4:8: a date is not written like this: expected a date such as 2026-03-14; try 2026-03-14`,
	} {
		if _, diags := valuation.ReadListing("x.toml", strings.NewReader(text)); diags.Error() != want {
			t.Errorf("got  %s\nwant %s", diags.Error(), want)
		}
	}
	both := strings.Replace(head, "2026-03-14", "14.03.2026", 1) + "ask = \"30\"\n[[finding]]\npoint = tyres\nstate = \"sound\"\nby = \"smell\"\n"
	_, diags := valuation.ReadListing("x.toml", strings.NewReader(both))
	if len(diags) != 4 || diags[0].Pos.Line != 4 || diags[1].Pos.Line != 5 || diags[2].Pos.Line != 7 || diags[3].Pos.Line != 9 {
		t.Errorf("not all four mistakes: %v", []any{diags.Error(), len(diags)})
	}
}
