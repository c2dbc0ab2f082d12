package checklist

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lotgauge/valuation/diag"
)

// The laws here take a family that uses every key, change it in one place and
// look at what is said about that place.

// A mutation is a text with one change in it.
type mutation struct {
	text string
	line int    // of the change, from 1
	what string // the text at the place, before and after
}

// mutations replaces each match of a pattern in turn. The pattern's first group
// is what is replaced.
func mutations(text, pattern, by string) []mutation {
	var out []mutation
	for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatchIndex(text, -1) {
		from, to := m[2], m[3]
		out = append(out, mutation{
			text: text[:from] + by + text[to:],
			line: 1 + strings.Count(text[:from], "\n"),
			what: text[m[0]:m[1]] + " with " + by,
		})
	}
	return out
}

// list is what reading and proving says of the text.
func (m mutation) list(t *testing.T) diag.List {
	doc := diag.ReadDocument("", strings.NewReader(m.text))
	Prove(Read(doc, drawer(t)), doc)
	return doc.Diagnostics()
}

// TestWrongTypes: a value of another type is refused, at its line, for every
// key there is.
func TestWrongTypes(t *testing.T) {
	text := read(t, "testdata/every-key.toml")
	for _, row := range []struct {
		pattern string
		wrong   []string
		least   int // matches to expect
	}{
		{`\b\w+ = ("[^"\n]*")`, []string{"7", "1.5", "true", "1979-05-27", "[7]", "{ a = 7 }"}, 60},
		{`\b\w+ = ([0-9.]+)\b`, []string{`"x"`, "true", "-1", "nan", "inf", "1979-05-27", "[1]", "{ a = 1 }"}, 24},
		{`\b\w+ = (true|false)\b`, []string{`"true"`, "1", "[true]", "{ a = true }"}, 3},
		{`\b(?:options|years|see|mind|yields|state) = (\[[^\]\n]*\])`, []string{`"x"`, "1", "true", "[true]", "[[]]", "{ a = 1 }"}, 6},
		{`\b(?:fit|only|measure|range) = (\{[^}\n]*\})`, []string{`"x"`, "1", "[]", "[{}]"}, 7},
	} {
		for _, wrong := range row.wrong {
			all := mutations(text, row.pattern, wrong)
			if len(all) < row.least {
				t.Errorf("%s: only %d places", row.pattern, len(all))
			}
			for _, m := range all {
				if list := m.list(t); !list.HasErrors() {
					t.Errorf("line %d: %s is accepted", m.line, m.what)
				} else if !slices.ContainsFunc(list, func(d diag.Diagnostic) bool { return d.Pos.Line == m.line }) {
					t.Errorf("line %d: %s is reported elsewhere only: %v", m.line, m.what, list)
				}
			}
		}
	}
}

// TestUnknownKeys: every key misspelt is refused and the right one is put
// forward, or what is missing now is.
func TestUnknownKeys(t *testing.T) {
	text := read(t, "testdata/every-key.toml")
	all := mutations(text, `\b([a-z_]{3,}) = `, "xyzzy")
	if len(all) < 98 {
		t.Fatalf("only %d keys", len(all))
	}
	for _, m := range all {
		list := m.list(t)
		known := slices.ContainsFunc(list, func(d diag.Diagnostic) bool {
			return d.Severity == diag.Error && d.Pos.Line == m.line && strings.HasSuffix(d.Key, "xyzzy")
		})
		if !known {
			t.Errorf("line %d: %s: %v", m.line, m.what, list)
		}
	}
}

// TestMisspeltNames: every use of a name misspelt by one letter is refused at
// its place, with the name as what to try.
func TestMisspeltNames(t *testing.T) {
	text := read(t, "testdata/every-key.toml")
	uses := []struct{ pattern, name string }{
		{`fit = \{ (lamps) = "b`, "lamps"},
		{`fit = \{ lamps = "(brass)"`, "brass"},
		{`only = \{ (lamps)`, "lamps"},
		{`only = \{ lamps = \["(black)"`, "black"},
		{`feature = "(lamps)"`, "lamps"},
		{`odds = \{ (layout)`, "layout"},
		{`odds = \{ (cabinet)`, "cabinet"},
		{`\{(lamps)\}`, "lamps"},
		{`"(photo)"`, "photo"},
		{`point = "(lamp-front)"`, "lamp-front"},
		{`point = "rim", state = \[?"(bare)"`, "bare"},
		{`state = "(missing)"`, "missing"},
		{`figure = "(repair-share)"`, "repair-share"},
		{`symptom = "(dark)"`, "dark"},
		{`level = "(stop)"`, "stop"},
		{`\{(repair-share)\}`, "repair-share"},
	}
	for _, use := range uses {
		swapped := use.name[:1] + use.name[2:3] + use.name[1:2] + use.name[3:] // two letters the other way round
		all := mutations(text, use.pattern, swapped)
		if len(all) == 0 {
			t.Errorf("no place like %s", use.pattern)
		}
		for _, m := range all {
			meant := func(d diag.Diagnostic) bool {
				return d.Severity == diag.Error && d.Pos.Line == m.line && d.Try == `"`+use.name+`"`
			}
			if list := m.list(t); !slices.ContainsFunc(list, meant) {
				t.Errorf("line %d: %s: %v", m.line, m.what, list)
			}
		}
	}
}

// TestRequired: which keys may be left out, and which not. Taking a line out
// leaves a family or is refused, as the table says.
func TestRequired(t *testing.T) {
	text := read(t, "testdata/every-key.toml")
	for _, row := range []struct {
		line string // as it stands there, once
		need bool
	}{
		{`format = 1`, true},
		{`id = "tarnside-r2"`, true},
		{`title = "Tarnside R2 railcar"`, true},
		{`scale = "H0"`, false},
		{`break_minutes = 12.5`, false},
		{`title = "Lamps"`, false},
		{`options = ["brass", "black"]`, true},
		{`tell = "Colour of the rim"`, false},
		{`id = "410"`, true},
		{`title = "cream"`, false},
		{`years = [1961, 1966]`, false},
		{`made = 2.5`, false},
		{`guide = "80.50 EUR"`, false},
		{`fit = { lamps = "brass" }`, true},
		{`id = "lamp-front"`, true},
		{`title = "Front lamp"`, false},
		{`area = "body"`, false},
		{`how = "Look at the rim"`, false},
		{`ask = "Could you show the front?"`, false},
		{`weight = 3.5`, false},
		{`see = ["photo", "hand"]`, false},
		{`mind = ["opening", "power", "solvent"]`, false},
		{`minutes = 0.5`, false},
		{`feature = "lamps"`, false},
		{`needed_to_run = true`, false},
		{`measure = { unit = "V", what = "voltage at the lamp", within = 0.5, source = "invented" }`, true}, // there are ranges
		{`range = { from = 10, to = 16.5 }`, false},
		{`range = { from = 12.5 }`, false},
		{`yields = ["lamp-{lamps}"]`, false},
		{`score = 0.5`, false},
		{`factor = 0.9`, false},
		{`original = false`, false},
		{`odds = { layout = 4 }`, false},
		{`needs = [{ part = "lamp-{lamps}", qty = 2 }, "screw"]`, false},
		{`spend = "0.30 EUR"`, false},
		{`minutes = 10`, false},
		{`complete = false`, false},
		{`cure = "none"`, false},
		{`stop = "the socket is gone with it"`, false},
		{`only = { lamps = ["black"] }`, false},
		{`leak = 0.02`, false},
		{`leak = 0.5`, true}, // nothing else causes it
		{`group = "lamp"`, false},
		{`guide = "9 EUR"`, false},
		{`sells = "1/4"`, false},
		{`level = "stop"`, true},
		{`say = "Repairs are {repair-share}."`, true},
	} {
		if n := strings.Count(text, "\n"+row.line+"\n"); n != 1 {
			t.Errorf("%s stands there %d times", row.line, n)
			continue
		}
		m := mutation{text: strings.Replace(text, "\n"+row.line+"\n", "\n", 1)}
		if list := m.list(t); list.HasErrors() != row.need {
			t.Errorf("without %s: %v", row.line, list)
		}
	}
}

// TestAnyOrder: the lists of a family may stand in any order in the file.
func TestAnyOrder(t *testing.T) {
	text := read(t, "testdata/every-key.toml")
	heads := regexp.MustCompile(`(?m)^\[\[\w+\]\]$`).FindAllStringIndex(text, -1)
	blocks := []string{}
	for i, at := range heads {
		end := len(text)
		if i+1 < len(heads) {
			end = heads[i+1][0]
		}
		blocks = append(blocks, text[at[0]:end])
	}
	slices.SortStableFunc(blocks, func(a, b string) int { // the order within a list stays
		return -strings.Compare(a[:strings.Index(a, "]]")], b[:strings.Index(b, "]]")])
	})
	doc := diag.ReadDocument("every-key.toml", strings.NewReader(text[:heads[0][0]]+strings.Join(blocks, "")))
	got := Read(doc, drawer(t))
	if err := doc.Diagnostics().Err(); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(blocks[0], "[[variant]]") {
		t.Fatalf("the first block is %q", blocks[0])
	}
	if diff := cmp.Diff(everyKey(t), got); diff != "" {
		t.Errorf("family (-want +got):\n%s", diff)
	}
}

// TestAgain: reading the same text again gives the same, and proving again adds
// nothing.
func TestAgain(t *testing.T) {
	for _, text := range append(caseDocuments(t), read(t, "testdata/every-key.toml")) {
		first, second := diag.ReadDocument("f", strings.NewReader(text)), diag.ReadDocument("f", strings.NewReader(text))
		f, g := Read(first, nil), Read(second, nil)
		if diff := cmp.Diff(f, g); diff != "" {
			t.Errorf("%s\n(-first +second):\n%s", text, diff)
		}
		Prove(f, first)
		Prove(g, second)
		Prove(g, second)
		if diff := cmp.Diff(first.Diagnostics(), second.Diagnostics()); diff != "" {
			t.Errorf("%s\n(-once +twice):\n%s", text, diff)
		}
	}
}
