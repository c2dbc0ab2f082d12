package field

import (
	"bytes"
	"io"
	"log"
	"net"
	"net/http"
	"sync"
	"sync/atomic"
	"time"
)

// silent takes what the server says of broken connections, which a phone that
// goes out of reach leaves behind.
var silent = log.New(io.Discard, "", 0)

// The names under which a server's page and script are found, behind the token.
const (
	savedName  = "lotgauge-field.html"
	keeperName = "keep.js"
	keptQuery  = "kept" // asked for by the keeper
)

// server answers for one page.
type server struct {
	root   string // path with the token, "/k3…/"
	shown  []byte // the page as it is looked at, which may keep itself
	file   []byte // the page as a file
	keeper []byte // the service worker that keeps it
	linger time.Duration

	handed atomic.Bool
	saved  chan struct{} // told each time the page was saved or kept
	mu     sync.Mutex
	phone  string // who asked first, "" for nobody yet
}

func newServer(p Page) (*server, error) {
	v, err := newView(p)
	if err != nil {
		return nil, err
	}
	file, err := v.page(false)
	if err != nil {
		return nil, err
	}
	shown, err := v.page(true)
	if err != nil {
		return nil, err
	}
	keeper, err := web.ReadFile("web/" + keeperName)
	if err != nil {
		return nil, err
	}
	return &server{
		root: "/" + newToken() + "/", file: file, shown: shown, keeper: keeper,
		linger: linger, saved: make(chan struct{}, 1),
	}, nil
}

// ServeHTTP implements http.Handler.
func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	head.Set("X-Content-Type-Options", "nosniff")
	head.Set("Referrer-Policy", "no-referrer")
	head.Set("Cross-Origin-Resource-Policy", "same-origin")
	head.Set("Cache-Control", "no-store")
	name, ok := s.name(r)
	if !ok {
		http.NotFound(w, r)
		return
	}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		head.Set("Allow", "GET, HEAD")
		http.Error(w, "only to be read", http.StatusMethodNotAllowed)
		return
	}
	s.hand(w, r, name)
}

// name is what is asked for behind the token; false for anything that does not
// exist, or not for this machine.
func (s *server) name(r *http.Request) (string, bool) {
	path := r.URL.Path
	if len(path) < len(s.root) || !same(path[:len(s.root)], s.root) {
		return "", false
	}
	name := path[len(s.root):]
	if name != "" && name != savedName && name != keeperName {
		return "", false
	}
	return name, s.admit(r.RemoteAddr)
}

// admit lets in the first machine that knows the token, and no other.
func (s *server) admit(remote string) bool {
	host, _, err := net.SplitHostPort(remote)
	if err != nil {
		return false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.phone == "" {
		s.phone = host
	}
	return s.phone == host
}

// hand answers with a document, and notes when the page was taken whole.
func (s *server) hand(w http.ResponseWriter, r *http.Request, name string) {
	const page = "text/html; charset=windows-1252"
	head := w.Header()
	switch name {
	case keeperName:
		head.Set("Content-Type", "text/javascript; charset=utf-8")
		head.Set("Content-Security-Policy", "default-src 'none'; connect-src 'self'")
		write(w, r, s.keeper)
	case savedName:
		head.Set("Content-Type", page)
		head.Set("Content-Disposition", `attachment; filename="`+savedName+`"`)
		s.note(r, write(w, r, s.file))
	default:
		head.Set("Content-Type", page)
		head.Set("Content-Security-Policy", "frame-ancestors 'none'")
		whole := write(w, r, s.shown)
		if r.URL.RawQuery == keptQuery {
			s.note(r, whole)
		}
	}
}

// note remembers that a phone has the page for good.
func (s *server) note(r *http.Request, whole bool) {
	if !whole || r.Method != http.MethodGet {
		return
	}
	s.handed.Store(true)
	select {
	case s.saved <- struct{}{}:
	default: // it is known already
	}
}

// write answers with bytes or the part of them that is asked for, and tells
// whether the last of them went out.
func write(w http.ResponseWriter, r *http.Request, data []byte) bool {
	body := &watched{Reader: bytes.NewReader(data)}
	http.ServeContent(w, r, "", time.Time{}, body)
	return body.end && r.Context().Err() == nil
}

// watched tells whether it was read to its end.
type watched struct {
	*bytes.Reader
	end bool
}

func (x *watched) Read(p []byte) (int, error) {
	n, err := x.Reader.Read(p)
	x.end = x.Len() == 0
	return n, err
}

// WriteTo goes through Read, so that nothing is missed.
func (x *watched) WriteTo(w io.Writer) (int64, error) {
	return io.Copy(w, struct{ io.Reader }{x})
}
