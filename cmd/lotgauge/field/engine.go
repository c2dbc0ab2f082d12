package field

import (
	"bytes"
	"compress/gzip"
	"context"
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
)

//go:generate go run lotgauge/cmd/lotgauge/field/generate

// embedded is the folder engine: with the engine in a release, else without.
//
//go:embed engine
var embedded embed.FS

// The files of the folder engine.
const (
	engineDir  = "engine"
	engineFile = "fieldpage.wasm.gz"
	scriptFile = "wasm_exec.js"
)

// An Engine is what makes the page figure.
type Engine struct {
	Wasm   []byte // cmd/fieldpage compiled to js/wasm, gzipped
	Script []byte // wasm_exec.js of the Go that compiled it
}

// NoEngine is the error where there is no engine to put into a page.
type NoEngine struct {
	Hints []string // what to try
	Err   error    // why it could not be built
}

func (e *NoEngine) Error() string {
	return "this lotgauge has no engine for a phone page in it, and cannot build one: " + e.Err.Error()
}

// Unwrap returns why the engine could not be built.
func (e *NoEngine) Unwrap() error { return e.Err }

// FindEngine returns the engine: built from the source that this command was
// built from where that is at hand, else the embedded one. The first build on a
// machine takes a minute, later ones a few seconds; note is told that it goes
// on, and may be nil. The error is a [*NoEngine], or that of ctx.
func FindEngine(ctx context.Context, note func(string)) (Engine, error) {
	root, err := sourceRoot()
	if err == nil {
		if note != nil {
			note("building the engine of the phone page with the go command")
		}
		e, berr := buildEngine(ctx, root)
		if berr == nil || ctx.Err() != nil {
			return e, errors.Join(berr, ctx.Err())
		}
		err = berr
	}
	if e, ok := engineIn(embedded); ok {
		return e, nil
	}
	return Engine{}, &NoEngine{Err: err, Hints: []string{
		"run it where the go command and the source are: it then builds the engine itself",
		"or build lotgauge with the engine inside: go generate ./cmd/lotgauge/field && go install ./cmd/lotgauge",
	}}
}

// engineIn reads an engine from its folder; false where it is not there.
func engineIn(fsys fs.FS) (Engine, bool) {
	wasm, err := fs.ReadFile(fsys, path.Join(engineDir, engineFile))
	if err != nil {
		return Engine{}, false
	}
	script, err := fs.ReadFile(fsys, path.Join(engineDir, scriptFile))
	return Engine{Wasm: wasm, Script: script}, err == nil
}

// sorted is the engine as a page carries it: sorted into streams and gzipped.
func (e Engine) sorted() ([]byte, error) {
	r, err := gzip.NewReader(bytes.NewReader(e.Wasm))
	if err != nil {
		return nil, fmt.Errorf("the engine is not gzipped: %w", err)
	}
	wasm, err := io.ReadAll(r)
	if err != nil {
		return nil, fmt.Errorf("the engine is damaged: %w", err)
	}
	sorted, err := split(wasm)
	if err != nil {
		return nil, fmt.Errorf("the engine is %w", err)
	}
	return compress(sorted), nil
}

// compress gzips, without a name or time: the same bytes for the same data.
func compress(data []byte) []byte {
	var b bytes.Buffer
	w, _ := gzip.NewWriterLevel(&b, gzip.BestCompression) // the level is a known one
	_, _ = w.Write(data)                                  // a Buffer takes everything
	_ = w.Close()
	return b.Bytes()
}
