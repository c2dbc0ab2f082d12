package valuation_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// lines are diagnostics as they are printed in one line each.
func lines(list diag.List) string {
	var b strings.Builder
	for _, d := range list {
		b.WriteString(d.Error() + "\n")
	}
	return b.String()
}

// referenceListings are the texts of the reference listings.
func referenceListings(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, name := range []string{"a", "b", "c", "d"} {
		raw, err := os.ReadFile(referenceDir + "/listings/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, string(raw))
	}
	return out
}

// manyMistakes is a listing with mistakes of all kinds, and what is said of them.
const (
	manyMistakes = `format = 1
titel = "A tank engine"
family = "quillmore-t3"
variant = "311"
date = 2026-03-14
ask = "30 EUR"
sell = "parcle"
routes = ["keep"]

[[finding]]
point = "tyres"
state = "perishd"
by = "hand"
[[finding]]
point = "lampz"
stat = "missing"
by = "photo"
[[finding]]
point = "reverser"
state = "gone"
option = "brass"
by = "hand"
[[finding]]
feature = "lamps"
option = "bras"
by = "smell"
[[finding]]
feature = "paint"
point = "paint"
by = "hand"
[[finding]]
symptom = "no-movment"
by = "hand"
[[finding]]
point = 7
state = "gone"
by = "hand"
`
	saidOfMany = `x.toml:2:1: titel: unknown key: try title
x.toml:4:11: no catalogue number "311" in family "quillmore-t3": expected one of 310, 318 or 325; try 310
x.toml:6:7: ask in EUR, but the charge sheet "hall" is in GBP: expected an amount in GBP, or another sheet under buy
x.toml:7:8: no charge sheet called "parcle": expected one of hall, letter, parcel or table; try parcel
x.toml:8:10: route keep without what keeping it is worth: expected keep_worth = "150 EUR", or the route left out
x.toml:12:9: no state "perishd" in family "quillmore-t3": expected one of sound or perished; try perished
x.toml:15:9: no point "lampz" in family "quillmore-t3": expected one of tyres, pickup, reverser, lamps, paint or smoke-unit; try lamps
x.toml:16:1: finding[2].stat: unknown key: try state
x.toml:19:9: finding[3].point: what was found of the point?: expected one of state, option and reading
x.toml:20:9: no state "gone" in family "quillmore-t3": expected one of sound, dead or bypassed
x.toml:21:10: no option "brass" in family "quillmore-t3": expected one of relay or decoder
x.toml:25:10: no option "bras" in family "quillmore-t3": expected one of brass or black; try brass
x.toml:26:6: finding[4].by: found the text "smell": expected "hand", "track", "photo", "seller" or "hidden"
x.toml:27:1: finding[5]: a finding is about one thing: expected one of point, feature, symptom, variant
x.toml:28:11: no feature "paint" in family "quillmore-t3": expected one of reverser or lamps
x.toml:32:11: finding[6].symptom: is the symptom there or not?: expected present = true or present = false
x.toml:32:11: no symptom "no-movment" in family "quillmore-t3": expected one of no-movement, cuts-out or one-direction; try no-movement
x.toml:35:9: finding[7].point: found the number 7: expected a quoted string; try "7"
`
)

// TestAllMistakesOfAListing: mistakes of the file and names that the folder does
// not know are said together, in the order of the file and each once, by whatever
// the listing is given to.
func TestAllMistakesOfAListing(t *testing.T) {
	_, diags := patched(t).ReadListing("x.toml", strings.NewReader(manyMistakes))
	if diff := cmp.Diff(saidOfMany, lines(diags)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	x, read := valuation.ReadListing("x.toml", strings.NewReader(manyMistakes))
	if !read.HasErrors() || x == nil {
		t.Fatal("read without errors, or not at all")
	}
	a, appraised := patched(t).Appraise(x, valuation.Options{})
	if a != nil || lines(appraised) != lines(diags) {
		t.Errorf("an appraisal %v says\n%s", a != nil, lines(appraised))
	}
}

// TestFolderMistakesKeepNothingBack: what can be held against the folder is, even
// where one of its files has mistakes; those stay with the file that has them.
func TestFolderMistakesKeepNothingBack(t *testing.T) {
	unknown := "\n[[finding]]\npoint = \"tyre\"\nstate = \"sound\"\nby = \"hand\"\n"
	for _, p := range []patch{
		{"prices.csv", "", "no,table\n"}, {"rates.csv", "", "no,table\n"}, {"settings.toml", "draws = ", "draws = 0 # "},
		{"settings.toml", "", "format = "}, {"sheets/hall.toml", "side = ", "sied = "},
	} {
		_, diags := patched(t, p).Appraise(parse(t, head+unknown), valuation.Options{})
		if got := lines(diags); !strings.Contains(got, `no point "tyre"`) || !strings.Contains(got, "data/"+p.file) {
			t.Errorf("%s: got\n%s", p.file, got)
		}
		_, diags = patched(t, p).ReadListing("x.toml", strings.NewReader(head+"titl = 1"+unknown))
		if got := lines(diags); !strings.Contains(got, `no point "tyre"`) || strings.Contains(got, "data/") {
			t.Errorf("%s: read\n%s", p.file, got)
		}
	}
	broken := patch{"families/quillmore-t3.toml", `id = "tyres"`, `id = 5`}
	if _, diags := patched(t, broken).ReadListing("x.toml", strings.NewReader(head+"titl = 1"+unknown)); len(diags) != 1 {
		t.Errorf("held against a family that cannot be read:\n%s", lines(diags))
	}
	_, diags := folderWithout(t, "families/", nil).Appraise(parse(t, head), valuation.Options{})
	if got, want := diags.Error(), "data/families: no such folder: expected a folder of TOML files"; got != want {
		t.Errorf("without families: %s, want %s", got, want)
	}
}

// TestOneMistakeInAListing spoils each value and each key of the reference
// listings in turn: one diagnostic says so, and one more where there is an
// unknown name beside it that can be judged.
func TestOneMistakeInAListing(t *testing.T) {
	value := regexp.MustCompile(`= *("[^"\n]*"|[0-9][0-9.-]*|true|false)[ ]*(?:[,}\n]|$)`)
	key := regexp.MustCompile(`\b([a-z_]*[a-z])() = `)
	family := regexp.MustCompile(`(?m)^family = "`)
	const unknown = "\n[[finding]]\npoint = \"wheels\"\nstate = \"sound\"\nby = \"hand\"\n"
	l, spoiled := patched(t), 0
	one := func(text, what string) {
		spoiled++
		if _, diags := l.ReadListing("x.toml", strings.NewReader(text)); len(diags) != 1 {
			t.Errorf("%s:\n%s", what, lines(diags))
		}
		_, diags := l.ReadListing("x.toml", strings.NewReader(text+unknown))
		if want := 1 + len(family.FindAllString(text, 1)); len(diags) != want {
			t.Errorf("%s, beside an unknown name:\n%s", what, lines(diags))
		}
	}
	for _, text := range referenceListings(t) {
		for _, at := range value.FindAllStringSubmatchIndex(text, -1) {
			for _, wrong := range []string{"@", "09:30:00"} {
				one(text[:at[2]]+wrong+text[at[3]:], wrong+" for "+text[at[2]:at[3]])
			}
		}
		for _, at := range key.FindAllStringSubmatchIndex(text, -1) {
			one(text[:at[4]]+text[at[4]-1:at[4]]+text[at[4]:], text[at[2]:at[3]]+" misspelt")
		}
	}
	if spoiled < 200 {
		t.Errorf("only %d values and keys found", spoiled)
	}
}
