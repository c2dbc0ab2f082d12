package valuation_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"lotgauge/valuation/prices"
)

func TestItems(t *testing.T) {
	if got, want := keeper().Items(), []string{"tank/110", "tank/118", "tyre"}; !slices.Equal(got, want) {
		t.Errorf("items %v, want %v", got, want)
	}
	all := openDemo(t).Items()
	if !slices.IsSorted(all) || len(slices.Compact(slices.Clone(all))) != len(all) || len(all) < 100 {
		t.Errorf("%d items of the demonstration, or out of order", len(all))
	}
	demo := openDemo(t)
	for _, id := range all {
		x, diags := demo.Item(id)
		if diags.HasErrors() || x.ID != id || x.Title == "" || x.Model() != strings.Contains(id, "/") || x.Model() != (x.Grades != nil) {
			t.Errorf("%s: %+v, %v", id, x, diags)
		}
	}
}

func TestItem(t *testing.T) {
	l := keeper()
	x, diags := l.Item("tank/118")
	if len(diags) > 0 || !x.Model() || x.Title != "Tank engine, 118: green" || !slices.Equal(x.Grades, []string{"fair", "fine"}) {
		t.Errorf("%+v, %v", x, diags)
	}
	x, diags = l.Item("tyre")
	if len(diags) > 0 || x.Model() || x.Title != "Traction tyre" || x.Grades != nil {
		t.Errorf("%+v, %v", x, diags)
	}
	for _, id := range []string{"tank", "tank/", "/110", "tyre/", "TYRE", "tank/110 "} {
		if x, diags := l.Item(id); x != nil || !diags.HasErrors() {
			t.Errorf("%q: %+v, %v", id, x, diags)
		}
	}
}

// TestCheckRow: what a row may say of an item, by what its family knows.
func TestCheckRow(t *testing.T) {
	l := keeper()
	for _, test := range []struct{ item, grade, lacking, want string }{
		{"tank/110", "", "", ""},
		{"tank/110", "fair", "box:missing", ""},
		{"tank/110", "fine", "tyres:gone box:missing", ""},
		{"tank/110", "fien", "", `family tank has no grade "fien": expected one of fair or fine`},
		{"tank/110", "", "bax:missing", `family tank has no point "bax": expected one of box or tyres; try box`},
		{"tank/110", "", "box:gone", `point "box" has no state "gone": expected one of sound, missing or burnt`},
		{"tank/110", "fien", "box:gone", `grade: family tank has no grade "fien": expected one of fair or fine; try fine (and 1 more)`},
		{"tank/110", "", "box:burnt", "a sale at factor 0 says nothing of the price of a sound one"},
		{"tyre", "", "", ""},
		{"tyre", "fine", "", `grade "fine": a part has no grade`},
		{"tyre", "", "box:missing", `lacking "box:missing": a part lacks nothing`},
	} {
		x, diags := l.Item(test.item)
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		row := prices.Row{Day: on("2026-03-01"), Item: test.item, Grade: test.grade, Lacking: test.lacking,
			Price: decimal.New(10, 0), Currency: "EUR", Qty: 1}
		err := x.CheckRow(row).Err()
		if err == nil && test.want != "" || err != nil && (test.want == "" || !strings.Contains(err.Error(), test.want)) {
			t.Errorf("%s, %q, %q: got %v, want %s", test.item, test.grade, test.lacking, err, test.want)
		}
		// What passes here, estimates can use; what does not they refuse.
		table := "2026-03-01," + test.item + ",sold," + test.grade + "," + test.lacking + ",10,EUR,,1,,"
		_, diags = keeper(table).Price(test.item, on("2026-03-03"))
		if x.Model() && diags.HasErrors() != (test.want != "") {
			t.Errorf("%s: an estimate says %v", table, diags)
		}
	}
}
