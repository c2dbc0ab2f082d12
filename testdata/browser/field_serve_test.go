package browser

import (
	"context"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"lotgauge/cmd/lotgauge/field"
)

// handOver serves the page and returns its address and what Serve returns.
func handOver(t *testing.T) (url string, done <-chan error) {
	t.Helper()
	page := fieldPage(t)
	ready, over := make(chan string, 1), make(chan error, 1)
	ctx, cancel := context.WithCancel(context.Background())
	t.Cleanup(cancel)
	go func() {
		handed, err := field.Serve(ctx, field.Handover{Page: page, Ready: func(urls []string) { ready <- urls[0] }})
		if err == nil && !handed {
			err = context.Canceled
		}
		over <- err
	}()
	select {
	case url = <-ready:
	case err := <-over:
		t.Fatal(err)
	}
	return url, over
}

// over waits until the server has stopped by itself.
func over(t *testing.T, done <-chan error, url string) {
	t.Helper()
	select {
	case err := <-done:
		if err != nil {
			t.Fatal(err)
		}
	case <-time.After(time.Minute):
		t.Fatal("the server does not stop")
	}
	if _, err := http.Get(url); err == nil {
		t.Error("the address still answers")
	}
}

// TestFieldHandOverKept: on this machine the page keeps itself, the server
// stops, and the page opens again without it, finds and all.
func TestFieldHandOverKept(t *testing.T) {
	url, done := handOver(t)
	x := openPhone(t, url, upright)
	x.tap("Keep it here")
	x.wait(`document.body.innerText.includes("Kept.")`)
	x.picture("kept")
	x.begin()
	x.settled()
	over(t, done, url)
	x.reload()
	x.settled()
	x.wait(`document.querySelector("[aria-expanded] .found").textContent === "bent"`)
}

// TestFieldHandOverSaved: where the browser keeps no page, as on the local
// network, the page is saved as a file, the server stops, and the file works.
func TestFieldHandOverSaved(t *testing.T) {
	url, done := handOver(t)
	x := openPhone(t, url, upright, `Object.defineProperty(window, "isSecureContext", {value: false})`)
	dir := x.downloads()
	x.wait(`document.body.innerText.includes("Save the page")`)
	if strings.Contains(x.text(), "Keep it here") {
		t.Error("the page offers what this browser cannot do")
	}
	x.picture("save")
	file := x.download(dir, "save the page")
	over(t, done, url)
	saved, err := os.ReadFile(file)
	if err != nil || string(saved) != string(made.html) {
		t.Fatalf("what was saved is not the page: %d bytes, %v", len(saved), err)
	}
	y := openPhone(t, "file://"+file, upright)
	y.begin()
	y.settled()
	y.quiet(t)
}
