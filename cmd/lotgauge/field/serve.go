package field

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strings"
	"time"
)

// Loopback is the address that [Serve] listens on unless asked for another:
// this machine alone, at any free port.
const Loopback = "127.0.0.1:0"

// A Handover is a page to be handed to a phone.
type Handover struct {
	Page Page
	// Addr is host:port to listen on, "" for [Loopback]. A phone needs an
	// address of the local network, or the host left out for all of them.
	Addr string
	// Ready is told the addresses to open on the phone, once they work. Each
	// holds a token that nobody can guess and that dies with the handing over.
	Ready func(urls []string)
}

// linger is how long the page stays to be had once it was handed over: a phone
// may ask again when it saves what it shows.
const linger = 10 * time.Second

// Serve hands the page over: until a phone has saved or kept it, or ctx ends.
// handed tells whether one did; the error of ctx is none. What is asked for
// without the token, or from a second machine, does not exist. The page offers
// to keep itself by a service worker where the browser allows one, which is
// over https and on this machine alone, and otherwise to be saved as a file.
// Nothing is encrypted: whoever listens on the network reads along.
func Serve(ctx context.Context, h Handover) (handed bool, err error) {
	s, err := newServer(h.Page)
	if err != nil {
		return false, err
	}
	if h.Addr == "" {
		h.Addr = Loopback
	}
	return s.serve(ctx, h.Addr, h.Ready)
}

func (s *server) serve(ctx context.Context, addr string, ready func([]string)) (bool, error) {
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", addr)
	if err != nil {
		return false, fmt.Errorf("cannot listen on %s: %w", addr, reason(err))
	}
	if ready != nil {
		ready(s.addresses(l.Addr()))
	}
	return s.run(ctx, l)
}

// reason is an error of the network without the address that is named already.
func reason(err error) error {
	var op *net.OpError
	if errors.As(err, &op) && op.Err != nil {
		return op.Err
	}
	return err
}

// run answers until the page was handed over and had time to be asked for again.
func (s *server) run(ctx context.Context, l net.Listener) (bool, error) {
	server := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: 10 * time.Second,
		WriteTimeout:      5 * time.Minute,
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          silent,
	}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(l) }()
	err := s.wait(ctx, failed)
	closing, cancel := context.WithTimeout(context.WithoutCancel(ctx), time.Second)
	defer cancel()
	if server.Shutdown(closing) != nil {
		server.Close()
	}
	return s.handed.Load(), err
}

// wait returns once the page was handed over, ctx has ended or serving failed.
func (s *server) wait(ctx context.Context, failed <-chan error) error {
	var over <-chan time.Time
	for {
		select {
		case <-s.saved:
			over = time.After(s.linger)
		case <-over:
			return nil
		case <-ctx.Done():
			return nil
		case err := <-failed:
			return err
		}
	}
}

// addresses are where the page is to be found from outside.
func (s *server) addresses(at net.Addr) []string {
	host, port, err := net.SplitHostPort(at.String())
	if err != nil {
		return nil
	}
	hosts := []string{host}
	if ip := net.ParseIP(host); ip == nil || ip.IsUnspecified() {
		hosts = localHosts()
	}
	var urls []string
	for _, h := range hosts {
		urls = append(urls, "http://"+net.JoinHostPort(h, port)+s.root)
	}
	return urls
}

// localHosts are this machine's addresses on its networks, or loopback where it
// has none.
func localHosts() []string {
	var hosts []string
	addrs, _ := net.InterfaceAddrs() // without them loopback is left
	for _, a := range addrs {
		if n, ok := a.(*net.IPNet); ok && !n.IP.IsLoopback() && !n.IP.IsLinkLocalUnicast() {
			hosts = append(hosts, n.IP.String())
		}
	}
	if len(hosts) == 0 {
		hosts = []string{"127.0.0.1"}
	}
	return hosts
}

// tokenLetters are those that are not taken for one another when a token is
// typed into a phone. Twelve of them are 59 bits: at a thousand guesses a
// second, nine million years.
const (
	tokenLetters = "abcdefghjkmnpqrstuvwxyz23456789"
	tokenLength  = 12
)

func newToken() string {
	var b strings.Builder
	for b.Len() < tokenLength {
		var one [1]byte
		_, _ = rand.Read(one[:]) // never fails, as its documentation says
		if n := int(one[0]); n < 256/len(tokenLetters)*len(tokenLetters) {
			b.WriteByte(tokenLetters[n%len(tokenLetters)])
		}
	}
	return b.String()
}

// same compares without telling by its time how much is right.
func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }
