package browser

import (
	"slices"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"lotgauge/cmd/lotgauge/field"
)

// TestFieldTimes prints how large the page is and how long it takes, for the
// largest family, at this machine's speed and with the processor slowed six
// times. Times are not judged: they say as much of the machine as of the page.
// Meant are at most 600 ms until the first figure and 60 ms from a tap to the
// figures, slowed 2500 ms and 300 ms.
func TestFieldTimes(t *testing.T) {
	fieldPage(t)
	t.Logf("page %d bytes of at most %d, engine %d gzipped", len(made.html), field.MaxSize, len(made.page.Engine.Wasm))
	for _, slow := range []float64{1, 6} {
		first, changes := fieldTimes(t, slow)
		if len(first) == 0 || len(changes) == 0 || first[0] <= 0 || changes[0] <= 0 {
			t.Fatal("nothing was measured")
		}
		t.Logf("processor slowed %v times: first figure least %.0f, middle %.0f ms; a change least %.0f, middle %.0f, most %.0f ms",
			slow, first[0], first[len(first)/2], changes[0], changes[len(changes)/2], changes[len(changes)-1])
	}
}

// fieldTimes are the times in milliseconds from the start of loading to the
// first figure of a kept find, and from taps to their figures, ascending.
func fieldTimes(t *testing.T, slow float64) (first, changes []float64) {
	x := openField(t, upright)
	x.tap("New find")
	x.tap("family " + largest)
	x.settled()
	order(t, x.tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slow})
	for range 5 {
		run(t, x.tab, chromedp.Reload())
		x.wait(`typeof times !== "undefined" && times.first > 0`)
		first = append(first, ask[float64](t, x.tab, `return times.first`))
	}
	x.tap("All points")
	for _, state := range []string{"sound", "bent", "wrong-type", "missing", "sound", "bent", "missing", "sound"} {
		ask[chromedp.Void](t, x.tab, `now.open = "point pantograph-front"; draw(); times.last = 0`)
		x.tap("pantograph-front " + state)
		x.wait(`times.last > 0`)
		changes = append(changes, ask[float64](t, x.tab, `return times.last`))
	}
	x.quiet(t)
	slices.Sort(first)
	slices.Sort(changes)
	return first, changes
}
