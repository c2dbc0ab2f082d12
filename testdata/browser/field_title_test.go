package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestFieldTitleTurnsNothing: what turns the writing around, and what cannot be
// seen, is spelt out wherever a title or note is shown, as on a terminal, and
// turns nothing beside it. What is kept and handed over stays as it was.
func TestFieldTitleTurnsNothing(t *testing.T) {
	const title = "Loft \u202eeerht dnuof\u2066 \u0007\u200f שלום"
	const shown = `Loft \u202eeerht dnuof\u2066 \x07\u200f שלום`
	for _, s := range []screen{upright, acrossInk} {
		t.Run(s.name, func(t *testing.T) {
			x := openField(t, s)
			x.tap("Read a find")
			x.wait(`document.getElementById("incoming")`)
			ask[chromedp.Void](t, x.tab, `document.getElementById("incoming").value = `+quote(
				"format = 1\ntitle = \"Loft \u202eeerht dnuof\u2066 \\u0007\u200f שלום\"\nfamily = \""+largest+"\"\n"+
					"[[finding]]\npoint = \"body\"\nstate = \"sound\"\nby = \"seller\"\nnote = \"so \u202eyas\"\n"))
			x.tap("Read it")
			x.settled()
			x.picture("turned title")
			showsTitle := func() {
				t.Helper()
				x.wait(`document.querySelector("bdi.title")`)
				if got := ask[string](t, x.tab, `return document.querySelector("bdi.title").textContent`); got != shown {
					t.Errorf("shown is %q, not %q", got, shown)
				}
				if got := ask[string](t, x.tab, `return getComputedStyle(document.querySelector("bdi.title")).unicodeBidi`); got != "isolate" {
					t.Errorf("the title is set %s", got)
				}
			}
			showsTitle()
			x.tap("Hand over")
			x.wait(`document.querySelector(".finding")`)
			if got := ask[string](t, x.tab, `return document.querySelector(".finding").textContent`); !strings.Contains(got, `so \u202eyas`) {
				t.Errorf("the note is shown as %q", got)
			}
			x.tap("‹ Finds")
			showsTitle()
			x.picture("turned title kept")
			kept := ask[struct{ Title, File string }](t, x.tab, `
				const find = store.all()[0].find;
				return {Title: find.title, File: engine.call("read", engine.call("toml", find)).title}`)
			if kept.Title != title || kept.File != title {
				t.Errorf("kept is %q, handed over %q", kept.Title, kept.File)
			}
			x.quiet(t)
		})
	}
}

// TestFieldTitlesDiffer: finds begun in the same minute are numbered.
func TestFieldTitlesDiffer(t *testing.T) {
	x := openField(t, upright, `Date.prototype.getHours = () => 10; Date.prototype.getMinutes = () => 5`)
	for range 3 {
		x.tap("New find")
		x.tap("family tarnside-s3")
		x.tap("‹ Finds")
	}
	x.tap("New find")
	x.tap("family " + largest)
	x.tap("‹ Finds")
	x.wait(`document.querySelectorAll(".find").length === 4`)
	x.picture("finds numbered")
	titles := ask[[]string](t, x.tab, `return store.all().map(r => r.find.title).sort((a, b) => a.length - b.length || (a < b ? -1 : 1))`)
	seen := map[string]int{}
	for _, title := range titles {
		_, end, _ := strings.Cut(title, ", 10:05")
		seen[end]++
	}
	if seen[""] != 2 || seen[" 2"] != 1 || seen[" 3"] != 1 {
		t.Errorf("the titles are %q", titles)
	}
	wide := ask[float64](t, x.tab, `
		const row = document.querySelector(".find"), line = row.querySelector("small");
		return line.getBoundingClientRect().width / row.clientWidth`)
	if wide < 0.85 {
		t.Errorf("the line under the title has %.0f%% of the card", 100*wide)
	}
	x.quiet(t)
}

// TestFieldFirstFigure: the time until the first figure runs from when there is
// a find to figure, not from when the page was opened and somebody still chose.
func TestFieldFirstFigure(t *testing.T) {
	x := openField(t, upright)
	x.tap("New find")
	x.wait(`document.querySelector("[data-key='family ` + largest + `']")`)
	run(t, x.tab, chromedp.Sleep(1500e6))
	before := ask[float64](t, x.tab, `return performance.now()`)
	x.tap("family " + largest)
	x.wait(`times.first > 0`)
	got, spent := ask[float64](t, x.tab, `return times.first`), ask[float64](t, x.tab, `return performance.now()`)-before
	if got > spent {
		t.Errorf("the first figure took %.0f ms, of %.0f since the family was chosen", got, spent)
	}
	x.reload()
	x.wait(`times.first > 0`)
	if first, ready := ask[float64](t, x.tab, `return times.first`), ask[float64](t, x.tab, `return times.ready`); first < ready {
		t.Errorf("of a kept find the first figure took %.0f ms, and the page was ready after %.0f", first, ready)
	}
}

// TestFieldInSight: held across, the prices, the sheet, the next check and the
// first of its answers are in sight without scrolling, before and after an answer
// and with a price asked.
func TestFieldInSight(t *testing.T) {
	for _, s := range []screen{upright, across, acrossInk} {
		t.Run(s.name, func(t *testing.T) {
			x := openStall(t, s)
			inSight := func(when string) {
				t.Helper()
				x.settled()
				x.picture("in sight " + when)
				for _, what := range []string{".price.main", ".price.side", "[data-key='bought by']", ".figures .verdict", ".card h2", ".card .choices button"} {
					if !x.shown(what) {
						t.Errorf("%s: %s is not in sight", when, what)
					}
				}
			}
			x.tap("New find")
			x.tap("family " + largest)
			inSight("begun")
			x.tap("Deal")
			x.enter("ask", "60")
			x.tap("All points")
			x.tap("point body")
			x.tap("body sound")
			x.tap("Next check")
			inSight("after an answer")
			x.quiet(t)
		})
	}
}
