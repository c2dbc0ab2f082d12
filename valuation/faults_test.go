package valuation_test

import (
	"io"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"lotgauge/valuation"
)

// patch changes the reference folder: in the file, old becomes new; an empty
// old replaces the whole file.
type patch struct{ file, old, new string }

func patched(t testing.TB, patches ...patch) *valuation.Library {
	t.Helper()
	folder := referenceFiles(t)
	for _, p := range patches {
		if p.old == "" {
			folder[p.file] = &fstest.MapFile{Data: []byte(p.new)}
			continue
		}
		text := string(folder[p.file].Data)
		if !strings.Contains(text, p.old) {
			t.Fatalf("%s has no %q", p.file, p.old)
		}
		folder[p.file] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(text, p.old, p.new))}
	}
	return valuation.Open(folder, "data", false)
}

// referenceFiles are the files of the reference folder.
func referenceFiles(t testing.TB) fstest.MapFS {
	t.Helper()
	folder := fstest.MapFS{}
	err := fs.WalkDir(os.DirFS(referenceDir), ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(os.DirFS(referenceDir), p)
		folder[p] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return folder
}

const head = `format = 1
title = "A tank engine"
family = "quillmore-t3"
date = 2026-03-14
`

func parse(t testing.TB, text string) *valuation.Listing {
	t.Helper()
	x, diags := valuation.ReadListing("x.toml", strings.NewReader(text))
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	return x
}

// TestListingFaults: what is wrong with a listing or its folder is reported at
// its place, with what was expected.
func TestListingFaults(t *testing.T) {
	finding := "\n[[finding]]\n"
	cases := []struct {
		name, listing string
		patches       []patch
		want          string
	}{
		{"unknown family", strings.Replace(head, "t3", "t33", 1), nil, `x.toml:3:10: no family called "quillmore-t33": expected one of quillmore-t3; try quillmore-t3`},
		{"unknown variant", head + `variant = "311"`, nil, `x.toml:5:11: no catalogue number "311" in family "quillmore-t3": expected one of 310, 318 or 325; try 310`},
		{"unknown point", head + finding + `point = "tyre"` + "\nstate = \"sound\"\nby = \"hand\"", nil, `x.toml:7:9: no point "tyre" in family "quillmore-t3"`},
		{"unknown state", head + finding + `point = "tyres"` + "\nstate = \"perishd\"\nby = \"hand\"", nil, `x.toml:8:9: no state "perishd" in family "quillmore-t3": expected one of sound or perished; try perished`},
		{"option of a point without feature", head + finding + `point = "tyres"` + "\noption = \"brass\"\nby = \"hand\"", nil, `x.toml:8:10: point "tyres" shows no feature`},
		{"unknown symptom", head + finding + `symptom = "no-movment"` + "\npresent = true\nby = \"hand\"", nil, `x.toml:7:11: no symptom "no-movment"`},
		{"contradiction", head + finding + "point = \"tyres\"\nstate = \"sound\"\nby = \"hand\"\n" + finding + "point = \"tyres\"\nstate = \"perished\"\nby = \"hand\"", nil, "contradict each other"},
		{"no such sheet", head + `buy = "hal"`, nil, `x.toml:5:7: no charge sheet called "hal": expected one of hall, letter, parcel or table; try hall`},
		{"sheet of the other side", head + `buy = "parcel"`, nil, `x.toml:5:7: charge sheet "parcel" is for the other side of a deal`},
		{"ask in another currency", head + `ask = "30 EUR"`, nil, `x.toml:5:7: ask in EUR, but the charge sheet "hall" is in GBP`},
		{"hammer in another currency", head + `hammer = { low = "30 EUR", high = "40 EUR" }`, nil, `x.toml:5:`},
		{"rate too old", strings.Replace(head, "2026-03-14", "2026-05-14", 1), nil, "GBP"},
		{"no such sheet in the settings", head, []patch{{"settings.toml", `buy = "hall"`, `buy = "hal"`}}, `data/settings.toml:16:7: no charge sheet called "hal": expected one of hall, letter, parcel or table; try hall`},
		{"no sheet in the settings", head, []patch{{"settings.toml", "buy = \"hall\"\n", ""}}, `data/settings.toml: no charge sheet named for buy: expected buy = one of hall, letter, parcel or table`},
		{"rates without the column", head, []patch{{"rates.csv", "", "Date,USD\n2026-03-13,1.1\n"}}, `rates.csv has no column GBP`},
		{"two faults in a row, the first", head, []patch{{"prices.csv", "sold,good,,52.00", "sold,goood,tyre:missing,52.00"}}, `data/prices.csv:2: grade: family quillmore-t3 has no grade "goood": expected one of fair, good or excellent; try good (and 1 more)`},
		{"unknown grade in a row", head, []patch{{"prices.csv", "sold,good,,52.00", "sold,goood,,52.00"}}, `data/prices.csv:2`},
		{"unknown point in a row", head, []patch{{"prices.csv", "lamps:missing", "lamp:missing"}}, `data/prices.csv:3`},
		{"no prices", head, []patch{{"prices.csv", "", ""}}, `data/prices.csv`},
		{"no settings", head, []patch{{"settings.toml", "", ""}}, `data/settings.toml`},
		{"settings without currency", head, []patch{{"settings.toml", "currency = \"EUR\"\n", ""}}, "no home currency"},
		{"hourly rate in another currency", head, []patch{{"settings.toml", "4 EUR", "4 GBP"}}, "hourly rate in GBP"},
		{"tolerance over the whole", head, []patch{{"settings.toml", "tolerance = \"20%\"", "tolerance = \"120%\""}}, "share over the whole"},
		{"family called after another id", head, []patch{{"families/quillmore-t3.toml", `id = "quillmore-t3"`, `id = "quillmore-t4"`}}, "the file is called after another id"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			a, diags := patched(t, c.patches...).Appraise(parse(t, c.listing), valuation.Options{})
			if !diags.HasErrors() || a != nil {
				t.Fatalf("no error, appraisal %v", a != nil)
			}
			if got := diags.Sorted().Error(); !strings.Contains(got, c.want) {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

// TestReadListingFaults: what is wrong with the file itself.
func TestReadListingFaults(t *testing.T) {
	finding := head + "[[finding]]\n"
	for _, c := range []struct{ text, want string }{
		{"", "empty"},
		{strings.Replace(head, "format = 1\n", "", 1), "no format number"},
		{strings.Replace(head, "format = 1", "format = 2", 1), "format"},
		{strings.Replace(head, "title =", "titel =", 1), "title"},
		{head + "ask = 30", "x.toml:5:7"},
		{head + `ask = "-30 EUR"`, "negative"},
		{head + `sale = "fixed"`, "a fixed price without a price"},
		{head + `sale = "aution"`, "auction"},
		{head + `routes = ["sell-restord"]`, "try sell-restored"},
		{head + `routes = ["keep", "keep"]`, "named twice"},
		{head + `routes = []`, "no route left"},
		{head + `hammer = { low = "40 GBP" }`, "hammer needs both ends"},
		{head + `hammer = { low = "40 GBP", high = "30 GBP" }`, "not above the low one"},
		{head + `hammer = { low = "40 GBP", high = "90 EUR" }`, "two currencies"},
		{finding + "by = \"hand\"", "a finding is about one thing"},
		{finding + `point = "tyres"`, "a finding without evidence"},
		{finding + "point = \"tyres\"\nby = \"hand\"", "what was found of the point?"},
		{finding + "point = \"tyres\"\nstate = \"sound\"\nby = \"smell\"", "hand"},
		{finding + "point = \"tyres\"\nstate = \"sound\"\nby = \"hidden\"", "a hidden point shows no state"},
		{finding + "variant = \"x\"\nby = \"hidden\"", "only a point or a symptom can be hidden"},
		{finding + "symptom = \"x\"\npresent = true\nby = \"hidden\"", "what is hidden is neither there nor not"},
		{finding + "symptom = \"x\"\nby = \"hand\"", "is the symptom there or not?"},
		{finding + "feature = \"x\"\nby = \"hand\"", "which option was seen?"},
		{finding + "variant = \"310\"\nstate = \"sound\"\nby = \"hand\"", "state does not go with this finding"},
		{finding + "point = \"tyres\"\nstate = \"sound\"\nby = \"hand\"\ntrust = 1.5", "trust"},
	} {
		_, diags := valuation.ReadListing("x.toml", strings.NewReader(c.text))
		if !diags.HasErrors() {
			t.Errorf("no error, want %q for\n%s", c.want, c.text)
			continue
		}
		if got := diags.Sorted().Error(); !strings.Contains(got, c.want) {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

// TestMissingPrice: without a price for a part that may be needed there is no
// worth, no bid and no question in money; scores and beliefs stay, and the item
// is named with a row that mends it.
func TestMissingPrice(t *testing.T) {
	unpriced := []patch{{"families/quillmore-t3.toml", "guide = \"3 EUR\"\n", ""}} // brass lamps
	a, diags := patched(t, unpriced...).Appraise(parse(t, head+`variant = "310"`), valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if a.Worth != nil || a.Purchase.BreakEvenBid != nil || a.Purchase.CarefulBid != nil || a.Purchase.LossChance != nil || a.RepairShare != nil || len(a.Questions) > 0 {
		t.Errorf("a figure rests on a price that is missing: %+v", a.Purchase)
	}
	if a.Reading.Verdict != valuation.Unpriceable || len(a.Unpriced) != 1 || a.Unpriced[0] != "lamp-brass" {
		t.Errorf("verdict %v, unpriced %v", a.Reading.Verdict, a.Unpriced)
	}
	for _, r := range a.Routes {
		// Selling it as found or got running needs no lamps.
		if refused := r.Mean == nil; refused != (r.ID == "sell-restored" || r.ID == "part-out") {
			t.Errorf("route %s: mean %v", r.ID, r.Mean)
		}
	}
	if a.Score.Condition.Mean <= 0 || len(a.Points) == 0 {
		t.Error("score or findings are gone")
	}
	m := a.Reading.Missing[0]
	if m.Row != "2026-03-14,lamp-brass,sold,,,PRICE,EUR,,1,," || !strings.Contains(m.Key, "lamp-brass") {
		t.Errorf("missing line %+v", m)
	}
	// Where no lamps can be needed the price is not missed.
	a, diags = patched(t, unpriced...).Appraise(parse(t, head+`variant = "318"`), valuation.Options{})
	if diags.HasErrors() || a.Worth == nil {
		t.Errorf("a price that nothing needs is missed: %v", a.Unpriced)
	}
	// Nor where the routes that need it are shut.
	a, _ = patched(t, unpriced...).Appraise(parse(t, head+"variant = \"310\"\nroutes = [\"sell-running\", \"sell-as-found\"]"), valuation.Options{})
	if a.Worth == nil {
		t.Errorf("a price that no open route needs is missed: %v", a.Unpriced)
	}
}

// TestMissingModelPrice: a variant without price or guide refuses every sale.
func TestMissingModelPrice(t *testing.T) {
	l := patched(t, patch{"families/quillmore-t3.toml", "guide = \"70 EUR\"\n", ""}, patch{"prices.csv", "quillmore-t3/310,", "quillmore-t3/325,"})
	a, diags := l.Appraise(parse(t, head+`variant = "310"`), valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if a.Worth != nil || len(a.Unpriced) != 1 || a.Unpriced[0] != "quillmore-t3/310" {
		t.Errorf("worth %v, unpriced %v", a.Worth, a.Unpriced)
	}
	if row := a.Reading.Missing[0].Row; row != "2026-03-14,quillmore-t3/310,sold,GRADE,,PRICE,EUR,,1,," {
		t.Errorf("row %q", row)
	}
}

// TestCheckFindsFaults: what only the check of a whole folder can see.
func TestCheckFindsFaults(t *testing.T) {
	for _, c := range []struct {
		name    string
		patches []patch
		want    string
	}{
		{"unknown item", []patch{{"prices.csv", ",shoe,sold,,,5.20", ",shoes,sold,,,5.20"}}, `no family knows the item "shoes"`},
		{"part without price or guide", []patch{{"families/quillmore-t3.toml", "guide = \"22 EUR\"\n", ""}}, `part "reverser-relay" has neither a price nor a guide`},
		{"variant without price or guide", []patch{{"families/quillmore-t3.toml", "guide = \"70 EUR\"\n", ""}, {"prices.csv", "quillmore-t3/310,", "quillmore-t3/325,"}}, `variant "310" has neither a price nor a guide`},
		{"row without a rate", []patch{{"rates.csv", "2024-11-22", "2024-10-22"}}, "data/prices.csv:3"},
		{"settings name no sheet", []patch{{"settings.toml", `buy = "hall"`, `buy = "hell"`}}, `data/settings.toml:16:7: no charge sheet called "hell"`},
		{"settings name a sheet of the other side", []patch{{"settings.toml", `buy = "hall"`, `buy = "parcel"`}}, `"parcel" is for the other side`},
		{"sheet in a currency without rates", []patch{{"sheets/table.toml", `"EUR"`, `"JPY"`}}, `data/sheets/table.toml: the sheet is in JPY: rates.csv has no column JPY`},
		{"guide in a currency without rates", []patch{{"families/quillmore-t3.toml", "22 EUR", "22 SEK"}}, `the guide of part "reverser-relay" is in SEK`},
		{"spending in a currency without rates", []patch{{"families/quillmore-t3.toml", "0.30 EUR", "0.30 SEK"}}, `what is spent on pickup, oxidised, is in SEK`},
		{"broken sheet", []patch{{"sheets/hall.toml", `amount = "9.50"`, `amount = 9.50`}}, "data/sheets/hall.toml:"},
		{"no families", []patch{{"families/quillmore-t3.toml", "", "x"}}, "data/families/quillmore-t3.toml:1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, diags := patched(t, c.patches...).Check()
			all := make([]string, 0, len(diags))
			for _, d := range diags {
				all = append(all, d.Error())
			}
			if got := strings.Join(all, "\n"); !strings.Contains(got, c.want) {
				t.Errorf("got\n%s\nwant %s", got, c.want)
			}
		})
	}
	if done, diags := patched(t).Check(); diags.HasErrors() || done.Families != 1 || done.Sheets != 4 || done.Rows != 14 {
		t.Errorf("the reference folder: %+v %v", done, diags)
	}
}

// TestPartDefinedTwice: part ids are one namespace over the folder, and a part
// may be used by a family that does not define it.
func TestPartDefinedTwice(t *testing.T) {
	text, err := os.ReadFile(referenceDir + "/families/quillmore-t3.toml")
	if err != nil {
		t.Fatal(err)
	}
	twin := strings.Replace(string(text), `id = "quillmore-t3"`, `id = "quillmore-t4"`, 1)
	_, diags := patched(t, patch{"families/quillmore-t4.toml", "", twin}).Check()
	if err := diags.Err(); err == nil || !strings.Contains(err.Error(), `is defined in family "quillmore-t3" too`) {
		t.Errorf("got %v", diags)
	}
	i, j := strings.Index(twin, "[[part]]"), strings.Index(twin, "[[rule]]")
	borrowed := twin[:i] + twin[j:]
	l := patched(t, patch{"families/quillmore-t4.toml", "", borrowed})
	x := parse(t, strings.Replace(head, "t3", "t4", 1))
	a, diags := l.Appraise(x, valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if len(a.Parts) == 0 || a.Worth == nil {
		t.Errorf("parts %v", a.Parts)
	}
}

func FuzzReadListing(f *testing.F) {
	f.Add(head)
	for _, name := range []string{"a", "b", "c", "d"} {
		text, err := os.ReadFile(referenceDir + "/listings/" + name + ".toml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	l := openReference(f)
	f.Fuzz(func(t *testing.T, text string) {
		x, read := l.ReadListing("x.toml", strings.NewReader(text))
		if x == nil {
			return
		}
		a, diags := l.Appraise(x, valuation.Options{Draws: valuation.MinDraws})
		if (a == nil) != diags.HasErrors() || read.HasErrors() && a != nil {
			t.Fatalf("appraisal %v with %v, read with %v", a != nil, diags, read)
		}
	})
}

// TestFixedPriceOffTheLadder: a fixed price is judged by what it lands at, not by
// the bids that the sheet would allow.
func TestFixedPriceOffTheLadder(t *testing.T) {
	fixed := func(ask string) string {
		return head + "variant = \"310\"\nsale = \"fixed\"\nbuy = \"table\"\nask = \"" + ask + " EUR\"\n"
	}
	steps := patch{"sheets/table.toml", `step = "1"`, `step = "1000"`}
	odd := patch{"sheets/table.toml", `increment = [ { from = "0", step = "1" } ]`,
		"[[charge]]\nid = \"odd\"\ntitle = \"Odd\"\non = [\"hammer\"]\ntiering = \"whole\"\ntiers = [ { up_to = \"30\", rate = \"200%\" }, { rate = \"1%\" } ]"}
	for _, c := range []struct {
		ask   string
		patch patch
		want  valuation.Verdict
	}{{"10", steps, valuation.Buy}, {"45", steps, valuation.Marginal}, {"90", steps, valuation.TooDear}, {"29", odd, valuation.TooDear}} {
		a, diags := patched(t, c.patch).Appraise(parse(t, fixed(c.ask)), valuation.Options{})
		if diags.HasErrors() {
			t.Fatal(diags.Err())
		}
		if a.Reading.Verdict != c.want {
			t.Errorf("%s: verdict %v, want %v (lands at %s, worth %s)", c.ask, a.Reading.Verdict, c.want, a.Purchase.Landed.Text(), a.Worth.Mean.Text())
		}
	}
}

// TestKeepWithoutWorth: keeping it needs to be worth something.
func TestKeepWithoutWorth(t *testing.T) {
	for _, routes := range []string{`["keep"]`, `["keep", "sell-as-found"]`} {
		_, diags := openReference(t).Appraise(parse(t, head+"routes = "+routes), valuation.Options{})
		if err := diags.Err(); err == nil || !strings.Contains(err.Error(), "route keep without what keeping it is worth") {
			t.Errorf("%s: %v", routes, err)
		}
	}
}

// TestBrokenFileIsNamed: what is wrong inside a file is said of that file, not of
// the listing that names it.
func TestBrokenFileIsNamed(t *testing.T) {
	for file, listing := range map[string]string{"families/quillmore-t3.toml": head, "sheets/table.toml": head + `buy = "table"`} {
		_, diags := patched(t, patch{file, "", ""}).Appraise(parse(t, listing), valuation.Options{})
		if err := diags.Err(); err == nil || !strings.HasPrefix(err.Error(), "data/"+file) {
			t.Errorf("%s: %v", file, err)
		}
	}
}

// TestWarningsOfFilesArriveWithTheAppraisal: an unknown column is not lost.
func TestWarningsOfFilesArriveWithTheAppraisal(t *testing.T) {
	_, diags := patched(t, patch{"prices.csv", "currency,postage", "currency,postge"}).Appraise(parse(t, head), valuation.Options{})
	if len(diags) == 0 || diags.HasErrors() {
		t.Errorf("got %v", diags)
	}
}

// TestDealBreakerWithoutPrice: a missing price does not hide that the deal is off.
func TestDealBreakerWithoutPrice(t *testing.T) {
	l := patched(t, patch{"families/quillmore-t3.toml", `id = "repainted", `, `id = "repainted", stop = "repainted: not for this collection", `},
		patch{"families/quillmore-t3.toml", "guide = \"3 EUR\"\n", ""})
	a, diags := l.Appraise(parse(t, head+"variant = \"310\"\n[[finding]]\npoint = \"paint\"\nstate = \"repainted\"\nby = \"hand\"\n"), valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if a.Reading.Verdict != valuation.WalkAway || len(a.Reading.Reasons) != 1 || len(a.Reading.Missing) != 1 {
		t.Errorf("verdict %v, reasons %v, missing %v", a.Reading.Verdict, a.Reading.Reasons, a.Reading.Missing)
	}
}

// TestFiguresWithoutModelPrice: repairs are no share of a price that is unknown,
// and the column does not begin with it.
func TestFiguresWithoutModelPrice(t *testing.T) {
	l := patched(t, patch{"families/quillmore-t3.toml", "guide = \"70 EUR\"\n", ""}, patch{"prices.csv", "quillmore-t3/310,", "quillmore-t3/325,"})
	a, diags := l.Appraise(parse(t, head+"routes = [\"part-out\"]\nbuy = \"table\"\n"), valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if a.RepairShare != nil || a.Worth == nil || a.Reading.Steps[0].ID != "instead" {
		t.Errorf("repair share %v, worth %v, steps %v", a.RepairShare, a.Worth, a.Reading.Steps)
	}
}

// TestTinyPrices: a price that comes to nothing is no price, and nothing is
// divided by it.
func TestTinyPrices(t *testing.T) {
	l := patched(t, patch{"families/quillmore-t3.toml", `"22 EUR"`, `"0.00000001 EUR"`}, patch{"families/quillmore-t3.toml", `"130 EUR"`, `"0.00000001 EUR"`}, patch{"prices.csv", "quillmore-t3/318", "quillmore-t3/310"})
	x := readListing(t, referenceDir+"/listings/b.toml")
	a, diags := l.Appraise(x, valuation.Options{})
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	if err := a.WriteJSON(io.Discard); err != nil || a.Worth != nil {
		t.Errorf("%v, worth %v", err, a.Worth)
	}
	if _, diags := l.Due([]*valuation.Listing{x}, valuation.Options{}); diags.HasErrors() {
		t.Error(diags.Err())
	}
}
