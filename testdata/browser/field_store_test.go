package browser

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// begin starts a find of the largest family and finds something.
func (x *handset) begin() {
	x.t.Helper()
	x.tap("New find")
	x.tap("family " + largest)
	x.tap("All points")
	x.tap("point pantograph-front")
	x.tap("pantograph-front bent")
}

func (x *handset) reload() {
	x.t.Helper()
	run(x.t, x.tab, chromedp.Reload())
	x.wait(`document.querySelector("h1, .prices")`)
}

func (x *handset) text() string {
	return ask[string](x.t, x.tab, `return document.body.innerText`)
}

// TestFieldKeeps: a reload comes back to the open find with its figures, and
// several finds are kept apart.
func TestFieldKeeps(t *testing.T) {
	x := openField(t, upright)
	x.begin()
	x.settled()
	before := ask[string](t, x.tab, `return document.querySelector(".prices").innerText.split("\n").slice(0, 2).join()`)
	x.reload()
	x.settled()
	if after := ask[string](t, x.tab, `return document.querySelector(".prices").innerText.split("\n").slice(0, 2).join()`); after != before {
		t.Errorf("after a reload the figures are %q, before %q", after, before)
	}
	x.wait(`document.querySelector("[aria-expanded] .found").textContent === "bent"`)
	x.tap("‹ Finds")
	x.tap("New find")
	x.tap("family tarnside-s3")
	x.settled()
	x.reload()
	x.tap("‹ Finds")
	x.wait(`document.querySelectorAll(".find").length === 2`)
	x.quiet(t)
}

// TestFieldHoldsStill: what is tapped stays under the thumb while the page around
// it changes.
func TestFieldHoldsStill(t *testing.T) {
	for _, s := range []screen{upright, across} {
		t.Run(s.name, func(t *testing.T) {
			x := openField(t, s)
			x.tap("New find")
			x.tap("family " + largest)
			x.tap("All points")
			x.tap("point body")
			const height = `return Math.round(document.querySelector("[data-key='body cracked']").getBoundingClientRect().top)`
			x.wait(`document.querySelector("[data-key='body cracked']")`)
			ask[chromedp.Void](t, x.tab, `document.querySelector("[data-key='body cracked']").scrollIntoView({block: "center"})`)
			before := ask[int](t, x.tab, height)
			x.tap("body cracked")
			x.wait(`document.querySelector("[data-key='body cracked'][aria-pressed=true]")`)
			x.settled()
			if after := ask[int](t, x.tab, height); after < before-1 || after > before+1 {
				t.Errorf("it moved from %d to %d", before, after)
			}
			x.quiet(t)
		})
	}
}

// TestFieldTakesBack: what was tapped can be taken back, and a find deleted.
func TestFieldTakesBack(t *testing.T) {
	x := openField(t, upright)
	x.begin()
	x.tap("Take back")
	if n := ask[int](t, x.tab, `return record().find.findings.length`); n != 0 {
		t.Errorf("%d findings are left", n)
	}
	ask[chromedp.Void](t, x.tab, `window.confirm = () => true`)
	x.tap("Hand over")
	x.tap("Delete it")
	x.wait(`document.querySelector(".find") === null`)
	x.reload()
	if n := ask[int](t, x.tab, `return localStorage.length`); n != 0 {
		t.Errorf("%d entries are left in the storage", n)
	}
	x.quiet(t)
}

// Storages that do not work, as scripts that break them.
var brokenStorages = map[string]struct{ script, said string }{
	"forbidden": {`Object.defineProperty(window, "localStorage", {get() { throw new DOMException("no", "SecurityError"); }})`, "does not let the page keep"},
	"full":      {`Storage.prototype.setItem = () => { throw new DOMException("no room", "QuotaExceededError"); }`, "is full"},
	"missing":   {`Object.defineProperty(window, "localStorage", {value: undefined})`, "does not work"},
	"failing":   {`Storage.prototype.setItem = Storage.prototype.getItem = () => { throw new Error("disk on fire"); }`, "disk on fire"},
}

// TestFieldBrokenStorage: a storage that is missing, broken or full is said,
// the finds go on in memory, and all of them can be saved and read in again.
func TestFieldBrokenStorage(t *testing.T) {
	for name, broken := range brokenStorages {
		t.Run(name, func(t *testing.T) {
			x := openField(t, upright, broken.script)
			dir := x.downloads()
			x.begin()
			x.settled()
			if text := x.text(); !strings.Contains(text, "Finds are not kept") || !strings.Contains(text, broken.said) {
				t.Errorf("nothing says so: %.300s", text)
			}
			x.picture("storage " + name)
			saved, err := os.ReadFile(x.download(dir, "Save all finds"))
			if err != nil {
				t.Fatal(err)
			}
			if !json.Valid(saved) || !strings.Contains(string(saved), `"bent"`) {
				t.Errorf("the find is not in what was saved: %.300s", saved)
			}
			x.quiet(t)

			y := openField(t, upright)
			y.tap("Read a find")
			y.wait(`document.getElementById("incoming")`)
			ask[chromedp.Void](t, y.tab, `document.getElementById("incoming").value = `+quote(string(saved)))
			y.tap("Read it")
			y.settled()
			y.tap("Hand over")
			y.wait(`document.querySelector(".finding").textContent.includes("bent")`)
			y.quiet(t)
		})
	}
}

// TestFieldFillsUp: a storage that fills up in the middle keeps what it has, and
// what it could not take is kept as soon as there is room.
func TestFieldFillsUp(t *testing.T) {
	x := openField(t, upright)
	x.begin()
	x.settled()
	ask[chromedp.Void](t, x.tab, `
		window.whole = Storage.prototype.setItem;
		Storage.prototype.setItem = () => { throw new DOMException("no room", "QuotaExceededError"); }`)
	x.tap("pantograph-front missing")
	x.wait(`document.body.innerText.includes("Finds are not kept")`)
	kept := ask[string](t, x.tab, `return localStorage.getItem("lotgauge.field.find." + now.id)`)
	if !strings.Contains(kept, `"bent"`) {
		t.Errorf("what was kept before is gone: %.200s", kept)
	}
	ask[chromedp.Void](t, x.tab, `Storage.prototype.setItem = window.whole`)
	x.tap("pantograph-front wrong-type")
	x.wait(`!document.body.innerText.includes("Finds are not kept")`)
	x.reload()
	x.settled()
	x.wait(`document.querySelector("[aria-expanded] .found").textContent === "wrong type"`)
	x.quiet(t)
}

// TestFieldDamagedStorage: what cannot be read in the storage is said, left as
// it is and can be saved.
func TestFieldDamagedStorage(t *testing.T) {
	x := openField(t, upright)
	x.begin()
	x.settled()
	ask[chromedp.Void](t, x.tab, `
		localStorage.setItem("lotgauge.field.find.a", "{no json");
		localStorage.setItem("lotgauge.field.find.b", '{"id": "b", "find": {"title": 7}}');
		localStorage.setItem("another page's", "entry")`)
	x.reload()
	x.tap("‹ Finds")
	x.wait(`document.body.innerText.includes("2 kept finds cannot be read")`)
	dir := x.downloads()
	text, err := os.ReadFile(x.download(dir, "Save its text"))
	if err != nil || !strings.Contains(string(text), "{no json") {
		t.Errorf("saved %q, %v", text, err)
	}
	if n := ask[int](t, x.tab, `return localStorage.length`); n != 4 {
		t.Errorf("%d entries in the storage, not 4", n)
	}
	x.quiet(t)
}
