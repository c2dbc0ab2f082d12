package browser

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"lotgauge/cmd/lotgauge/field"
)

// The screens that the phone page is looked at with.
var (
	upright    = screen{"upright", 390, 844, false}
	uprightInk = screen{"upright dark", 390, 844, true}
	across     = screen{"across", 844, 390, false}
	acrossInk  = screen{"across dark", 844, 390, true}
)

// largest is the family with the most to read and to figure.
const largest = "pellworth-ce4"

// made is the page of the whole demonstration folder, built once.
var made struct {
	once sync.Once
	page field.Page
	html []byte
	err  error
}

// fieldPage is what the page is made of.
func fieldPage(t *testing.T) field.Page {
	t.Helper()
	made.once.Do(func() {
		made.page = field.Page{
			Data: demonstration(t), Demonstration: true, Made: time.Date(2026, 11, 20, 0, 0, 0, 0, time.UTC),
			Families: []string{largest, "quillmore-t8", "tarnside-r12", "tarnside-s3"},
		}
		if made.page.Engine, made.err = field.FindEngine(context.Background(), nil); made.err != nil {
			return
		}
		var b bytes.Buffer
		made.err = field.Build(&b, made.page)
		made.html = b.Bytes()
	})
	if made.err != nil {
		t.Fatal(made.err)
	}
	return made.page
}

// fieldFile is the page as a file.
func fieldFile(t *testing.T) string {
	t.Helper()
	fieldPage(t)
	file := filepath.Join(t.TempDir(), "field.html")
	if err := os.WriteFile(file, made.html, 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// A handset is a tab with a storage of its own, that a page is opened in.
type handset struct {
	*tab
	t    *testing.T
	shot string // what pictures of it are called
}

// openPhone opens an address in a new handset. The scripts run in it before those
// of any page.
func openPhone(t *testing.T, url string, s screen, scripts ...string) *handset {
	t.Helper()
	browser.once.Do(start)
	if browser.why != "" {
		if os.Getenv("LOTGAUGE_BROWSER") == "required" {
			t.Fatal("no browser: " + browser.why)
		}
		t.Skip("no browser: " + browser.why + " (LOTGAUGE_BROWSER=required makes this a failure)")
	}
	x := &handset{tab: &tab{}, t: t, shot: "field " + s.name}
	ctx, cancel := chromedp.NewContext(browser.ctx, chromedp.WithNewBrowserContext(),
		chromedp.WithListener(func(event any) { x.listen(event, url) }))
	t.Cleanup(cancel)
	x.Context, cancel = context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(cancel)
	scheme := "light"
	if s.dark {
		scheme = "dark"
	}
	order(t, x.tab, network.Enable, network.EnableParams{})
	order(t, x.tab, log.Enable, cdp.Empty{})
	order(t, x.tab, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: s.width, Height: s.height, DeviceScaleFactor: 1, Mobile: true,
	})
	order(t, x.tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
	for _, script := range scripts {
		order(t, x.tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
	}
	run(t, x.tab, chromedp.Navigate(url))
	return x
}

// openField opens the page of the demonstration folder from a file, and waits
// until it is ready.
func openField(t *testing.T, s screen, scripts ...string) *handset {
	t.Helper()
	x := openPhone(t, "file://"+filepath.ToSlash(fieldFile(t)), s, scripts...)
	x.wait(`document.querySelector("h1, .prices")`)
	return x
}

// listen notes what a page that keeps to itself never causes. Its worker comes
// out of itself, and the pictures of its fields out of the browser.
func (x *handset) listen(event any, url string) {
	if e, ok := event.(*network.EventRequestWillBeSent); ok {
		if scheme, _, _ := strings.Cut(e.Request.URL, ":"); scheme == "blob" || scheme == "data" {
			return
		}
	}
	x.note(event, url)
}

// wait waits until an expression is true; one that fails is not yet.
func (x *handset) wait(expression string) {
	x.t.Helper()
	for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if ask[bool](x.t, x.tab, "try { return Boolean("+expression+") } catch (e) { return false }") {
			return
		}
	}
	x.t.Fatalf("never came true: %s\n%s\n%s", expression, ask[string](x.t, x.tab, `return document.body.innerText.slice(0, 2000)`), strings.Join(x.events, "\n"))
}

// tap taps what carries a key, in the middle, where it must be on top.
func (x *handset) tap(key string) {
	x.t.Helper()
	selector := `[data-key="` + key + `"]`
	x.wait(`document.querySelector(` + quote(selector) + `)`)
	at := ask[struct {
		X, Y float64
		Top  bool
	}](x.t, x.tab, `
		const e = document.querySelector(`+quote(selector)+`);
		e.scrollIntoView({block: "center"});
		const r = e.getBoundingClientRect(), X = r.x + r.width / 2, Y = r.y + r.height / 2;
		return {X, Y, Top: e.contains(document.elementFromPoint(X, Y))}`)
	if !at.Top {
		x.t.Fatalf("%s cannot be tapped: something lies over it", key)
	}
	run(x.t, x.tab, chromedp.MouseClickXY(at.X, at.Y))
}

// enter types into the field with an id.
func (x *handset) enter(id, text string) {
	x.t.Helper()
	x.wait(`document.getElementById(` + quote(id) + `)`)
	ask[chromedp.Void](x.t, x.tab, `const e = document.getElementById(`+quote(id)+`); e.focus(); e.select()`)
	run(x.t, x.tab, chromedp.KeyEvent(text))
	ask[chromedp.Void](x.t, x.tab, `document.activeElement.blur()`)
}

// settled waits until the figures are from all draws.
func (x *handset) settled() {
	x.t.Helper()
	x.wait(`document.querySelector('.prices[data-draws="20000"]')`)
}

// picture leaves a picture of the screen where somebody wants one.
func (x *handset) picture(name string) {
	x.t.Helper()
	dir := os.Getenv("LOTGAUGE_SHOTS")
	if dir == "" {
		return
	}
	png := run(x.t, x.tab, chromedp.CaptureScreenshot())
	file := strings.ReplaceAll(x.shot+" "+name, " ", "-") + ".png"
	if err := os.WriteFile(filepath.Join(dir, file), png, 0o644); err != nil {
		x.t.Fatal(err)
	}
}

// quote is a text as a string of JavaScript.
func quote(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`).Replace(s) + `"`
}
