package field

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// modulePath is the module that this package belongs to.
const modulePath = "lotgauge"

// sourceRoot is the folder of the module that this command was built from, if
// it is still there and the go command with it. A command built with -trimpath
// does not know it.
func sourceRoot() (string, error) {
	_, file, _, ok := runtime.Caller(0)
	if !ok || !filepath.IsAbs(file) {
		return "", errors.New("its source is not known")
	}
	root := filepath.Join(filepath.Dir(file), "..", "..", "..")
	text, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		return "", errors.New("its source is not there any more")
	}
	if first, _, _ := strings.Cut(string(text), "\n"); strings.TrimSpace(first) != "module "+modulePath {
		return "", errors.New("what lies where its source was is something else")
	}
	if _, err := exec.LookPath("go"); err != nil {
		return "", errors.New("there is no go command")
	}
	return root, nil
}

// buildEngine compiles cmd/fieldpage of the module at root. The same source and
// Go give the same bytes, wherever it lies.
func buildEngine(ctx context.Context, root string) (Engine, error) {
	dir, err := os.MkdirTemp("", "lotgauge-engine-")
	if err != nil {
		return Engine{}, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "fieldpage.wasm")
	if _, err := goCommand(ctx, root, "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w",
		"-gcflags=all=-l", "-gcflags=lotgauge/valuation/...=", "-gcflags=runtime/...=", "-gcflags=slices=", "-gcflags=math/...=",
		"-o", out, "./cmd/fieldpage"); err != nil {
		return Engine{}, err
	}
	wasm, err := os.ReadFile(out)
	if err != nil {
		return Engine{}, err
	}
	goroot, err := goCommand(ctx, root, "env", "GOROOT")
	if err != nil {
		return Engine{}, err
	}
	script, err := os.ReadFile(filepath.Join(goroot, "lib", "wasm", scriptFile))
	if err != nil {
		return Engine{}, err
	}
	return Engine{Wasm: compress(wasm), Script: script}, nil
}

// goCommand runs the go command for js/wasm in the module at root and returns
// what it printed. Flags and workspace of whoever runs it do not count, and it
// fetches nothing: what it needs was there when this command was built.
func goCommand(ctx context.Context, root string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, "go", args...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOWORK=off", "GOWASM=", "GOEXPERIMENT=",
		"GOTOOLCHAIN=local", "GOPROXY=off")
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		return "", fmt.Errorf("go %s: %w: %s", args[0], err, lastLine(errs.String()))
	}
	return strings.TrimSpace(out.String()), nil
}

func lastLine(text string) string {
	text = strings.TrimSpace(text)
	return text[strings.LastIndexByte(text, '\n')+1:]
}

// WriteEngine builds the engine from source and writes it into the folder dir:
// what go generate does.
func WriteEngine(ctx context.Context, dir string) error {
	root, err := sourceRoot()
	if err != nil {
		return err
	}
	e, err := buildEngine(ctx, root)
	if err != nil {
		return err
	}
	return errors.Join(
		os.WriteFile(filepath.Join(dir, engineFile), e.Wasm, 0o644),
		os.WriteFile(filepath.Join(dir, scriptFile), e.Script, 0o644),
	)
}
