package browser

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// browser is the one that all tests share, started by the first.
var browser struct {
	once sync.Once
	ctx  context.Context
	stop func()
	why  string // why there is none
}

func TestMain(m *testing.M) {
	code := m.Run()
	if browser.stop != nil {
		browser.stop()
	}
	os.Exit(code)
}

// names a Chromium goes by.
var names = []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "headless-shell"}

// start starts the browser, or says why it cannot.
func start() {
	for _, name := range names {
		path, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		opts := append(chromedp.DefaultExecAllocatorOptions[:],
			chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
			chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
			chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		)
		allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), opts...)
		ctx, stop := chromedp.NewContext(allocator)
		browser.ctx, browser.stop = ctx, func() { stop(); stopAllocator() }
		if err := chromedp.Do(ctx); err != nil {
			browser.why = fmt.Sprintf("%s does not start: %v", path, err)
		}
		return
	}
	browser.why = fmt.Sprintf("none of %v is on the PATH", names)
}

// A screen is one that a page is looked at with.
type screen struct {
	name          string
	width, height int64
	dark          bool
}

var (
	phone      = screen{"phone", 390, 844, false}
	smallPhone = screen{"small phone", 320, 640, false}
	laptop     = screen{"laptop", 1280, 900, false}
	laptopDark = screen{"laptop dark", 1280, 900, true}
)

// screens are all that golden pages are looked at with, some on either side of
// each width at which the layout changes.
var screens = []screen{
	phone, {"phone dark", 390, 844, true},
	smallPhone, {"small phone dark", 320, 640, true},
	{"small tablet", 600, 960, false}, {"tablet", 768, 1024, false}, {"small laptop", 1000, 800, false},
	laptop, laptopDark,
}

// A tab is a page loaded at a screen, and what happened meanwhile.
type tab struct {
	context.Context
	mu     sync.Mutex
	events []string // messages and requests, none of which there should be
}

// open loads a file in a tab of its own, which closes with the test.
func open(t *testing.T, file string, s screen) *tab {
	t.Helper()
	browser.once.Do(start)
	if browser.why != "" {
		if os.Getenv("LOTGAUGE_BROWSER") == "required" {
			t.Fatal("no browser: " + browser.why)
		}
		t.Skip("no browser: " + browser.why + " (LOTGAUGE_BROWSER=required makes this a failure)")
	}
	url := "file://" + filepath.ToSlash(file)
	x := &tab{}
	ctx, cancel := chromedp.NewContext(browser.ctx, chromedp.WithListener(func(event any) { x.note(event, url) }))
	t.Cleanup(cancel)
	x.Context, cancel = context.WithTimeout(ctx, time.Minute)
	t.Cleanup(cancel)
	scheme := "light"
	if s.dark {
		scheme = "dark"
	}
	order(t, x, network.Enable, network.EnableParams{})
	order(t, x, log.Enable, cdp.Empty{})
	order(t, x, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: s.width, Height: s.height, DeviceScaleFactor: 1, Mobile: s.width < 600,
	})
	order(t, x, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
	run(t, x, chromedp.Navigate(url))
	return x
}

// note keeps what a page that keeps to itself never causes.
func (x *tab) note(event any, url string) {
	text := ""
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if e.Request.URL != url && e.Request.URL != "data:," {
			text = "request " + e.Request.URL
		}
	case *runtime.EventConsoleAPICalled:
		text = "console " + string(e.Type)
	case *runtime.EventExceptionThrown:
		text = "exception " + e.ExceptionDetails.Text
	case *log.EventEntryAdded:
		text = "log " + e.Entry.Text
	}
	if text != "" {
		x.mu.Lock()
		x.events = append(x.events, text)
		x.mu.Unlock()
	}
}

// order gives the tab a command of the protocol.
func order[P, R any](t *testing.T, x *tab, command cdp.Command[P, R], params P) {
	t.Helper()
	if _, err := chromedp.Call(x, command, params); err != nil {
		t.Fatal(err)
	}
}

func run[T any](t *testing.T, x *tab, action chromedp.Action[T]) T {
	t.Helper()
	out, err := chromedp.Run(x, action)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// ask evaluates a function body in the page.
func ask[T any](t *testing.T, x *tab, body string) T {
	t.Helper()
	return run(t, x, chromedp.Evaluate[T]("(() => {"+body+"})()"))
}

// quiet reports what the page asked for or complained of.
func (x *tab) quiet(t *testing.T) {
	t.Helper()
	x.mu.Lock()
	defer x.mu.Unlock()
	for _, e := range x.events {
		t.Error(e)
	}
}
