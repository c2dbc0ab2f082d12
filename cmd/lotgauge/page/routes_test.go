package page

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation"
)

func routeRows(r *routes) []string {
	var out []string
	for _, x := range r.Rows {
		text := strings.Join([]string{x.Name, x.Mean, x.Low, x.High, x.Bid, x.Best}, " | ")
		if x.Leads {
			text += " leads"
		}
		out = append(out, text)
	}
	return out
}

func TestRoutes(t *testing.T) {
	want := []string{
		"Restore and sell | −8.94 | −95.35 | 72.37 | none | <1%",
		"Get running and sell | 65.50 | 8.26 | 116.72 | 32.00 | 41%",
		"Sell as found | 67.58 | 30.48 | 104.55 | 34.00 | 18%",
		"Sell in parts | 67.64 | 28.03 | 101.84 | 34.00 | 41% leads",
	}
	if diff := cmp.Diff(want, routeRows(newView(rich()).Routes)); diff != "" {
		t.Error(diff)
	}
	r := newView(unpriced()).Routes
	if got, want := routeRows(r)[0], "Restore and sell | no figure | no figure | no figure | no figure | no figure"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if r.Rows[0].Bar != nil || r.Rows[2].Bar == nil {
		t.Error("a bar stands where there is no figure, or none where there is one")
	}
}

// TestRouteScale: all bars share a scale with nought in it; a landed ask far
// out is not marked.
func TestRouteScale(t *testing.T) {
	r := newView(rich()).Routes
	grounds := map[string]bool{}
	for _, row := range r.Rows {
		grounds[row.Bar.of("line", "ground")[0].X] = true
		span := row.Bar.of("rect", "span")[0]
		mean := number(t, row.Bar.of("dot", "mean")[0].X)
		if from := number(t, span.X); mean < from || mean > from+number(t, span.W) {
			t.Errorf("%s: the average at %v is outside of %+v", row.Name, mean, span)
		}
	}
	if len(grounds) != 1 {
		t.Errorf("nought stands at %v", grounds)
	}
	a := rich()
	a.Purchase.Landed = cashPtr("5000.00")
	r = newView(a).Routes
	if r.Landed != "" || len(r.Rows[0].Bar.of("line", "pin ask")) != 0 {
		t.Error("a landed ask far out is marked")
	}
	a.Routes = nil
	if newView(a).Routes != nil {
		t.Error("there are routes without any")
	}
}

func TestRoutesOfNothing(t *testing.T) {
	a := rich()
	a.Purchase.Landed = nil
	a.Routes = []valuation.RouteWorth{{ID: "keep", Mean: cashPtr("0.00"), P10: cashPtr("0.00"), P90: cashPtr("0.00")}}
	row := newView(a).Routes.Rows[0]
	if row.Bid != "none" || row.Best != noFigure || row.Bar == nil {
		t.Errorf("%+v", row)
	}
}
