package browser

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestLayout looks at the golden pages at every screen and at the others at the
// two that ask most: a page keeps to itself and to the width of the screen, with
// all of its foldings open too.
func TestLayout(t *testing.T) {
	for name, file := range pages(t) {
		at := screens
		if strings.HasPrefix(name, listing) {
			at = []screen{smallPhone, laptopDark}
		}
		for _, s := range at {
			t.Run(name+"/"+s.name, func(t *testing.T) {
				x := open(t, file, s)
				x.shoot(t, name+" "+s.name)
				x.fits(t, "folded")
				if !s.dark { // a fold has the same size in the dark
					ask[chromedp.Void](t, x, `for (const d of document.querySelectorAll("details")) d.open = true`)
					x.fits(t, "unfolded")
				}
				x.quiet(t)
			})
		}
	}
}

// fits reports sideways scrolling, and what sticks out.
func (x *tab) fits(t *testing.T, state string) {
	t.Helper()
	wide := ask[struct {
		Scroll, Inner int
		Out           []string
	}](t, x, `
		const inner = document.documentElement.clientWidth, out = [];
		for (const e of document.querySelectorAll("body *")) {
			const r = e.getBoundingClientRect();
			if (r.width > 1 && r.right > inner + 1 && out.length < 5 && !e.closest("svg *"))
				out.push(e.tagName + "." + e.getAttribute("class") + " to " + r.right + ": " + e.textContent.trim().slice(0, 40));
		}
		return {Scroll: document.scrollingElement.scrollWidth, Inner: inner, Out: out}`)
	if wide.Scroll > wide.Inner || len(wide.Out) > 0 {
		t.Errorf("%s: %d wide on %d: %s", state, wide.Scroll, wide.Inner, strings.Join(wide.Out, "; "))
	}
}

// TestPinsApart: the labels of the histogram do not lie over each other, nor
// stick out of it, at any width.
func TestPinsApart(t *testing.T) {
	for _, name := range []string{"rich", "walk-away"} {
		for _, s := range screens {
			t.Run(name+"/"+s.name, func(t *testing.T) {
				x := open(t, pages(t)[name], s)
				for _, fault := range ask[[]string](t, x, `
					const out = [], plot = document.querySelector("svg.histogram"), frame = plot.getBoundingClientRect();
					const all = [...plot.querySelectorAll("text")].map(e => [e.textContent, e.getBoundingClientRect()]);
					for (const [text, r] of all) {
						if (r.left < frame.left - 1 || r.right > frame.right + 1) out.push(text + " sticks out");
						for (const [other, q] of all)
							if (text < other && r.left < q.right && q.left < r.right && r.top < q.bottom - 2 && q.top < r.bottom - 2)
								out.push(text + " over " + other);
					}
					return out`) {
					t.Error(fault)
				}
			})
		}
	}
}

// shoot leaves a picture of the whole page where somebody wants one.
func (x *tab) shoot(t *testing.T, name string) {
	dir := os.Getenv("LOTGAUGE_SHOTS")
	if dir == "" {
		return
	}
	png := run(t, x, chromedp.FullScreenshot(100))
	if err := os.WriteFile(filepath.Join(dir, strings.ReplaceAll(name, " ", "-")+".png"), png, 0o644); err != nil {
		t.Fatal(err)
	}
}
