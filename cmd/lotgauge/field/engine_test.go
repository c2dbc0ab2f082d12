package field

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

// TestEngineIsReproducible builds the engine from this checkout and from a copy
// of its source elsewhere: the bytes are the same, and those of the embedded
// one, if there is one. It takes a while; -short leaves it out.
func TestEngineIsReproducible(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the engine twice")
	}
	root, err := sourceRoot()
	if err != nil {
		t.Skip(err) // the test was built with -trimpath
	}
	here, err := buildEngine(context.Background(), root)
	if err != nil {
		t.Fatal(err)
	}
	there, err := buildEngine(context.Background(), copied(t, root))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(here.Wasm, there.Wasm) || !bytes.Equal(here.Script, there.Script) {
		t.Errorf("%d bytes here, others elsewhere: %d", len(here.Wasm), len(there.Wasm))
	}
	t.Logf("the engine is %d bytes gzipped", len(here.Wasm))
	if e, ok := engineIn(embedded); ok && (!bytes.Equal(e.Wasm, here.Wasm) || !bytes.Equal(e.Script, here.Script)) {
		t.Error("the embedded engine is not that of the source: go generate ./cmd/lotgauge/field")
	}
}

// copied is a copy of what the engine is built from.
func copied(t *testing.T, root string) string {
	t.Helper()
	to := t.TempDir()
	for _, from := range []string{"go.mod", "go.sum", "valuation", "cmd/fieldpage"} {
		err := filepath.WalkDir(filepath.Join(root, from), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "testdata") {
				return err
			}
			rel, err := filepath.Rel(root, path)
			if err != nil {
				return err
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			target := filepath.Join(to, rel)
			return errors.Join(os.MkdirAll(filepath.Dir(target), 0o755), os.WriteFile(target, text, 0o644))
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return to
}

func TestEngineIn(t *testing.T) {
	if _, ok := engineIn(fstest.MapFS{"engine/README.md": {}}); ok {
		t.Error("an engine where there is none")
	}
	if _, ok := engineIn(fstest.MapFS{"engine/fieldpage.wasm.gz": {Data: []byte("w")}}); ok {
		t.Error("half an engine")
	}
	e, ok := engineIn(fstest.MapFS{"engine/fieldpage.wasm.gz": {Data: []byte("w")}, "engine/wasm_exec.js": {Data: []byte("s")}})
	if !ok || string(e.Wasm) != "w" || string(e.Script) != "s" {
		t.Errorf("read %+v, %v", e, ok)
	}
}

// TestNoGo: without the go command the error says what to do, unless an engine
// is embedded.
func TestNoGo(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	e, err := FindEngine(context.Background(), func(string) { t.Error("it says that it builds") })
	if _, ok := engineIn(embedded); ok {
		if err != nil || len(e.Wasm) == 0 {
			t.Errorf("the embedded engine is not used: %v", err)
		}
		return
	}
	var none *NoEngine
	if !errors.As(err, &none) || !strings.Contains(err.Error(), "no go command") || len(none.Hints) == 0 {
		t.Errorf("said %v", err)
	}
}

// TestBuildEnds: whoever gives up waiting for the engine does not get one.
func TestBuildEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := FindEngine(ctx, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("said %v", err)
	}
}

func TestLastLine(t *testing.T) {
	for in, want := range map[string]string{"": "", "a\n": "a", "a\nb\n\n": "b"} {
		if got := lastLine(in); got != want {
			t.Errorf("%q: %q, not %q", in, got, want)
		}
	}
}
