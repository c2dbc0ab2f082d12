package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestFieldNoAnswer: looking oneself, what cannot be told takes back what was
// said and leaves the figures where they were before; nothing is held against the
// seller. What the seller does not show is there to be said of the seller alone.
func TestFieldNoAnswer(t *testing.T) {
	for _, s := range []screen{upright, acrossInk} {
		t.Run(s.name, func(t *testing.T) {
			x := openField(t, s)
			const prices = `return [...document.querySelectorAll(".amount")].map(e => e.textContent).join()`
			const findings = `return record().find.findings.map(f => f.point + f.symptom + f.by).join()`
			x.tap("New find")
			x.tap("family " + largest)
			x.settled()
			before := ask[string](t, x.tab, prices)
			x.tap("All points")
			x.tap("point box")
			x.wait(`document.querySelector("[data-key='no answer box']")`)
			if ask[bool](t, x.tab, `return Boolean(document.querySelector("[data-key='hidden box']"))`) {
				t.Error("who looks can say that it is not shown")
			}
			x.tap("box missing")
			x.tap("no answer box")
			x.wait(`document.querySelector("[data-key='no answer box'][aria-pressed=true]")`)
			x.settled()
			x.picture("no answer")
			if after := ask[string](t, x.tab, prices); after != before {
				t.Errorf("the prices are %q, before %q", after, before)
			}
			x.tap("symptom no-movement")
			x.tap("no-movement Yes")
			x.tap("no answer no-movement")
			if got := ask[string](t, x.tab, findings); got != "" {
				t.Errorf("left is %s", got)
			}
			x.tap("The seller says")
			x.tap("point box")
			x.tap("hidden box")
			x.wait(`record().find.findings.length === 1`)
			x.tap("no answer box")
			x.wait(`record().find.findings.length === 0`)
			x.quiet(t)
		})
	}
}

// TestFieldRefuses: of what is no number it is said what was expected, and the
// Enter key takes what is one.
func TestFieldRefuses(t *testing.T) {
	for _, s := range []screen{upright, uprightInk} {
		t.Run(s.name, func(t *testing.T) {
			x := openField(t, s)
			said := func(id, want string) {
				t.Helper()
				x.wait(`document.getElementById("refusal-` + id + `").textContent.includes(` + quote(want) + `) === true`)
			}
			x.tap("New find")
			x.tap("family " + largest)
			x.tap("All points")
			x.tap("point wheels")
			x.wait(`document.querySelector("label[for=reading-wheels]").textContent.includes("right: 14.0 to 14.1 mm")`)
			x.enter("reading-wheels", "abc")
			x.tap("enter wheels")
			said("reading-wheels", "expected a number such as 13.7, in mm")
			x.picture("refused")
			x.contrast("refused")
			x.enter("reading-wheels", "13,7\r")
			x.wait(`document.querySelector("[data-key='point wheels'] .found").textContent === "13.7 mm"`)
			x.wait(`document.querySelector(".undo span").textContent.startsWith("Wheels: 13.7 mm: below 14.0 mm, most likely exchanged (")`)
			x.enter("reading-wheels", "40\r")
			x.wait(`document.querySelector(".undo span").textContent.endsWith("Far from what any state reads: is that what it reads?")`)
			x.wait(`document.querySelector(".opened .care:last-of-type").textContent.startsWith("40 mm: above 14.1 mm")`)
			x.picture("far reading")
			x.contrast("far reading")
			x.tap("Deal")
			x.enter("ask", "much")
			said("ask", "expected an amount such as 45")
			x.picture("refused price")
			x.contrast("refused price")
			ask[chromedp.Void](t, x.tab, `document.getElementById("ask").focus()`)
			x.enter("ask", "45")
			x.wait(`document.getElementById("refusal-ask").textContent === ""`)
			ask[chromedp.Void](t, x.tab, `document.getElementById("ask").focus()`)
			run(t, x.tab, chromedp.KeyEvent("\r"))
			x.wait(`document.activeElement === document.body`)
			x.quiet(t)
		})
	}
}

// TestFieldReadFaults: all that is wrong with a listing file is in the box, each
// mistake once, by line.
func TestFieldReadFaults(t *testing.T) {
	for _, s := range []screen{upright, acrossInk} {
		t.Run(s.name, func(t *testing.T) {
			x := openField(t, s)
			x.tap("Read a find")
			x.enter("incoming", "")
			ask[chromedp.Void](t, x.tab, `document.getElementById("incoming").value = `+
				quote("format = 1\ntitle = \"t\"\nfamily = \"f\"\naks = \"1 EUR\"\nask = \"x\"\nsale = \"swap\"\n"))
			x.tap("Read it")
			x.wait(`document.querySelector("#read .notice.bad li")`)
			x.picture("read faults")
			if s.width < s.height && !x.shown("#read .notice.bad li") {
				t.Error("the first of them is not in sight")
			}
			got := ask[[]string](t, x.tab, `return [...document.querySelectorAll("#read .notice.bad li")].map(e => e.textContent)`)
			var lines []string
			for _, line := range got {
				place, _, _ := strings.Cut(strings.TrimPrefix(line, "listing:"), ":")
				lines = append(lines, place)
			}
			if all := strings.Join(lines, " "); all != "3 4 5 6" {
				t.Errorf("the mistakes are of the lines %q: %q", all, got)
			}
			if n := ask[int](t, x.tab, `return document.getElementById("read").children.length`); n != 1 {
				t.Errorf("%d boxes and lines outside of the box", n)
			}
			x.quiet(t)
		})
	}
}
