package browser

import (
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// leaks are ways out of a page to an address.
const leaks = `
	const make = (tag, more) => document.body.append(Object.assign(document.createElement(tag), more));
	const ways = [
		() => fetch(to + "/fetch", {mode: "no-cors"}).catch(() => {}),
		() => new Image().src = to + "/image",
		() => make("img", {src: to + "/img"}),
		() => make("script", {src: to + "/script"}),
		() => make("link", {rel: "stylesheet", href: to + "/style"}),
		() => make("link", {rel: "prefetch", href: to + "/prefetch"}),
		() => make("iframe", {src: to + "/frame"}),
		() => make("video", {src: to + "/video"}),
		() => navigator.sendBeacon(to + "/beacon", "x"),
		() => new WebSocket(to.replace("http", "ws") + "/socket"),
		() => new EventSource(to + "/events"),
		() => { const r = new XMLHttpRequest(); r.open("GET", to + "/xhr"); r.send(); },
		() => new Worker(to + "/worker"),
		() => { const f = make("form", {action: to + "/form", method: "post"}); document.forms[0].submit(); },
		() => make("style", {textContent: "body { background: url(" + to + "/css) }"}),
	];
	for (const way of ways) { try { way(); } catch (e) {} }
	return ways.length`

// TestFieldAsksForNothing tries to get something out of the page by every way
// there is: its policy stops all of them. A page without a policy shows that
// they are ways.
func TestFieldAsksForNothing(t *testing.T) {
	var asked atomic.Int32
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { asked.Add(1) }))
	defer server.Close()
	try := func(x *handset) (tried, reached int) {
		asked.Store(0)
		tried = ask[int](t, x.tab, "const to = "+quote(server.URL)+";"+leaks)
		run(t, x.tab, chromedp.Sleep(time.Second))
		return tried, int(asked.Load())
	}
	x := openField(t, upright)
	x.quiet(t)
	if tried, reached := try(x); reached != 0 {
		t.Errorf("%d of %d ways led out of the page", reached, tried)
	}
	open := filepath.Join(t.TempDir(), "open.html")
	if err := os.WriteFile(open, []byte("<!doctype html><body>"), 0o644); err != nil {
		t.Fatal(err)
	}
	if tried, reached := try(openPhone(t, "file://"+open, upright)); reached < 8 {
		t.Errorf("only %d of %d ways lead out of any page: they prove nothing", reached, tried)
	}
}

// TestFieldTitleStaysText: markup in what a find says is shown as it is written.
func TestFieldTitleStaysText(t *testing.T) {
	const hostile = `<img src=x onerror="alert(1)"><script>alert(2)</script>&amp;"'`
	x := openField(t, upright)
	x.begin()
	x.tap("Deal")
	x.enter("title", hostile)
	x.tap("Hand over")
	x.wait(`document.getElementById("listing")`)
	x.tap("‹ Finds")
	x.wait(`document.querySelector(".find .title")`)
	if got := ask[string](t, x.tab, `return document.querySelector(".find .title").textContent`); got != hostile {
		t.Errorf("the title is %q", got)
	}
	if n := ask[int](t, x.tab, `return document.querySelectorAll("#app img, #app script").length`); n != 0 {
		t.Errorf("the title became %d elements", n)
	}
	x.quiet(t)
}

// TestFieldContradiction: findings that cannot all be true are said to be so,
// and the last can be taken back.
func TestFieldContradiction(t *testing.T) {
	x := openField(t, upright)
	x.tap("New find")
	x.tap("family " + largest)
	x.tap("Which one")
	x.tap("livery red")
	x.tap("variant 6031") // green
	x.wait(`document.querySelector("#head").innerText.includes("contradict")`)
	x.picture("contradiction")
	x.tap("Take back the last")
	x.settled()
	x.quiet(t)
}

// TestFieldLesserBrowsers: the page figures the same where a browser lacks what
// only makes it quicker.
func TestFieldLesserBrowsers(t *testing.T) {
	full := openField(t, upright)
	full.begin()
	full.settled()
	const prices = `return document.querySelector(".prices").innerText`
	want := ask[string](t, full.tab, prices)
	for name, script := range map[string]string{
		"no DecompressionStream": `delete window.DecompressionStream`,
		"no workers":             `window.Worker = class { constructor() { throw new Error("no workers here"); } }`,
		"workers that fail":      `window.Worker = class { postMessage() { setTimeout(() => this.onerror(new Event("error"))); } }`,
		"no clipboard":           `Object.defineProperty(navigator, "clipboard", {value: undefined})`,
	} {
		t.Run(name, func(t *testing.T) {
			x := openField(t, upright, script)
			x.begin()
			x.settled()
			if got := ask[string](t, x.tab, prices); got != want {
				t.Errorf("the figures are %q, not %q", got, want)
			}
			x.tap("Hand over")
			x.tap("Copy")
			x.wait(`document.getElementById("copied").textContent === "Copied."`)
			x.quiet(t)
		})
	}
}

// TestFieldStranded: where the engine cannot run, the page says so instead of
// standing still, and gives the kept finds out.
func TestFieldStranded(t *testing.T) {
	const kept = `localStorage.setItem("lotgauge.field.find.x", JSON.stringify({id: "x", find: {title: "T", family: "f", date: "2026-11-20", findings: []}}));`
	for name, c := range map[string]struct{ script, said string }{
		"no WebAssembly": {kept + `delete window.WebAssembly`, "WebAssembly"},
		"no memory":      {kept + `WebAssembly.instantiate = () => Promise.reject(new RangeError("out of memory"))`, "out of memory"},
		"engine ends":    {kept + `WebAssembly.instantiate = () => Promise.resolve({exports: {run() {}, resume() {}, getsp() {}, mem: {buffer: new ArrayBuffer(65536)}}})`, "the engine"},
	} {
		t.Run(name, func(t *testing.T) {
			x := openPhone(t, "file://"+fieldFile(t), upright, c.script)
			x.wait(`document.body.innerText.includes("cannot figure here")`)
			if !strings.Contains(x.text(), c.said) {
				t.Errorf("the reason is not said: %s", x.text())
			}
			dir := x.downloads()
			if text, err := os.ReadFile(x.download(dir, "Save all finds")); err != nil || !strings.Contains(string(text), `"T"`) {
				t.Errorf("saved %q, %v", text, err)
			}
		})
	}
}

// TestFieldSpoiled: a page that was read in another encoding says what is wrong.
func TestFieldSpoiled(t *testing.T) {
	fieldPage(t)
	file := filepath.Join(t.TempDir(), "field.html")
	spoiled := strings.ToValidUTF8(strings.Replace(string(made.html), `charset="windows-1252"`, `charset="utf-8"`, 1), "\uFFFD")
	if err := os.WriteFile(file, []byte(spoiled), 0o644); err != nil {
		t.Fatal(err)
	}
	x := openPhone(t, "file://"+file, upright)
	x.wait(`document.body.innerText.includes("must be read as windows-1252")`)
}

// TestFieldWithoutScripts: what shows the page without running it shows how to
// open it.
func TestFieldWithoutScripts(t *testing.T) {
	file := fieldFile(t)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Security-Policy", "script-src 'none'")
		w.Header().Set("Content-Type", "text/html; charset=windows-1252")
		http.ServeFile(w, r, file)
	})}
	go server.Serve(l)
	defer server.Close()
	x := openPhone(t, "http://"+l.Addr().String()+"/", upright)
	x.wait(`document.body.innerText.includes("Open the file in a browser")`)
	run(t, x.tab, chromedp.Sleep(1700e6))
	x.picture("no scripts")
	if hidden := ask[string](t, x.tab, `return getComputedStyle(document.querySelector(".still")).visibility`); hidden != "visible" {
		t.Errorf("the text is %s", hidden)
	}
}
