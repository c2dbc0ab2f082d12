package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"lotgauge/valuation/diag"
)

// Whatever a string holds, the JSON that comes out does nothing to a terminal
// and means the same.
func FuzzEscaper(f *testing.F) {
	for _, s := range []string{"", "plain", "\x1b[2J", "\u009b31m", "\u202egnp", "\x7f", "<b>&", "\u2028", "\xff", "é赤"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var b bytes.Buffer
		if err := json.NewEncoder(escaper{&b}).Encode(s); err != nil {
			t.Fatal(err)
		}
		line := strings.TrimSuffix(b.String(), "\n")
		if diag.Clean(line) != line {
			t.Errorf("%q", line)
		}
		var back string
		if err := json.Unmarshal(b.Bytes(), &back); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		if back != strings.ToValidUTF8(s, "\ufffd") && back != string([]rune(s)) {
			t.Errorf("%q came back as %q", s, back)
		}
	})
}

func TestDiagnosticsAsJSON(t *testing.T) {
	var b bytes.Buffer
	err := writeDiagnostics(&b, diag.List{
		{Severity: diag.Warning, Pos: diag.Pos{File: "a\u202e.toml", Line: 3}, Key: "k", Summary: "s", Expected: "e", Try: "t"},
		{Severity: diag.Error, Summary: "all of it"},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := `[
  {
    "severity": "warning",
    "file": "a\u202e.toml",
    "line": 3,
    "key": "k",
    "summary": "s",
    "expected": "e",
    "try": "t"
  },
  {
    "severity": "error",
    "file": "",
    "summary": "all of it"
  }
]
`
	if b.String() != want {
		t.Errorf("got %s", &b)
	}
}
