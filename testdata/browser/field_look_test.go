package browser

import "testing"

// TestFieldLook walks through the page at every screen: it keeps to itself and
// to the width of the screen, and everything to tap is large enough.
func TestFieldLook(t *testing.T) {
	for _, s := range []screen{upright, uprightInk, across, acrossInk} {
		t.Run(s.name, func(t *testing.T) {
			x := openField(t, s)
			look := func(name string) {
				t.Helper()
				x.picture(name)
				x.fits(t, name)
				x.thumbs(name)
				x.contrast(name)
			}
			look("start")
			x.tap("New find")
			look("new")
			x.tap("family " + largest)
			x.settled()
			look("check")
			x.tap("All points")
			x.tap("point pantograph-front")
			x.tap("pantograph-front missing")
			x.settled()
			look("points")
			x.tap("Which one")
			look("model")
			x.tap("Deal")
			x.enter("ask", "60")
			x.settled()
			look("deal")
			x.tap("Hand over")
			look("hand")
			x.tap("Next check")
			x.tap("The seller says")
			look("seller")
			x.tap("‹ Finds")
			look("finds")
			x.tap("Help")
			look("help")
			x.quiet(t)
		})
	}
}

// contrast reports text that the sun would take away.
func (x *handset) contrast(where string) {
	x.t.Helper()
	got := ask[struct {
		Texts  int
		Faults []string
	}](x.t, x.tab, contrasts)
	if got.Texts < 5 {
		x.t.Errorf("%s: only %d texts were looked at", where, got.Texts)
	}
	for _, fault := range got.Faults {
		x.t.Errorf("%s: %s", where, fault)
	}
}

// thumbs reports what is too small to tap: under 44 pixels either way.
func (x *handset) thumbs(where string) {
	x.t.Helper()
	for _, small := range ask[[]string](x.t, x.tab, `
		const out = [];
		for (const e of document.querySelectorAll("button, a, input")) {
			const r = e.getBoundingClientRect();
			if (r.width > 0 && (r.width < 44 || r.height < 44))
				out.push(e.textContent.trim().slice(0, 30) + " " + Math.round(r.width) + "x" + Math.round(r.height));
		}
		return out`) {
		x.t.Errorf("%s: too small to tap: %s", where, small)
	}
}
