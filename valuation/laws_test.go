package valuation

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/belief"
	"lotgauge/valuation/charges"
	"lotgauge/valuation/money"
)

const referenceFolder = "../testdata/reference/appraise"

// evaluated is an appraiser of a reference listing, evaluated.
func evaluated(t *testing.T, l *Library, listing string) *appraiser {
	t.Helper()
	x, diags := ReadListing("x.toml", strings.NewReader(listing))
	if diags.HasErrors() {
		t.Fatal(diags.Err())
	}
	a, diags := l.run(x, Options{})
	if a == nil {
		t.Fatal(diags.Err())
	}
	return a
}

func referenceListing(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(referenceFolder, "listings", name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// changed is the reference folder with a text replaced in one file.
func changed(t *testing.T, file, old, new string) *Library {
	t.Helper()
	folder := fstest.MapFS{}
	for _, f := range []string{"families/quillmore-t3.toml", "sheets/hall.toml", "sheets/letter.toml", "sheets/parcel.toml", "sheets/table.toml", "prices.csv", "rates.csv", "settings.toml"} {
		text, err := os.ReadFile(filepath.Join(referenceFolder, f))
		if err != nil {
			t.Fatal(err)
		}
		if f == file {
			if !strings.Contains(string(text), old) {
				t.Fatalf("%s has no %q", file, old)
			}
			text = []byte(strings.ReplaceAll(string(text), old, new))
		}
		folder[f] = &fstest.MapFile{Data: text}
	}
	return Open(folder, "", false)
}

// TestDrawsAgreeWithSums: worth and routes over the draws are the exact ones,
// within four standard errors.
func TestDrawsAgreeWithSums(t *testing.T) {
	l := Open(os.DirFS(referenceFolder), "", false)
	for _, name := range []string{"a", "b", "c", "d"} {
		a := evaluated(t, l, referenceListing(t, name))
		if !a.expected.cases.Exact {
			t.Fatal("not summed")
		}
		check := func(what string, drawn []float64, exact float64) {
			within(t, name+" "+what, mean(drawn), exact, 4*deviation(drawn)/math.Sqrt(float64(len(drawn))))
		}
		check("worth", a.drawn.worth, a.expected.worth)
		for r, drawn := range a.drawn.route {
			if a.ledger.open[r] {
				check(RouteNames[r], drawn, a.expected.route[r])
			}
		}
	}
}

// TestBentSellingCharges: where the net is not straight the worths are those of
// the draws, and what does not depend on selling stays exact.
func TestBentSellingCharges(t *testing.T) {
	straight := evaluated(t, Open(os.DirFS(referenceFolder), "", false), referenceListing(t, "a"))
	bent := evaluated(t, changed(t, "sheets/parcel.toml", `rate = "8%"`, "rate = \"8%\"\nmin = \"5\""), referenceListing(t, "a"))
	if bent.ledger.sell.straight {
		t.Fatal("a minimum is straight")
	}
	within(t, "worth", bent.expected.worth, mean(bent.drawn.worth), 1e-9)
	within(t, "restored", bent.expected.route[sellRestored], mean(bent.drawn.route[sellRestored]), 1e-9)
	if bent.expected.worth >= straight.expected.worth {
		t.Errorf("a minimum fee adds worth: %v, %v without", bent.expected.worth, straight.expected.worth)
	}
	within(t, "repairs", bent.expected.repairs, straight.expected.repairs, 1e-12)
	within(t, "gross", bent.expected.gross, straight.expected.gross, 1e-12)
	within(t, "all found", bent.expected.allFound, straight.expected.allFound, 1e-12)
}

// TestOneDrawAnItem: an item has one price in a draw, whether it is bought for
// one point or another, or sold.
func TestOneDrawAnItem(t *testing.T) {
	a := prepared(t, "variant = \"310\"\n")
	v, d := uint8(0), dice{11}
	place := a.ledger.accounts[v].place
	pickup, lamps := a.family.PointIndex("pickup"), a.family.PointIndex("lamps")
	c := &belief.Cases{Weight: []float64{1}, Variant: []uint8{v}, State: [][]uint8{{0}, {0}, {0}, {0}, {0}, {belief.NotApplicable}}}
	c.State[pickup][0], c.State[lamps][0] = 3, 2 // both missing
	for k, b := range thrownBills(a.ledger, repeated(c, 500), d.seed) {
		price := func(part string) (buy, piece float64) {
			i := a.family.PartIndex(part)
			j := thrownFace(d, place[i], k)
			return a.market.parts[i].Buy.Values[j], 0.85 * (a.market.parts[i].Sell.Values[j]*0.92 - 1)
		}
		shoe, _ := price("shoe")
		lamp, _ := price("lamp-brass")
		_, relay := price("reverser-relay")
		within(t, "bought", b.all, shoe+2*lamp, 1e-9)
		within(t, "bought to run", b.run, shoe, 1e-9)
		within(t, "sold in parts", b.yields, relay, 1e-9)
	}
	// All sound: shoe and lamps are sold at the prices that buying them is drawn at.
	c.State[pickup][0], c.State[lamps][0] = 0, 0
	for k, b := range thrownBills(a.ledger, repeated(c, 500), d.seed) {
		sum := 0.0
		for part, qty := range map[string]float64{"shoe": 1, "lamp-brass": 2, "reverser-relay": 1} {
			i := a.family.PartIndex(part)
			sum += qty * 0.85 * (a.market.parts[i].Sell.Values[thrownFace(d, place[i], k)]*0.92 - 1)
		}
		within(t, "sold in parts", b.yields, sum, 1e-9)
	}
}

const allSeen = `format = 1
title = "All seen"
family = "quillmore-t3"
variant = "310"
date = 2026-03-14
sale = "fixed"
ask = "20 EUR"
buy = "table"
[[finding]]
point = "tyres"
state = "sound"
by = "hand"
[[finding]]
point = "reverser"
state = "sound"
by = "hand"
[[finding]]
point = "paint"
state = "sound"
by = "hand"
[[finding]]
point = "pickup"
state = "missing"
by = "hand"
[[finding]]
point = "lamps"
state = "missing"
by = "hand"
`

// TestPartNeededTwice: a part that two points need is found once, and bought
// twice.
func TestPartNeededTwice(t *testing.T) {
	l := changed(t, "families/quillmore-t3.toml",
		`{ id = "missing", score = 0.0, complete = false, factor = 0.9, odds = { cabinet = 1, layout = 2, tampered = 3 }, needs = [{ part = "lamp-{lamps}", qty = 2 }], minutes = 8 }`,
		`{ id = "missing", score = 0.0, complete = false, factor = 0.9, odds = { cabinet = 1, layout = 2, tampered = 3 }, needs = ["shoe"], minutes = 8 }`)
	a := evaluated(t, l, allSeen)
	shoe := a.family.PartIndex("shoe")
	within(t, "all found", a.expected.allFound, a.market.finds[shoe].FindChance, 1e-12)
	within(t, "chance that it is needed", a.expected.needed[shoe], 1, 1e-12)
	pieces, _ := a.pieces()
	within(t, "pieces", pieces[shoe], 2, 1e-12)
}

// TestCoverage: what is hidden has not been looked at. Weights of variant 310:
// tyres 2, pickup 4, reverser 7, lamps 3, paint 6.
func TestCoverage(t *testing.T) {
	l := Open(os.DirFS(referenceFolder), "", false)
	hidden := strings.Replace(allSeen, "point = \"paint\"\nstate = \"sound\"\nby = \"hand\"", "point = \"paint\"\nby = \"hidden\"", 1)
	within(t, "all seen", float64(evaluated(t, l, allSeen).report().Score.Coverage), 1, 1e-12)
	within(t, "paint hidden", float64(evaluated(t, l, hidden).report().Score.Coverage), 16.0/22, 1e-12)
}

// TestHammerRange: without a range of the listing's it is around the break-even
// bid, else the ask, ends 2.5 apart.
func TestHammerRange(t *testing.T) {
	a := evaluated(t, Open(os.DirFS(referenceFolder), "", false), strings.Replace(referenceListing(t, "b"), "hammer = ", "# ", 1))
	ask := Money{decimal.NewFromInt(10)}
	even := Money{decimal.NewFromInt(40)}
	for _, c := range []struct {
		purchase Purchase
		middle   float64
	}{{Purchase{Ask: &ask, BreakEvenBid: &even}, 40}, {Purchase{Ask: &ask}, 10}, {Purchase{}, 1}} {
		low, high := a.hammerRange(&Appraisal{Purchase: c.purchase})
		within(t, "middle", math.Sqrt(low*high), c.middle, 1e-9)
		within(t, "ratio", high/low, 2.5, 1e-9)
	}
}

// TestSheetNotValid: each of the three sheets is held against the day.
func TestSheetNotValid(t *testing.T) {
	for _, sheet := range []string{"table", "parcel", "letter"} {
		a := evaluated(t, changed(t, "sheets/"+sheet+".toml", "format = 1", "format = 1\nvalid = [2020-01-01, 2020-12-31]"), allSeen)
		if out := a.report(); !strings.Contains(out.Reading.Warnings[0].Summary, sheet) {
			t.Errorf("%s: warnings %v", sheet, out.Reading.Warnings)
		}
	}
}

// TestKeepNeedsItsParts: keeping it means restoring it, so the route is refused
// without a price for what that needs; what it is worth opens it.
func TestKeepNeedsItsParts(t *testing.T) {
	l := changed(t, "families/quillmore-t3.toml", "guide = \"3 EUR\"\n", "")
	kept := strings.Replace(allSeen, "buy = ", "keep_worth = \"90 EUR\"\nroutes = [\"keep\", \"sell-as-found\"]\nbuy = ", 1)
	if a := evaluated(t, l, kept); a.whole() || len(a.shut[keepIt]) != 1 {
		t.Errorf("keep is figured without a price: %v", a.shut)
	}
	sold := strings.Replace(allSeen, "buy = ", "routes = [\"sell-as-found\"]\nbuy = ", 1)
	if a := evaluated(t, l, sold); !a.whole() || len(a.report().Routes) != 1 {
		t.Errorf("a route that is shut is missed: %v", a.missing)
	}
}

func TestPairAgainstNoise(t *testing.T) {
	c := &belief.Cases{Exact: true, Weight: []float64{0.25, 0.25, 0.25, 0.25}}
	q := &asker{cases: c, values: [][]float64{{10, -10, -10, 10}}, g: fixedPrice(1)}
	about := []inquiry{{answers: []uint8{0, 0, 1, 1}, count: 2}, {answers: []uint8{0, 1, 0, 1}, count: 2}}
	if _, _, worth, ok := q.pair(about, 0, 4.4); !ok || worth != 4.5 {
		t.Errorf("pair %v, %v", worth, ok) // half the time it is worth 9
	}
	if _, _, _, ok := q.pair(about, 0, 4.6); ok {
		t.Error("a pair within the noise is shown")
	}
}

// TestPairAmongMany: the pair is found where neither of the two says anything by
// itself and many others say a little.
func TestPairAmongMany(t *testing.T) {
	const n = 20000
	c := &belief.Cases{Weight: make([]float64, n)}
	value := make([]float64, n)
	about := make([]inquiry, 30)
	for i := range about {
		about[i] = inquiry{answers: make([]uint8, n), count: 2}
	}
	d := dice{5}
	for k := range value {
		c.Weight[k] = 1.0 / n
		for i := range about {
			about[i].answers[k] = uint8(d.of(i).index(k, 2))
		}
		value[k] = -20 + 40*float64(about[3].answers[k]^about[27].answers[k]) + float64(about[9].answers[k])
	}
	q := &asker{cases: c, values: [][]float64{value}, g: fixedPrice(5)}
	i, j, worth, ok := q.pair(about, 0, 0.5)
	if !ok || i != 3 || j != 27 {
		t.Fatalf("pair %d %d %v %v", i, j, worth, ok)
	}
	within(t, "worth", worth, 7.75, 0.3) // half the time 20.5 against 5
}

// TestRatioToCheapest: a part alone in its group is compared with nothing.
func TestRatioToCheapest(t *testing.T) {
	a := prepared(t, "variant = \"318\"\n")
	ratio, of := a.ratio(a.family.PartIndex("lamp-black"))
	if ratio == nil || of != "Lamp, brass" {
		t.Fatalf("ratio %v to %q", ratio, of)
	}
	parts := a.market.parts
	within(t, "ratio", float64(*ratio), parts[a.family.PartIndex("lamp-black")].Buy.Mean/parts[a.family.PartIndex("lamp-brass")].Buy.Mean, 1e-12)
	if ratio, _ := a.ratio(a.family.PartIndex("shoe")); ratio != nil {
		t.Errorf("a part without a group has a ratio: %v", *ratio)
	}
	a.family.Parts[a.family.PartIndex("lamp-brass")].Group = "other"
	if ratio, _ := a.ratio(a.family.PartIndex("lamp-black")); ratio != nil {
		t.Errorf("a part alone in its group has a ratio: %v", *ratio)
	}
}

// TestStraightSaleConverts: the fixed sum of a straight sheet is converted too.
func TestStraightSaleConverts(t *testing.T) {
	s := readSheet(t, strings.Replace(sellHead, "EUR", "GBP", 1)+"[[charge]]\nid = \"stamp\"\ntitle = \"Stamp\"\namount = \"1.00\"\n")
	two := charges.Conversion{Rate: money.WholeRatio(decimal.NewFromInt(2)), Home: "EUR"}
	within(t, "net", newSale(s, two).net(200), 198, 1e-9)
}
