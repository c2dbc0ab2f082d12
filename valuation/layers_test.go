package valuation_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is the name before every import path of our own.
const module = "lotgauge/"

// rooms says what each room may import: rooms of ours, and third-party modules
// by prefix. A room that is not listed may not exist.
var rooms = map[string]struct{ ours, theirs []string }{
	"valuation/diag":      {nil, []string{"github.com/BurntSushi/toml"}},
	"valuation/money":     {nil, []string{"github.com/shopspring/decimal"}},
	"valuation/charges":   {[]string{"valuation/money", "valuation/diag"}, []string{"github.com/shopspring/decimal"}},
	"valuation/checklist": {[]string{"valuation/money", "valuation/diag"}, nil},
	"valuation/prices":    {[]string{"valuation/money", "valuation/diag"}, []string{"github.com/shopspring/decimal", "gonum.org/v1/gonum", "golang.org/x/text"}},
	"valuation/belief":    {nil, nil},
	"valuation": {
		[]string{"valuation/diag", "valuation/money", "valuation/charges", "valuation/checklist", "valuation/prices", "valuation/belief"},
		[]string{"github.com/shopspring/decimal"},
	},
	"checklists":                  {nil, nil},
	"pricedata":                   {nil, nil},
	"cmd/lotgauge/load":           {[]string{"checklists", "pricedata", "valuation/diag"}, []string{"golang.org/x/sys"}},
	"cmd/lotgauge/load/csvtext":   {[]string{"valuation/prices", "valuation/diag"}, nil},
	"cmd/lotgauge/table":          {[]string{"valuation", "valuation/checklist", "valuation/money", "valuation/diag"}, []string{"github.com/jedib0t/go-pretty/v6", "github.com/shopspring/decimal"}},
	"cmd/lotgauge/page":           {[]string{"valuation", "valuation/checklist", "valuation/money", "valuation/diag"}, []string{"github.com/shopspring/decimal"}},
	"cmd/fieldpage":               {[]string{"valuation", "valuation/diag"}, nil},
	"cmd/lotgauge/field":          {[]string{"valuation", "valuation/charges", "valuation/checklist", "valuation/diag"}, nil},
	"cmd/lotgauge/field/generate": {[]string{"cmd/lotgauge/field"}, nil},
	"cmd/lotgauge": {
		[]string{"cmd/lotgauge/load", "cmd/lotgauge/load/csvtext", "cmd/lotgauge/table", "cmd/lotgauge/page", "cmd/lotgauge/field",
			"valuation", "valuation/checklist", "valuation/prices", "valuation/money", "valuation/diag", "checklists", "pricedata"},
		[]string{"github.com/spf13/cobra", "github.com/spf13/pflag", "golang.org/x/term"},
	},
}

// banned are packages of the standard library that the engine does without: it
// opens nothing, prints nothing and looks at no clock of its own.
var banned = []string{"os", "net", "net/http", "log", "log/slog", "html", "html/template", "text/template", "math/rand", "os/exec", "flag", "syscall", "embed"}

func TestImportDirections(t *testing.T) {
	seen := map[string]bool{}
	walkSources(t, func(room, file, imported string) {
		allowed, ok := rooms[room]
		if !ok {
			t.Errorf("%s: room %s is not in the table of rooms", file, room)
			return
		}
		seen[room] = true
		switch {
		case strings.HasPrefix(imported, module):
			if !slices.Contains(allowed.ours, strings.TrimPrefix(imported, module)) {
				t.Errorf("%s: %s must not import %s", file, room, imported)
			}
		case strings.Contains(strings.Split(imported, "/")[0], "."):
			if !hasPrefix(allowed.theirs, imported) {
				t.Errorf("%s: %s must not import %s", file, room, imported)
			}
		case strings.HasPrefix(room, "valuation") && slices.Contains(banned, imported):
			t.Errorf("%s: the engine must not import %s", file, imported)
		}
	})
	for room := range rooms {
		if !seen[room] {
			t.Errorf("no source file with imports in %s: is the table of rooms stale?", room)
		}
	}
}

// TestEngineSeesNoClock looks for calls that read the clock or the global
// random source.
func TestEngineSeesNoClock(t *testing.T) {
	walkFiles(t, func(room, file string, text []byte) {
		if !strings.HasPrefix(room, "valuation") {
			return
		}
		for _, call := range []string{"time." + "Now(", "time." + "Since(", "rand." + "IntN(", "rand." + "Float64("} {
			if strings.Contains(string(text), call) {
				t.Errorf("%s: calls %s)", file, call)
			}
		}
	})
}

func walkSources(t *testing.T, visit func(room, file, imported string)) {
	t.Helper()
	walkFiles(t, func(room, file string, text []byte) {
		parsed, err := parser.ParseFile(token.NewFileSet(), file, text, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range parsed.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			visit(room, file, name)
		}
	})
}

// walkFiles visits the Go files that are not tests, of the top folders of ours.
func walkFiles(t *testing.T, visit func(room, file string, text []byte)) {
	t.Helper()
	root := os.DirFS("..")
	for _, top := range []string{"cmd", "valuation", "checklists", "pricedata"} {
		err := fs.WalkDir(root, top, func(file string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
				return err
			}
			text, err := fs.ReadFile(root, file)
			if err == nil {
				visit(path.Dir(file), file, text)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

func hasPrefix(list []string, s string) bool {
	for _, x := range list {
		if s == x || strings.HasPrefix(s, x+"/") {
			return true
		}
	}
	return false
}
