package diag

import (
	"cmp"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	gocmp "github.com/google/go-cmp/cmp"
)

// The parser knows no positions, but it knows which keys there are, in which
// order, and what tables and arrays they form. It is the oracle of the locator.

// TestLocateAgreesWithParser compares both on documents that use all of TOML.
func TestLocateAgreesWithParser(t *testing.T) {
	for _, name := range documents(t) {
		t.Run(filepath.Base(name), func(t *testing.T) {
			text := readFile(t, name)
			if !agree(t, text) {
				t.Fatal("the parser refuses this document")
			}
			agree(t, strings.ReplaceAll(text, "\n", "\r\n"))
		})
	}
}

// tokens are what random documents are made of; the first are the more likely.
var tokens = []string{
	"a", "b", "a = 1\n", "b = 2\n", "\n", ".", " = ", "[", "]", "[[", "]]", "{ ", " }", ", ", "1", "[a]\n", "[[a]]\n", "[a.b]\n", "[[a.b]]\n",
	"a.b = 1\n", "a = [", "b = {", "a = {", "'", "\"", "\"\"\"", "'''", "\\", "# ", "\r\n", " ", "2026-03-14", "\"a\"", "\"\\u0061\"", "'b'", "é",
}

// soup makes a document of tokens: most are refused, but of short ones many
// are not, among them those that define a key in two ways.
func soup(choices []byte) string {
	var b strings.Builder
	for _, c := range choices {
		b.WriteString(tokens[int(c)%len(tokens)])
	}
	return b.String()
}

// TestLocateSoup compares locator and parser on random documents.
func TestLocateSoup(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	accepted := 0
	for range 20_000 {
		choices := make([]byte, 2+random.IntN(8))
		for i := range choices {
			choices[i] = byte(random.IntN(len(tokens)))
		}
		text := soup(choices)
		if d := ReadDocument("f.toml", strings.NewReader(text)); len(d.Diagnostics()) == 0 {
			accepted++
			if !agree(t, text) {
				t.Errorf("the parser refuses %q", text)
			}
		}
		if t.Failed() {
			t.Fatalf("in %q", text)
		}
	}
	if accepted < 200 {
		t.Errorf("only %d documents could be compared", accepted)
	}
}

// agree holds the locator against the parser; false where the parser refuses
// the text, and there is nothing to compare.
func agree(t *testing.T, text string) bool {
	t.Helper()
	var data map[string]any
	md, err := toml.Decode(text, &data)
	if err != nil {
		return false
	}
	found := locate(text)
	if found.tooDeep >= 0 {
		return false
	}
	var want []string
	for _, key := range md.Keys() {
		want = append(want, key.String())
	}
	if diff := gocmp.Diff(want, keysInOrder(found.root)); diff != "" {
		t.Errorf("keys (-parser +locator):\n%s", diff)
	}
	checkShape(t, text, "", found.root, data)
	return true
}

// keysInOrder lists the keys that have a header or value of their own, in the
// order of the text, as MetaData.Keys does.
func keysInOrder(root *place) []string {
	type entry struct {
		offset int
		key    string
	}
	var entries []entry
	var walk func(p *place, path toml.Key)
	walk = func(p *place, path toml.Key) {
		if p.defined {
			entries = append(entries, entry{p.key, path.String()})
		}
		for _, c := range p.children {
			walk(c, append(slices.Clone(path), c.name))
		}
		for _, item := range p.items {
			walk(item, path)
		}
	}
	walk(root, nil)
	slices.SortStableFunc(entries, func(a, b entry) int { return cmp.Compare(a.offset, b.offset) })
	var keys []string
	for _, e := range entries {
		keys = append(keys, e.key)
	}
	return keys
}

// checkShape compares a place with the value the parser found there: the same
// keys, as many elements, and text that can be such a value.
func checkShape(t *testing.T, text, path string, p *place, value any) {
	t.Helper()
	switch v := value.(type) {
	case map[string]any:
		var names []string
		for _, c := range p.children {
			names = append(names, c.name)
		}
		slices.Sort(names)
		if diff := gocmp.Diff(slices.Sorted(maps.Keys(v)), names); diff != "" {
			t.Errorf("table %q (-parser +locator):\n%s", path, diff)
			return
		}
		for name, v := range v {
			checkShape(t, text, join(path, name), p.child(name), v)
		}
	default:
		list, isList := asList(value)
		if len(p.items) != len(list) {
			t.Errorf("array %q has %d elements, located %d", path, len(list), len(p.items))
			return
		}
		for i, v := range list {
			checkShape(t, text, itemPath(path, i), p.items[i], v)
		}
		if !isList {
			checkScalar(t, text[p.value:], path, v)
		}
	}
}

// checkScalar decodes the text at the place of a value and compares.
func checkScalar(t *testing.T, text, path string, want any) {
	t.Helper()
	if _, isText := want.(string); !isText {
		text = text[:strings.IndexAny(text+"\n", ",]}#\r\n")]
	} else {
		s := scanner{text: text}
		s.quoted()
		text = text[:s.pos]
	}
	got, err := decode("x = " + text)
	if err != nil {
		t.Errorf("%s: the text %q is no value: %v", path, text, err)
	} else if diff := gocmp.Diff(want, got["x"], nanEqual); diff != "" {
		t.Errorf("%s: the value (-parser +located):\n%s", path, diff)
	}
}

var nanEqual = gocmp.Comparer(func(a, b float64) bool { return a == b || a != a && b != b })

// documents are the valid documents of the test data.
func documents(t testing.TB) []string {
	t.Helper()
	names, err := filepath.Glob("../../testdata/diag/document/valid/*.toml")
	if err != nil || len(names) == 0 {
		t.Fatalf("no documents: %v", err)
	}
	return names
}

func readFile(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
