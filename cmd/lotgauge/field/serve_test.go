package field

import (
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"
)

func demoServer(t *testing.T) *server {
	t.Helper()
	s, err := newServer(demoPage(t, largest))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// get is the answer to one request from a machine.
func get(s *server, method, path, machine string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://laptop"+path, nil)
	r.RemoteAddr = machine + ":40000"
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	return w
}

const (
	phone    = "192.0.2.7"
	stranger = "192.0.2.8"
)

// TestServerAnswers: behind the token are the page, its file and its keeper,
// and nothing else anywhere.
func TestServerAnswers(t *testing.T) {
	s := demoServer(t)
	for _, c := range []struct {
		path string
		want int
	}{
		{"/", 404}, {"/favicon.ico", 404}, {"/" + strings.Repeat("a", tokenLength) + "/", 404},
		{strings.TrimSuffix(s.root, "/"), 404}, {s.root + "other", 404}, {s.root + "../", 404}, {s.root + "web/keep.js", 404},
		{s.root, 200}, {s.root + "?kept", 200}, {s.root + savedName, 200}, {s.root + keeperName, 200},
	} {
		if got := get(s, "GET", c.path, phone).Code; got != c.want {
			t.Errorf("%s: %d, not %d", c.path, got, c.want)
		}
	}
	if w := get(s, "POST", s.root, phone); w.Code != 405 || w.Header().Get("Allow") == "" {
		t.Errorf("POST: %d", w.Code)
	}
}

// TestServerOneMachine: the first machine that knows the token is the only one;
// one that does not know it is not the first.
func TestServerOneMachine(t *testing.T) {
	s := demoServer(t)
	get(s, "GET", "/", stranger)
	if got := get(s, "GET", s.root, phone).Code; got != 200 {
		t.Errorf("the phone: %d", got)
	}
	if got := get(s, "GET", s.root, stranger).Code; got != 404 {
		t.Errorf("the second machine: %d", got)
	}
}

func TestServerHeaders(t *testing.T) {
	s := demoServer(t)
	for path, want := range map[string]map[string]string{
		s.root:              {"Content-Type": "text/html; charset=windows-1252", "Content-Security-Policy": "frame-ancestors 'none'"},
		s.root + savedName:  {"Content-Type": "text/html; charset=windows-1252", "Content-Disposition": `attachment; filename="lotgauge-field.html"`},
		s.root + keeperName: {"Content-Type": "text/javascript; charset=utf-8", "Content-Security-Policy": "default-src 'none'; connect-src 'self'"},
		"/nowhere":          {},
	} {
		head := get(s, "GET", path, phone).Header()
		want["X-Content-Type-Options"], want["Referrer-Policy"], want["Cache-Control"] = "nosniff", "no-referrer", "no-store"
		for key, value := range want {
			if head.Get(key) != value && path != "/nowhere" || head.Get(key) == "" {
				t.Errorf("%s: %s is %q, not %q", path, key, head.Get(key), value)
			}
		}
	}
}

// TestServerHands: only who takes the page whole, to have it for good, has it.
func TestServerHands(t *testing.T) {
	for _, c := range []struct {
		name, method, path string
		want               bool
	}{
		{"looked at", "GET", "", false},
		{"keeper", "GET", keeperName, false},
		{"asked after", "HEAD", savedName, false},
		{"saved", "GET", savedName, true},
		{"kept", "GET", "?kept", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := demoServer(t)
			get(s, c.method, s.root+c.path, phone)
			if got := s.handed.Load(); got != c.want {
				t.Errorf("handed over: %v, not %v", got, c.want)
			}
		})
	}
	s := demoServer(t)
	r := httptest.NewRequest("GET", "http://laptop"+s.root+savedName, nil)
	r.RemoteAddr = phone + ":1"
	r.Header.Set("Range", "bytes=0-99")
	w := httptest.NewRecorder()
	if s.ServeHTTP(w, r); w.Code != 206 || w.Body.Len() != 100 || s.handed.Load() {
		t.Errorf("a part: %d, %d bytes, handed over: %v", w.Code, w.Body.Len(), s.handed.Load())
	}
}

// TestServe hands a page over on loopback and stops by itself.
func TestServe(t *testing.T) {
	s := demoServer(t)
	s.linger = 50 * time.Millisecond
	ready, over := make(chan []string, 1), make(chan error, 1)
	go func() {
		handed, err := s.serve(context.Background(), Loopback, func(urls []string) { ready <- urls })
		if !handed {
			t.Error("it was not handed over")
		}
		over <- err
	}()
	urls := <-ready
	if len(urls) != 1 || !strings.HasPrefix(urls[0], "http://127.0.0.1:") || !strings.HasSuffix(urls[0], s.root) {
		t.Fatalf("the address is %q", urls)
	}
	reply, err := http.Get(urls[0] + savedName)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(reply.Body)
	reply.Body.Close()
	if err != nil || string(text) != string(s.file) {
		t.Errorf("%d bytes, %v", len(text), err)
	}
	select {
	case err := <-over:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it does not stop")
	}
	if _, err := http.Get(urls[0]); err == nil {
		t.Error("it still answers")
	}
}

// TestServeEnds: Ctrl-C ends the wait, and is no error.
func TestServeEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	handed, err := Serve(ctx, Handover{Page: demoPage(t, largest), Ready: func([]string) { cancel() }})
	if handed || err != nil {
		t.Errorf("handed over: %v, %v", handed, err)
	}
}

func TestServeFaults(t *testing.T) {
	if _, err := Serve(context.Background(), Handover{Page: demoPage(t, "nohab")}); err == nil {
		t.Error("a page of an unknown family was served")
	}
	_, err := Serve(context.Background(), Handover{Page: demoPage(t, largest), Addr: "192.0.2.1:1"})
	if err == nil || !strings.HasPrefix(err.Error(), "cannot listen on 192.0.2.1:1: ") {
		t.Errorf("an address that is not ours: %v", err)
	}
}

// TestAddresses: where the host is left out, the addresses name real ones.
func TestAddresses(t *testing.T) {
	s := demoServer(t)
	for _, u := range s.addresses(anyHost{}) {
		at, err := url.Parse(u)
		if err != nil || at.Hostname() == "" || at.Hostname() == "::" || at.Port() != "8080" || at.Path != s.root {
			t.Errorf("%q, %v", u, err)
		}
	}
}

type anyHost struct{}

func (anyHost) Network() string { return "tcp" }
func (anyHost) String() string  { return "[::]:8080" }

func TestTokens(t *testing.T) {
	seen := map[string]bool{}
	for range 1000 {
		token := newToken()
		if len(token) != tokenLength || strings.Trim(token, tokenLetters) != "" || seen[token] {
			t.Fatalf("token %q", token)
		}
		seen[token] = true
	}
}
